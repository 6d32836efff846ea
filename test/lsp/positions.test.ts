/** Columns in the three encodings of the protocol. Widths are those of UTF-8 (RFC 3629) and UTF-16 (RFC 2781). */
import assert from 'node:assert/strict';
import { chooseEncoding, columnFrom, columnTo } from '../../server/src/lsp/positions.ts';

// One byte and unit; two bytes; three bytes; four bytes and two units.
const LINE = 'aß♭😀z';

describe('columns', () => {
  it('are counted in the client’s encoding', () => {
    assert.deepEqual(
      [0, 1, 2, 3, 5, 6].map((units) => columnTo(LINE, units, 'utf-8')),
      [0, 1, 3, 6, 10, 11],
    );
    assert.deepEqual(
      [0, 1, 2, 3, 5, 6].map((units) => columnTo(LINE, units, 'utf-32')),
      [0, 1, 2, 3, 4, 5],
    );
    assert.deepEqual(
      [0, 1, 2, 3, 5, 6].map((units) => columnTo(LINE, units, 'utf-16')),
      [0, 1, 2, 3, 5, 6],
    );
  });

  it('are read back to the same place', () => {
    for (const encoding of ['utf-8', 'utf-16', 'utf-32'] as const)
      for (const units of [0, 1, 2, 3, 5, 6])
        assert.equal(columnFrom(LINE, columnTo(LINE, units, encoding), encoding), units);
  });

  it('are drawn in to the line, and to the start of a sign', () => {
    assert.equal(columnFrom(LINE, 99, 'utf-8'), LINE.length);
    assert.equal(columnFrom(LINE, -1, 'utf-8'), 0);
    assert.equal(columnFrom(LINE, 2, 'utf-8'), 1);
    assert.equal(columnFrom(LINE, Number.NaN, 'utf-16'), 0);
    assert.equal(columnTo(LINE, 99, 'utf-32'), 5);
  });

  it('follow the client’s first choice that we know', () => {
    assert.equal(chooseEncoding(['utf-7', 'utf-8', 'utf-16']), 'utf-8');
    assert.equal(chooseEncoding([]), 'utf-16');
    assert.equal(chooseEncoding(undefined), 'utf-16');
  });
});
