/** Every voicing that a rule allows, checked by other means than those that found it; and why there is none. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { formatFretList, type FretList } from '../../server/src/fretboard/frets.ts';
import type { ShapeRule } from '../../server/src/lesson/lesson.ts';
import { RealiseCache } from '../../server/src/realise/realise.ts';
import { MOST_VOICINGS } from '../../server/src/realise/candidates.ts';
import { voicingsOf, type Pins, type VoicingSet } from '../../server/src/realise/voicings.ts';
import { chord, instrument, key, settingsOf, shapeOf } from '../support/plan.ts';

function find(
  symbol: string,
  rule: ShapeRule,
  pins: Pins = {},
  said: Parameters<typeof settingsOf>[0] = {},
): VoicingSet {
  return voicingsOf(chord(symbol), rule, key('C major'), settingsOf(said), new RealiseCache(), pins);
}

const CLOSE = ['strings 3 2 1', 'spacing close', 'frets 1 to 13', 'reach 2'];

const lists = (set: VoicingSet): string[] => set.voicings.map(({ frets }) => formatFretList(frets)).sort();

describe('voicings of a rule', () => {
  it('finds the three close inversions of C on the upper strings', () => {
    // C E G at 5-5-3, E G C at 9-8-8 and G C E at 12-13-12, from the third string up: by hand on a fretboard chart.
    assert.deepEqual(lists(find('C', shapeOf(...CLOSE))), ['x-x-x-12-13-12', 'x-x-x-5-5-3', 'x-x-x-9-8-8']);
  });

  it('takes the bass and the top by what sounds', () => {
    assert.deepEqual(lists(find('C', shapeOf(...CLOSE, 'bass R'))), ['x-x-x-5-5-3']);
    assert.deepEqual(lists(find('C', shapeOf(...CLOSE, 'top R'))), ['x-x-x-9-8-8']);
  });

  it('opens a triad beyond the octave when asked to', () => {
    for (const { strings } of find('C', shapeOf('strings 5 3 1', 'spacing spread', 'frets 0 to 12')).voicings) {
      const midis = strings.map(({ midi }) => midi);
      assert.ok(Math.max(...midis) - Math.min(...midis) > 12);
    }
  });

  it('measures the spacing of the strings that carry the chord, not of what rings open beside them', () => {
    // D F# A close on the upper three strings, over the open sixth: D F# A at 7-7-5, F# A D at 11-10-10, A D F# at 2-3-2.
    const open = shapeOf(...CLOSE, 'open 6');
    assert.deepEqual(lists(find('D', open)), ['0-x-x-11-10-10', '0-x-x-2-3-2', '0-x-x-7-7-5']);
  });

  it('has a listed string open only where the frets begin at 0', () => {
    assert.ok(lists(find('Em', shapeOf('strings 3 2 1', 'tones 3 5 R', 'frets 0 to 12'))).includes('x-x-x-0-0-0'));
    assert.ok(!lists(find('Em', shapeOf('strings 3 2 1', 'tones 3 5 R', 'frets 1 to 12'))).includes('x-x-x-0-0-0'));
  });

  it('lets open strings ring that colour and do not offend', () => {
    const shape = ['strings 5 4', 'tones R 5', 'open any', 'frets 1 to 5'];
    // Over C5 at x-3-5 the open strings are G (5), B (7) and both E (3).
    const coloured = lists(find('C', shapeOf(...shape, 'colour 7')));
    assert.ok(coloured.includes('x-3-5-0-0-0'));
    const plain = lists(find('C', shapeOf(...shape, 'colour 9')));
    assert.ok(plain.includes('x-3-5-0-x-0') && !plain.some((frets) => frets.split('-')[4] === '0'));
    const avoided = lists(find('C', shapeOf(...shape, 'avoid 3')));
    assert.ok(avoided.includes('x-3-5-0-0-x') && !avoided.some((frets) => frets.endsWith('-0')));
  });

  it('prefers the slash bass where a free tone leaves it, and keeps the rule where it does not', () => {
    const free = find('C/E', shapeOf('strings 4 3 2', 'frets 0 to 12'));
    assert.ok(free.voicings.length > 0);
    for (const { strings } of free.voicings) assert.equal(Math.min(...strings.map(({ midi }) => midi)) % 12, 4);
    assert.deepEqual(
      lists(find('C/E', shapeOf('strings 4 3 2', 'tones R 3 5', 'frets 5 to 12'))),
      lists(find('C', shapeOf('strings 4 3 2', 'tones R 3 5', 'frets 5 to 12'))),
    );
  });

  it('holds a pin to the lowest fret pressed', () => {
    const rule = shapeOf('strings 4 3 2', 'frets 1 to 15');
    for (const { frets } of find('Am', rule, { lowestFret: 5 }).voicings) {
      assert.equal(Math.min(...frets.filter((fret) => fret !== null && fret > 0).map(Number)), 5);
    }
  });

  it('does without a barre where it must', () => {
    const sets = ['', 'barre no'].map((line) =>
      find('C', shapeOf('strings 5 4 3 2', 'tones R 5 R 3', 'frets 1 to 8', ...(line ? [line] : []))),
    );
    assert.deepEqual(lists(sets[0]), ['x-3-5-5-5-x']);
    assert.deepEqual(lists(sets[1]), ['x-3-5-5-5-x']);
    const fingers = sets[1].voicings[0].verdict.fingerings;
    assert.ok(fingers.length > 0);
    for (const each of fingers) assert.equal(new Set(each.fingers.filter((finger) => finger)).size, 4);
  });
});

describe('why there is no voicing', () => {
  const lamp = ['strings 4 2 1', 'tones 3 R 5', 'open 3'];

  it('names the reach, how many it shuts out, and one of them', () => {
    // Am with C on 4, A on 2 and E on 1 lies at 10-10-12: a reach of 1 is too little.
    assert.deepEqual(find('Am', shapeOf(...lamp, 'frets 1 to 12', 'reach 1')).none, {
      line: 'reach',
      before: 1,
      nearest: [null, null, 10, 0, 10, 12],
    });
  });

  it('names the frets', () => {
    const { none } = find('Am', shapeOf(...lamp, 'frets 1 to 9', 'reach 2'));
    assert.equal(none?.line, 'frets');
    assert.equal(formatFretList(none!.nearest!), 'x-x-10-0-10-12');
  });

  it('names the pin', () => {
    const { none } = find('Am', shapeOf(...lamp, 'frets 1 to 12', 'reach 2'), { lowestFret: 8 });
    assert.deepEqual([none?.line, none?.before], ['at', 1]);
  });

  it('names what an open string may not sound', () => {
    // Over F# the open third string is a flat ninth.
    assert.equal(find('F#', shapeOf(...lamp, 'frets 1 to 12', 'avoid b9')).none?.line, 'avoid');
    assert.equal(find('F#', shapeOf(...lamp, 'frets 1 to 12', 'colour 11')).none?.line, 'colour');
  });

  it('names the bass and the top', () => {
    assert.equal(find('C', shapeOf('strings 3 2 1', 'tones R 3 5', 'bass 3')).none?.line, 'bass');
    assert.equal(find('C', shapeOf('strings 3 2 1', 'tones R 3 5', 'top R')).none?.line, 'top');
  });

  it('names the hand where every line is kept', () => {
    // The three roots lie at frets 5, 1 and 8: seven frets beside the nut are more than any hand spans.
    const { none } = find('C', shapeOf('strings 3 2 1', 'tones R R R', 'frets 1 to 9'));
    assert.equal(none?.line, 'hand');
    assert.deepEqual(none!.nearest, [null, null, null, 5, 1, 8]);
  });

  it('names the barre', () => {
    assert.equal(
      find('C6', shapeOf('strings 5 4 3 2 1', 'tones R 5 R 3 6', 'frets 1 to 5', 'barre no')).none?.line,
      'barre',
    );
  });

  it('names strings that the instrument does not have', () => {
    assert.equal(find('C', shapeOf('strings 7 6'), {}, { instrument: instrument('ukulele') }).none?.line, 'strings');
  });
});

describe('limits', () => {
  it('says when a search is cut, and still finds voicings all along the neck', () => {
    const everything = shapeOf('strings 12 11 10 9 8 7 6 5 4 3 2 1', 'frets 0 to 20');
    const twelve = instrument('C2 F2 Bb2 Eb3 Ab3 C4 F4 A4 D5 G5 B5 E6');
    const set = find('C13', everything, {}, { instrument: twelve });
    assert.ok(set.searchCut);
    assert.ok(set.choices <= MOST_VOICINGS);
  });

  it('searches a rule of six free strings to the end', () => {
    assert.equal(find('G', shapeOf('strings 6 5 4 3 2 1', 'frets 0 to 4')).searchCut, false);
  });
});

/** Semitones above the root, by the quality's name: from any book of chords. */
const QUALITIES: Readonly<Record<string, Readonly<Record<string, number>>>> = {
  '': { R: 0, '3': 4, '5': 7 },
  m: { R: 0, '3': 3, '5': 7 },
  dim: { R: 0, '3': 3, '5': 6 },
  '7': { R: 0, '3': 4, '5': 7, '7': 10 },
  m7: { R: 0, '3': 3, '5': 7, '7': 10 },
  maj7: { R: 0, '3': 4, '5': 7, '7': 11 },
};
const ROOTS: Readonly<Record<string, number>> = { C: 0, D: 2, Eb: 3, F: 5, 'F#': 6, A: 9, B: 11 };
const OPEN_STRINGS = [40, 45, 50, 55, 59, 64];

