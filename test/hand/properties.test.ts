/** What must hold for any shape at all: tried on shapes made up at random, against an independent checker. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { formatFretList } from '../../server/src/fretboard/frets.ts';
import type { FretList } from '../../server/src/fretboard/frets.ts';
import { instrumentWith } from '../../server/src/fretboard/instrument.ts';
import { tuningNamed, tuningOf } from '../../server/src/fretboard/tuning.ts';
import { judgeShape } from '../../server/src/hand/fingering.ts';
import type { HandSize } from '../../server/src/hand/fingering.ts';
import { HAND_FACTOR, MOST_FINGERING_STEPS, ZONES } from '../../server/src/hand/model.ts';
import { parsePitch } from '../../server/src/theory/note.ts';
import { allAllowed, whatIsWrong, zoneOf } from './checker.ts';

const standard = tuningNamed('standard') ?? assert.fail();
const guitar = instrumentWith(standard);
const SIZES: readonly HandSize[] = ['small', 'medium', 'large'];
const written = (fingers: readonly (number | null)[]): string => fingers.map((finger) => finger ?? 'x').join('-');

/** A grip somewhere on the neck: silent and open strings, and frets within five of each other. */
const grips = (strings: number, highest: number, width = 4): fc.Arbitrary<FretList> =>
  fc
    .tuple(
      fc.integer({ min: 1, max: highest - width }),
      fc.array(fc.constantFrom(null, 0, -1, -2, -3, -4, -5), { minLength: strings, maxLength: strings }),
    )
    .map(([base, marks]) =>
      marks.map((mark) => (mark === null || mark === 0 ? mark : base + Math.min(width, -mark - 1))),
    );

/** The same without open strings. */
const closedGrips = (strings: number, highest: number): fc.Arbitrary<FretList> =>
  grips(strings, highest).map((frets) => frets.map((fret) => (fret === 0 ? null : fret)));

const sizes = fc.constantFrom(...SIZES);

describe('fingering: what holds for any shape', () => {
  it('every fingering passes the independent checker, and says no narrower zone than it', () => {
    fc.assert(
      fc.property(grips(6, 20), sizes, fc.integer({ min: 0, max: 3 }), (frets, size, capo) => {
        const instrument = instrumentWith(standard, capo > 0 ? { capo: { fret: capo }, frets: 24 } : { frets: 24 });
        const neck = { scaleLength: 648, capo };
        for (const each of judgeShape(instrument, frets, size).fingerings) {
          const about = `${formatFretList(frets)} ${written(each.fingers)}`;
          assert.deepEqual(whatIsWrong(neck, frets, each.fingers, size), [], about);
          const zone = ZONES.indexOf(each.zone);
          const pairs = zoneOf(neck, frets, each.fingers, HAND_FACTOR[size]);
          assert.ok(zone === pairs || (each.zone === 'extreme' && each.cost > 11_000_000), about);
        }
      }),
      { numRuns: 400 },
    );
  });

  it('finds every fingering that the checker allows', () => {
    fc.assert(
      fc.property(grips(6, 16), sizes, (frets, size) => {
        const found = judgeShape(guitar, frets, size).fingerings.map((each) => written(each.fingers));
        assert.deepEqual(found.sort(), allAllowed({ scaleLength: 648, capo: 0 }, frets, size), formatFretList(frets));
      }),
      { numRuns: 120 },
    );
  });

  it('a bigger hand never finds a shape harder', () => {
    fc.assert(
      fc.property(grips(6, 20), (frets) => {
        const verdicts = SIZES.map((size) => judgeShape(guitar, frets, size));
        for (const i of [1, 2]) {
          assert.ok(ZONES.indexOf(verdicts[i].zone) <= ZONES.indexOf(verdicts[i - 1].zone));
          assert.ok(verdicts[i].effort <= verdicts[i - 1].effort);
          assert.ok(verdicts[i].fingerings.length >= verdicts[i - 1].fingerings.length);
        }
      }),
      { numRuns: 1000 },
    );
  });

  it('the same grip with the same fingers is never a wider stretch higher up', () => {
    fc.assert(
      fc.property(closedGrips(6, 12), fc.integer({ min: 1, max: 8 }), sizes, (frets, up, size) => {
        const above = frets.map((fret) => (fret === null ? null : fret + up));
        const higher = judgeShape(guitar, above, size);
        for (const low of judgeShape(guitar, frets, size).fingerings) {
          const high = higher.fingerings.find((each) => written(each.fingers) === written(low.fingers));
          assert.ok(high, `${written(low.fingers)} is lost at ${formatFretList(above)}`);
          assert.ok(ZONES.indexOf(high.zone) <= ZONES.indexOf(low.zone));
          if (String(high.widest?.fingers) !== String(low.widest?.fingers)) continue;
          assert.ok((high.widest?.millimetres ?? 0) <= (low.widest?.millimetres ?? 0));
        }
        assert.ok(ZONES.indexOf(higher.zone) <= ZONES.indexOf(judgeShape(guitar, frets, size).zone));
      }),
      { numRuns: 400 },
    );
  });

  it('another open string never makes a shape without a barre unplayable', () => {
    fc.assert(
      fc.property(grips(6, 20), fc.nat(5), sizes, (frets, string, size) => {
        const before = judgeShape(guitar, frets, size);
        const single = before.fingerings.some((each) => {
          const used = each.fingers.filter((finger) => finger);
          return new Set(used).size === used.length;
        });
        fc.pre(single && frets[string] === null);
        const opened = frets.map((fret, i) => (i === string ? 0 : fret));
        assert.equal(judgeShape(guitar, opened, size).playable, true);
      }),
      { numRuns: 400 },
    );
  });

  it('judges whatever it is given within its steps, with a reason for every refusal', () => {
    const note = parsePitch('A2') ?? assert.fail();
    const anyFret = fc.oneof(fc.constant(null), fc.integer({ min: -2, max: 40 }), fc.integer({ min: 1, max: 5 }));
    fc.assert(
      fc.property(
        fc.integer({ min: 3, max: 12 }),
        fc.array(anyFret, { maxLength: 13 }),
        sizes,
        (strings, frets, size) => {
          const tuning = tuningOf(Array.from({ length: strings }, () => note)) ?? assert.fail();
          const verdict = judgeShape(instrumentWith(tuning), frets, size);
          assert.ok(verdict.steps <= MOST_FINGERING_STEPS);
          assert.equal(verdict.playable, verdict.fingerings.length > 0);
          assert.equal(verdict.whyNot === undefined, verdict.playable);
          assert.ok(verdict.difficulty >= 0 && verdict.difficulty <= 10 && Number.isInteger(verdict.effort));
          for (const each of verdict.fingerings) assert.ok(Number.isInteger(each.cost) && each.cost >= 0);
        },
      ),
      { numRuns: 500 },
    );
  });
});
