/** Fret lists as players write them. */
import assert from 'node:assert/strict';
import { formatFretList, indexOfString, parseFretList, stringAtIndex } from '../../server/src/fretboard/frets.ts';

describe('fret lists', () => {
  for (const [text, frets] of [
    ['x-7-9-9-0-0', [null, 7, 9, 9, 0, 0]],
    ['x79900', [null, 7, 9, 9, 0, 0]],
    ['X32010', [null, 3, 2, 0, 1, 0]],
    ['10-12-12-11-10-10', [10, 12, 12, 11, 10, 10]],
    ['x02', [null, 0, 2]],
    ['0003', [0, 0, 0, 3]],
    ['x-x-x-x-x-x', [null, null, null, null, null, null]],
    ['1-2-3-4-5-6-7-8-9-10-11-12', [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]],
  ] as const) {
    it(`reads ${text}`, () => assert.deepEqual(parseFretList(text, 0), frets));
  }

  for (const text of [
    '',
    'x',
    'x0',
    'x-0',
    '1-2-3-4-5-6-7-8-9-10-11-12-13',
    'x-7-9-',
    '-x-7-9',
    'x--7-9',
    'x-79900',
    'xyz',
    '1-2-100',
    '١٢٣',
  ]) {
    it(`does not read "${text}"`, () => assert.equal(parseFretList(text, 0), undefined));
  }

  it('wants as many places as there are strings, where that is known', () => {
    assert.deepEqual(parseFretList('0003', 4), [0, 0, 0, 3]);
    assert.equal(parseFretList('0003', 6), undefined);
  });

  it('is written with hyphens and reads back', () => {
    assert.equal(formatFretList([null, 7, 9, 9, 0, 0]), 'x-7-9-9-0-0');
    for (const text of ['x-x-0-2-3-2', '10-12-x', '3-2-0-0-0-3']) {
      assert.equal(formatFretList(parseFretList(text, 0) ?? []), text);
    }
  });

  it('starts with the string of the highest number', () => {
    assert.deepEqual([indexOfString(6, 6), indexOfString(1, 6), indexOfString(4, 4)], [0, 5, 0]);
    assert.deepEqual([stringAtIndex(0, 6), stringAtIndex(5, 6)], [6, 1]);
  });
});