interface Case {
  readonly root: string;
  readonly quality: string;
  readonly strings: readonly number[];
  readonly tones: readonly string[];
  readonly open: readonly number[];
  readonly lowest: number;
  readonly highest: number;
  readonly reach: number;
}

const cases: fc.Arbitrary<Case> = fc
  .record({
    root: fc.constantFrom(...Object.keys(ROOTS)),
    quality: fc.constantFrom(...Object.keys(QUALITIES)),
    order: fc.shuffledSubarray([6, 5, 4, 3, 2, 1], { minLength: 3, maxLength: 4 }),
    tones: fc.array(fc.constantFrom('R', '3', '5', 'any'), { minLength: 4, maxLength: 4 }),
    ringing: fc.boolean(),
    lowest: fc.integer({ min: 0, max: 5 }),
    width: fc.integer({ min: 3, max: 10 }),
    reach: fc.integer({ min: 1, max: 4 }),
  })
  .map(({ root, quality, order, tones, ringing, lowest, width, reach }) => ({
    root,
    quality,
    strings: order,
    tones: tones.slice(0, order.length),
    open: ringing ? [6, 5, 4, 3, 2, 1].filter((string) => !order.includes(string)).slice(0, 1) : [],
    lowest,
    highest: lowest + width,
    reach,
  }));

