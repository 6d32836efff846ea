/** What is said of frets that no hand can hold: one lesson for each reason. */
import assert from 'node:assert/strict';
import { analyze } from '../../server/src/analyze.ts';

/** The finding about the hand for these frets, whatever chord they are: `code: reason`. */
function refusalOf(frets: string): string {
  const text = `progression quay\n  C as ${frets}\n\nsection verse\n  progression quay\n`;
  const found = analyze(text).findings.find(({ code }) => code === 'not-playable' || code === 'barre-over-open-string');
  return found ? `${found.code}: ${found.message.replace(/^No medium hand can hold `C` so: /, '')}` : 'playable';
}

describe('frets that no hand can hold', () => {
  const cases: readonly (readonly [string, string])[] = [
    ['3-5-5-4-5-2', 'not-playable: it would take 5 fingers; leave a string out.'],
    [
      '1-3-0-2-1-3',
      'barre-over-open-string: a barre of the index finger at fret 1 would lie over string 4, which must ring open; press it, or leave it out.',
    ],
    [
      '5-7-5-6-4-0',
      'barre-over-open-string: a barre of the middle finger at fret 5 would touch string 1, which must ring open; press it, or leave it out.',
    ],
    [
      '6-0-8-7-5-7',
      'not-playable: a barre of the ring finger at fret 7 leaves no room for the lower fret on string 2; leave one of the two out.',
    ],
    [
      '5-4-6-4-4-3',
      'not-playable: a barre of the middle finger at fret 4 leaves no room for the lower fret on string 1; leave one of the two out.',
    ],
    [
      '3-x-x-4-x-12',
      'not-playable: the index finger at fret 3 and the little finger at fret 12 would lie 224.2 mm apart; bring them within its reach of 130.',
    ],
    [
      '5-2-2-1-3-1',
      'not-playable: the middle finger at fret 2 and the little finger at fret 5 would lie 93.2 mm apart; bring them within its reach of 90.',
    ],
    [
      '5-6-8-7-7-6',
      'not-playable: the middle finger would have to cover strings 5 to 1, 32 mm, and covers 27; leave a string out.',
    ],
    ['8-10-9-8-0-7', 'not-playable: the frets ask too much at once of a medium hand; leave a string out.'],
    ['3-2-0-0-0-3', 'playable'],
  ];
  for (const [frets, said] of cases) it(frets, () => assert.equal(refusalOf(frets), said));
});
