/** Melody notes over a held shape: who plays them, what it costs the hand and the chord, and why some cannot be had. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { parseFretList } from '../../server/src/fretboard/frets.ts';
import type { FretList } from '../../server/src/fretboard/frets.ts';
import { instrumentWith } from '../../server/src/fretboard/instrument.ts';
import { tuningNamed } from '../../server/src/fretboard/tuning.ts';
import { judgeShape } from '../../server/src/hand/fingering.ts';
import type { HandSize } from '../../server/src/hand/model.ts';
import { ZONES } from '../../server/src/hand/model.ts';
import {
  hindranceOf,
  holdShape,
  nearestOnString,
  playMelody,
  sameOnAnotherString,
  wayOf,
} from '../../server/src/hand/melody.ts';
import type { HeldShape, MelodyStep } from '../../server/src/hand/melody.ts';
import { tip } from './checker.ts';
import { melodyFaults, waysThatLoseNothing } from './melody-checker.ts';

const guitar = instrumentWith(tuningNamed('standard') ?? assert.fail());
const NECK = { scaleLength: 648, capo: 0 };
const list = (text: string): FretList => parseFretList(text, 6) ?? assert.fail(text);
const bits = (strings: readonly number[]): number => strings.reduce((all, string) => all | (1 << string), 0);
const FINGERS = ['open', 'index', 'middle', 'ring', 'little'];

/** The shape with the fingers that are written, or else with its cheapest. */
function shape(frets: string, fingers?: string, size: HandSize = 'medium'): HeldShape {
  const { fingerings } = judgeShape(guitar, list(frets), size);
  const wanted = fingers && list(fingers).join();
  const found = fingerings.find((each) => !wanted || each.fingers.join() === wanted);
  return holdShape(guitar, list(frets), found ?? assert.fail(`${frets} ${fingers}`), size);
}

/** `index flatten, little lifted, lost 3, stretch 1-4 85.5`: as a player would tell it. */
function told(step: MelodyStep | undefined): string {
  if (!step) return 'unreachable';
  const parts = [step.finger === 0 && step.way === 'open' ? 'open' : `${FINGERS[step.finger]} ${step.way}`];
  if (step.lifted.length > 0) parts.push(`${step.lifted.map((finger) => FINGERS[finger]).join(' ')} lifted`);
  if (step.lost.length > 0) parts.push(`lost ${step.lost.join(' ')}`);
  if (step.zone !== 'comfortable')
    parts.push(`${step.zone} ${step.widest?.fingers.join('-')} ${step.widest?.millimetres}`);
  return parts.join(', ');
}

/** The cheapest way to fret `fret` of `string` over a shape while `ringing` go on. */
const way = (held: HeldShape, string: number, fret: number, ringing: readonly number[]): string =>
  told(wayOf(held, { string, fret, mustRing: bits(ringing) }));

/** A whole melody on string 1 while strings 4, 3 and 2 ring on. */
function overLamp(frets: string, melody: readonly number[]): readonly string[] {
  const { fingerings } = judgeShape(guitar, list(frets), 'medium');
  const notes = melody.map((fret) => ({ string: 1, fret, mustRing: bits([4, 3, 2]) }));
  const { steps, fingering } = playMelody(guitar, list(frets), fingerings, 'medium', notes);
  return [fingerings[fingering].fingers.map((finger) => finger ?? 'x').join(''), ...steps.map(told)];
}