const ruleOf = (it: Case): ShapeRule =>
  shapeOf(
    `strings ${it.strings.join(' ')}`,
    `tones ${it.tones.join(' ')}`,
    ...(it.open.length > 0 ? [`open ${it.open.join(' ')}`] : []),
    `frets ${it.lowest} to ${it.highest}`,
    `reach ${it.reach}`,
  );

/** What is wrong with a fret list by the rule, in its own simple way; empty where nothing is. */
function faults(it: Case, frets: FretList): string[] {
  const wrong: string[] = [];
  const tones = QUALITIES[it.quality];
  const above = (index: number, fret: number): number =>
    (((OPEN_STRINGS[index] + fret - ROOTS[it.root]) % 12) + 12) % 12;
  frets.forEach((fret, index) => {
    const string = 6 - index;
    const place = it.strings.indexOf(string);
    if (place < 0 && it.open.includes(string)) {
      if (fret !== 0) wrong.push(`string ${string} must ring open`);
    } else if (place < 0) {
      if (fret !== null) wrong.push(`string ${string} must be silent`);
    } else if (fret === null || fret < it.lowest || fret > it.highest) {
      wrong.push(`string ${string} is off the frets`);
    } else {
      const sounding = above(index, fret);
      const tone = it.tones[place];
      if (tone === 'any' ? !Object.values(tones).includes(sounding) : sounding !== tones[tone]) {
        wrong.push(`string ${string} does not sound ${tone}`);
      }
    }
  });
  const pressed = frets.filter((fret) => fret !== null && fret > 0).map(Number);
  if (pressed.length > 0 && Math.max(...pressed) - Math.min(...pressed) > it.reach) wrong.push('it reaches too far');
  return wrong;
}

describe('voicings of any rule', () => {
  it('satisfy it, are playable and come once', () => {
    fc.assert(
      fc.property(cases, (it) => {
        const set = find(it.root + it.quality, ruleOf(it));
        const seen = lists(set);
        assert.equal(new Set(seen).size, seen.length);
        assert.equal(set.choices, seen.length);
        for (const { frets, verdict } of set.voicings) {
          assert.deepEqual(faults(it, frets), []);
          assert.ok(verdict.playable);
        }
        assert.equal(set.none === undefined, seen.length > 0);
      }),
      { numRuns: 150, seed: 11 },
    );
  });

  it('are all there are: fixed tones on three strings, counted by trying every fret', () => {
    fc.assert(
      fc.property(cases, (it) => {
        const three: Case = { ...it, strings: it.strings.slice(0, 3), tones: ['R', '3', '5'], open: [] };
        const set = find(three.root + three.quality, ruleOf(three));
        const tried: string[] = [];
        const fretsFor = (string: number): (number | null)[] =>
          three.strings.includes(string)
            ? Array.from({ length: three.highest - three.lowest + 1 }, (_, fret) => fret + three.lowest)
            : [null];
        const build = (string: number, frets: (number | null)[]): void => {
          if (string === 0) {
            if (faults(three, frets).length === 0) tried.push(formatFretList(frets));
            return;
          }
          for (const fret of fretsFor(string)) build(string - 1, [...frets, fret]);
        };
        build(6, []);
        const found = lists(set);
        // What is missing must be what no hand holds: three strings within four frets always can be held.
        assert.deepEqual(found, tried.sort());
      }),
      { numRuns: 40, seed: 5 },
    );
  });
});
