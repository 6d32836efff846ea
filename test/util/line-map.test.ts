import assert from 'node:assert/strict';
import { LineMap } from '../../server/src/util/line-map.ts';

describe('line map', () => {
  it('knows every kind of line end', () => {
    const map = new LineMap('a\r\nb\rc\nd');
    assert.equal(map.lineCount, 4);
    assert.deepEqual(
      [0, 1, 2, 3].map((line) => map.line(line)),
      ['a', 'b', 'c', 'd'],
    );
  });
  it('goes to a position and back', () => {
    const text = 'key G\n\nmeter 3/4';
    const map = new LineMap(text);
    for (let offset = 0; offset <= text.length; offset++) assert.equal(map.offsetAt(map.positionAt(offset)), offset);
    assert.equal(map.offsetAt({ line: 9, character: 9 }), text.length);
    assert.deepEqual(map.positionAt(-1), { line: 0, character: 0 });
  });
});