describe('melody over a held shape: a three-note chord with a ringing open string', () => {
  // The chord tone, the step below and the tone again, as an independent calculation has it: index flattened over G and D,
  // the little finger lifted over Em and Am.
  it('over G: the index lies flat for the step below', () => {
    const there = 'ring already there';
    assert.deepEqual(overLamp('x-x-9-0-8-10', [10, 8, 10]), ['xx2013', there, 'index flatten, ring lifted', there]);
  });

  it('over D: the same seven frets lower', () => {
    const there = 'ring already there';
    assert.deepEqual(overLamp('x-x-4-0-3-5', [5, 3, 5]), ['xx2013', there, 'index flatten, ring lifted', there]);
  });

  it('over Em and Am: the little finger lifts off the ring finger below it', () => {
    const there = 'little already there';
    for (const [frets, melody] of [
      ['x-x-5-0-5-7', [7, 5, 7]],
      ['x-x-10-0-10-12', [12, 10, 12]],
    ] as const) {
      assert.deepEqual(overLamp(frets, melody), ['xx1024', there, 'ring lift, little lifted', there]);
    }
  });

  it('a step above over D lies at the edge of reach: frets 3 to 7, 114 mm', () => {
    const [, , above] = overLamp('x-x-4-0-3-5', [5, 7, 3]);
    assert.equal(above, 'little free finger, extreme 1-4 114.1');
    assert.equal(Math.round(tip(NECK, 7) - tip(NECK, 3)), 114);
  });
});

describe('melody over a held shape: the ways in their order', () => {
  const C = 'x-3-2-0-1-0';

  it('a note of the shape is there, and an open string outside it rings for nothing', () => {
    assert.equal(way(shape(C), 2, 1, [5, 4, 3, 1]), 'index already there');
    assert.equal(way(shape(C), 1, 0, [5, 4, 3, 2]), 'open');
    assert.equal(way(shape('x-x-0-2-3-x'), 1, 0, [4, 3, 2]), 'open');
  });

  it('lifting a finger leaves the open string: D to Dsus2, C to Cmaj7', () => {
    assert.equal(way(shape('x-x-0-2-3-2', 'xx0132'), 1, 0, [4, 3, 2]), 'open lift, middle lifted');
    assert.equal(way(shape(C), 2, 0, [5, 4, 3, 1]), 'open lift, index lifted');
  });

  it('lifting a finger leaves the barre below: F major to F minor, A-shape barre', () => {
    assert.equal(way(shape('133211', '134211'), 3, 1, [6, 5, 4, 2, 1]), 'index lift, middle lifted');
    assert.equal(way(shape('133211', '134211'), 4, 1, [6, 5, 3, 2, 1]), 'index lift, little lifted');
  });

  it('a free finger takes a note above: D to Dsus4, C to Cadd11', () => {
    assert.equal(way(shape('x-x-0-2-3-2', 'xx0132'), 1, 3, [4, 3, 2]), 'little free finger');
    assert.equal(way(shape(C), 1, 3, [5, 4, 3, 2]), 'little free finger');
  });

  it('a finger lies flat where no other is free for that fret', () => {
    assert.equal(way(shape('x-x-9-0-8-10', 'xx2013'), 1, 8, [4, 3, 2]), 'index flatten, ring lifted');
    assert.equal(way(shape('x-x-7-6-5-x', 'xx321x'), 1, 5, [4, 3, 2]), 'index flatten');
    // C and its sixth: with the ring finger on fret 3 the little one cannot go behind it.
    assert.equal(way(shape(C), 3, 2, [5, 4, 2, 1]), 'middle flatten');
  });

  it('the holder moves along its string where every other finger is needed', () => {
    assert.equal(way(shape('x-14-13-14-15-x', 'x2134x'), 2, 16, [5, 4, 3]), 'little slide');
    assert.equal(way(shape('x-14-13-14-12-x', 'x3241x'), 3, 15, [5, 4, 2]), 'little slide');
  });

  it('a finger is released only where its strings may stop, and what stops is said', () => {
    const held = shape('3-2-0-0-3-3', '210034');
    // All four fingers lie; fret 2 of the third string needs one of them.
    assert.equal(way(held, 3, 2, [6, 5, 4, 2, 1]), 'unreachable');
    assert.equal(way(held, 3, 2, [6, 4, 2, 1]), 'index release, lost 5');
    assert.match(way(held, 1, 2, [6, 2]), /lost 5$/);
  });

  it('a barre across the string at a higher fret forbids a lower note', () => {
    const held = shape('577655', '134211');
    assert.equal(way(held, 1, 3, [6, 5, 4, 3, 2]), 'unreachable');
    assert.equal(way(held, 1, 0, [6, 5, 4, 3, 2]), 'unreachable');
    assert.equal(way(held, 2, 8, [6, 5, 4, 3, 1]), 'unreachable');
    assert.equal(way(held, 2, 8, [6, 5, 3, 1]), 'little release, lost 4');
  });

  it('an open string below a flattened finger stops, and is lost only where it may', () => {
    const held = shape('x-x-2-0-1-x', 'xx201x');
    assert.equal(way(held, 1, 1, [4, 3, 2]), 'index flatten');
    const wide = shape('x-3-x-0-1-x', 'x3x01x');
    assert.doesNotMatch(way(wide, 4, 3, [5, 3, 2]), /lost/);
  });
});

