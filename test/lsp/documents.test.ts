/** The array of lines after any edits is the text after the same edits. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { LineDocument, lineDocuments, linesOf } from '../../server/src/lsp/documents.ts';
import { columnFrom, type Encoding } from '../../server/src/lsp/positions.ts';
import { LineMap } from '../../server/src/util/line-map.ts';

const PIECES = ['\n', '\r', '\r\n', 'G', ' | ', '♭', '😀', '', 'shape lamp'];
const text = fc.array(fc.constantFrom(...PIECES), { maxLength: 24 }).map((pieces) => pieces.join(''));
const place = fc.record({ line: fc.nat({ max: 14 }), character: fc.nat({ max: 16 }) });
const change = fc.record({ start: place, end: place, text });

type Place = { line: number; character: number };

/** The plain way: offsets in the whole text. */
function replacedInText(whole: string, one: Place, other: Place, written: string, encoding: Encoding): string {
  const map = new LineMap(whole);
  const offset = ({ line, character }: Place): number =>
    map.offsetAt({ line, character: columnFrom(map.line(line), character, encoding) });
  const [start, end] = [offset(one), offset(other)].sort((a, b) => a - b);
  return whole.slice(0, start) + written + whole.slice(end);
}

function checkEdits(encoding: Encoding): void {
  const documents = lineDocuments(() => encoding);
  fc.assert(
    fc.property(text, fc.array(change, { maxLength: 8 }), (first, changes) => {
      let document = documents.create('lesson:a', 'stringcourse', 1, first);
      let whole = first;
      for (const { start, end, text: written } of changes) {
        document = documents.update(document, [{ range: { start, end }, text: written }], document.version + 1);
        whole = replacedInText(whole, start, end, written, encoding);
        assert.equal(document.text, whole);
        assert.deepEqual(document.lines, linesOf(whole));
      }
    }),
    { seed: 4, numRuns: 600 },
  );
}

describe('a document of lines', () => {
  for (const encoding of ['utf-8', 'utf-16', 'utf-32'] as const)
    it(`takes any edits as the text would, in ${encoding}`, () => checkEdits(encoding));

  it('cuts lines where the line map does', () => {
    fc.assert(
      fc.property(text, (whole) => {
        const map = new LineMap(whole);
        let start = 0;
        const starts = linesOf(whole).map((line) => (start += line.length) - line.length);
        assert.deepEqual(starts, map.starts);
      }),
      { seed: 4 },
    );
  });

  it('takes several changes of one message, each on the text the one before left', () => {
    const documents = lineDocuments(() => 'utf-16');
    const at = (line: number, character: number): Place => ({ line, character });
    const document = documents.update(
      new LineDocument('lesson:a', 1, linesOf('one\r\ntwo')),
      [
        { range: { start: at(0, 3), end: at(1, 0) }, text: ' ' },
        { range: { start: at(0, 7), end: at(0, 7) }, text: '\nthree' },
      ],
      2,
    );
    assert.equal(document.text, 'one two\nthree');
    assert.equal(document.version, 2);
    assert.equal(documents.update(document, [{ text: 'new' }], 3).text, 'new');
  });

  it('joins a lone CR with an LF written behind it', () => {
    const documents = lineDocuments(() => 'utf-16');
    const start = { line: 1, character: 0 };
    const document = documents.update(
      documents.create('lesson:a', 'stringcourse', 1, 'one\rtwo'),
      [{ range: { start, end: start }, text: '\n' }],
      2,
    );
    assert.deepEqual(document.lines, ['one\r\n', 'two']);
  });
});
