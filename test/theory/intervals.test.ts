import assert from 'node:assert/strict';
import {
  degreeDistance,
  degreeSemitones,
  formatDegree,
  intervalWord,
  parseDegree,
} from '../../server/src/theory/interval.ts';

const degree = (text: string) => parseDegree(text)!;

describe('degrees', () => {
  it('are read and written, the root as R or 1', () => {
    for (const text of [
      'R',
      '2',
      'b3',
      '3',
      '4',
      '#4',
      'b5',
      '5',
      '#5',
      'b6',
      '6',
      'bb7',
      'b7',
      '7',
      'b9',
      '#9',
      '#11',
      'b13',
    ]) {
      assert.equal(formatDegree(degree(text), 'R'), text);
    }
    assert.equal(formatDegree(degree('1'), 'R'), 'R');
    assert.equal(formatDegree(degree('R'), '1'), '1');
    assert.equal(formatDegree(degree('♭3'), 'R'), 'b3');
  });
  it('do not exist between the stacked thirds, nor for an altered root', () => {
    for (const wrong of ['8', '10', '12', '14', '0', 'b1', '#R', 'bbb7', 'b#9', 'x', '']) {
      assert.equal(parseDegree(wrong), undefined, wrong);
    }
  });
  it('lie above the root by the major scale', () => {
    const rows: readonly (readonly [string, number, number])[] = [
      ['R', 0, 0],
      ['b3', 3, 3],
      ['3', 4, 4],
      ['bb7', 9, 9],
      ['9', 2, 14],
      ['#9', 3, 15],
      ['11', 5, 17],
      ['#11', 6, 18],
      ['13', 9, 21],
      ['b13', 8, 20],
    ];
    for (const [text, folded, unfolded] of rows) {
      assert.equal(degreeSemitones(degree(text)), folded, text);
      assert.equal(degreeDistance(degree(text)), unfolded, text);
    }
  });
  it('have the words that players use', () => {
    const words: Readonly<Record<string, string>> = {
      R: 'root',
      b3: 'minor third',
      '3': 'major third',
      '4': 'fourth',
      b5: 'flat fifth',
      '5': 'fifth',
      '#5': 'sharp fifth',
      '6': 'sixth',
      bb7: 'diminished seventh',
      b7: 'flat seventh',
      '7': 'major seventh',
      b9: 'flat ninth',
      '9': 'ninth',
      '#9': 'sharp ninth',
      '11': 'eleventh',
      '#11': 'sharp eleventh',
      '13': 'thirteenth',
    };
    for (const [text, word] of Object.entries(words)) assert.equal(intervalWord(degree(text)), word);
  });
});