describe('melody over a held shape: why not, and what instead', () => {
  it('says between which fingers and how far', () => {
    const held = shape('x-3-2-0-1-0');
    const note = { string: 1, fret: 9, mustRing: bits([5, 4, 3, 2]) };
    assert.equal(wayOf(held, note), undefined);
    const why = hindranceOf(held, note);
    assert.equal(why.reason, 'too-far');
    if (why.reason !== 'too-far') return;
    assert.deepEqual([why.pair.fingers, why.pair.frets, why.limit], [[1, 4], [1, 9], 130]);
    assert.ok(Math.abs(why.pair.millimetres - (tip(NECK, 9) - tip(NECK, 1))) < 0.06);
  });

  it('says which strings would have to stop', () => {
    const note = { string: 3, fret: 2, mustRing: bits([6, 5, 4, 2, 1]) };
    const why = hindranceOf(shape('3-2-0-0-3-3', '210034'), note);
    assert.equal(why.reason, 'stops-strings');
    if (why.reason === 'stops-strings') assert.equal(why.strings.length, 1);
  });

  it('says what the neck does not have', () => {
    for (const [string, fret] of [
      [1, 21],
      [1, -1],
      [0, 3],
      [7, 3],
      [1, NaN],
    ]) {
      const note = { string, fret, mustRing: 0 };
      assert.equal(wayOf(shape('x-3-2-0-1-0'), note), undefined);
      assert.equal(hindranceOf(shape('x-3-2-0-1-0'), note).reason, 'off-the-neck');
    }
  });

  it('finds the same pitch on another string, and the nearest fret on its own', () => {
    const held = shape('x-x-0-2-3-2', 'xx0132');
    const note = { string: 2, fret: 10, mustRing: bits([4, 3]) };
    const same = sameOnAnotherString(held, note);
    assert.deepEqual([same?.string, same?.fret], [1, 5]);
    const nearest = nearestOnString(held, note);
    assert.equal(nearest?.string, 2);
    assert.ok(nearest !== undefined && nearest.fret < 10 && nearest.fret >= 5, `${nearest?.fret}`);
    for (let fret = nearest.fret + 1; fret < 10; fret++) assert.equal(wayOf(held, { ...note, fret }), undefined);
  });
});

describe('melody over a held shape: what holds for any', () => {
  const SIZES: readonly HandSize[] = ['small', 'medium', 'large'];
  const cases = fc.record({
    base: fc.integer({ min: 1, max: 12 }),
    marks: fc.array(fc.constantFrom(null, 0, 0, 1, 2, 3, 4), { minLength: 6, maxLength: 6 }),
    string: fc.integer({ min: 1, max: 6 }),
    away: fc.integer({ min: -6, max: 6 }),
    ringing: fc.subarray([1, 2, 3, 4, 5, 6]),
    pick: fc.nat(5),
    size: fc.constantFrom(...SIZES),
  });
  type Case = typeof cases extends fc.Arbitrary<infer T> ? T : never;

  function set({ base, marks, string, away, pick, size }: Case) {
    const frets = marks.map((mark) => (mark ? base + mark - 1 : mark));
    const { fingerings } = judgeShape(guitar, frets, size);
    fc.pre(fingerings.length > 0);
    const fingering = fingerings[pick % fingerings.length];
    const fret = Math.max(0, base + away);
    return { frets, fingering, fret, string, held: holdShape(guitar, frets, fingering, size) };
  }

  it('every way passes the independent checker', () => {
    fc.assert(
      fc.property(cases, (each) => {
        const { frets, fingering, fret, string, held } = set(each);
        const step = wayOf(held, { string, fret, mustRing: bits(each.ringing) });
        if (!step) return;
        const { fingers } = fingering;
        const { ringing, size } = each;
        const wish = { neck: NECK, size, frets, fingers, string, fret, ringing };
        assert.deepEqual(
          melodyFaults(wish, step),
          [],
          `${frets.join()} ${fingers.join()} ${string}:${fret} ${told(step)}`,
        );
      }),
      { numRuns: 1500 },
    );
  });

  it('misses none that the checker finds and that loses nothing', () => {
    fc.assert(
      fc.property(cases, (each) => {
        const { frets, fingering, fret, string, held } = set(each);
        const { fingers } = fingering;
        const { ringing, size } = each;
        const ways = waysThatLoseNothing({
          neck: NECK,
          size,
          frets,
          fingers,
          string,
          fret,
          ringing: [1, 2, 3, 4, 5, 6],
        });
        const step = wayOf(held, { string, fret, mustRing: bits(ringing) });
        const about = `${frets.join()} ${fingers.join()} ${string}:${fret}`;
        assert.ok(step || ways.length === 0, `${about} ${JSON.stringify(ways)}`);
      }),
      { numRuns: 1500 },
    );
  });

  it('a string that may stop never makes a note dearer, nor does a bigger hand', () => {
    fc.assert(
      fc.property(cases, (each) => {
        const { frets, fingering, fret, string, held } = set(each);
        const cost = (over: HeldShape, ringing: readonly number[]): number =>
          wayOf(over, { string, fret, mustRing: bits(ringing) })?.cost ?? Infinity;
        const whole = cost(held, each.ringing);
        assert.ok(cost(held, each.ringing.slice(1)) <= whole);
        const bigger = SIZES[SIZES.indexOf(each.size) + 1];
        if (bigger) assert.ok(cost(holdShape(guitar, frets, fingering, bigger), each.ringing) <= whole);
      }),
      { numRuns: 1000 },
    );
  });

  it('what the shape sounds anyway costs nothing, and every cost is whole', () => {
    fc.assert(
      fc.property(cases, (each) => {
        const { frets, fret, string, held } = set(each);
        const own = frets[6 - string];
        if (own !== null) assert.equal(wayOf(held, { string, fret: own, mustRing: 0b1111110 })?.cost, 0);
        const step = wayOf(held, { string, fret, mustRing: bits(each.ringing) });
        if (!step) return;
        assert.ok(Number.isInteger(step.cost) && step.cost >= 0 && ZONES.includes(step.zone));
        assert.ok(step.lost.every((lost) => lost !== string && !each.ringing.includes(lost)));
        assert.equal(step.widest !== undefined && step.widest.fingers.includes(step.finger), step.widest !== undefined);
      }),
      { numRuns: 600 },
    );
  });

  it('a fingering is never chosen that leaves out a note which another can have', () => {
    fc.assert(
      fc.property(cases, fc.array(fc.integer({ min: -4, max: 5 }), { maxLength: 4 }), (each, aways) => {
        const { frets, string } = set(each);
        const { fingerings } = judgeShape(guitar, frets, each.size);
        const notes = aways.map((away) => ({
          string,
          fret: Math.max(0, each.base + away),
          mustRing: bits(each.ringing),
        }));
        const { unreachable } = playMelody(guitar, frets, fingerings, each.size, notes);
        const fewest = Math.min(
          ...fingerings.slice(0, 12).map((fingering) => {
            const held = holdShape(guitar, frets, fingering, each.size);
            return notes.filter((note) => !wayOf(held, note)).length;
          }),
        );
        assert.equal(unreachable, fewest);
      }),
      { numRuns: 200 },
    );
  });
});
