/** The choice of a whole sequence: against trying out every way through, and the sum that it is chosen by. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { RealiseCache, realiseSection } from '../../server/src/realise/realise.ts';
import type { Choices, HandState } from '../../server/src/realise/hand-states.ts';
import { movementCost, movementNeed, postureOf, type Posture } from '../../server/src/realise/movement.ts';
import { neckOf } from '../../server/src/realise/neck.ts';
import { easiestSequence, type Step } from '../../server/src/realise/sequence.ts';
import { binaryLogarithm } from '../../server/src/util/logarithm.ts';
import { fretsOf, instrument, planOf, settingsOf, shapeOf } from '../support/plan.ts';

const neck = neckOf(instrument(), 'medium');
const posture = (frets: readonly (number | null)[], fingers: readonly (number | null)[]): Posture =>
  postureOf(neck, frets, fingers, 'medium');

const x = null;
const C = posture([x, 3, 2, 0, 1, 0], [x, 3, 2, 0, 1, 0]);
const AM = posture([x, 0, 2, 2, 1, 0], [x, 0, 2, 3, 1, 0]);
const E = posture([0, 2, 2, 1, 0, 0], [0, 2, 3, 1, 0, 0]);
const F = posture([1, 3, 3, 2, 1, 1], [1, 3, 4, 2, 1, 1]);
const B7_HIGH = posture([7, 9, 7, 8, 7, 7], [1, 3, 1, 2, 1, 1]);

describe('movement', () => {
  it('costs nothing where every finger stays', () => {
    assert.equal(movementNeed(C, C, 'intermediate'), 0);
  });

  it('is little from C to Am, where two fingers stay', () => {
    const near = movementNeed(C, AM, 'intermediate');
    assert.ok(near > 0);
    assert.ok(near < movementNeed(C, E, 'intermediate'));
    assert.ok(movementNeed(C, E, 'intermediate') < movementNeed(C, B7_HIGH, 'intermediate'));
  });

  it('is one finger from the air to another string for Am to C: worked out by hand', () => {
    // Finger 3 goes from fret 2 of string 3 to fret 3 of string 5; 1 and 2 stay. The tips lie at 64.6 and 98.0 mm less a
    // quarter fret each, so 32.5 mm apart or so; the hand's mean moves by a third of that, below the 12 mm of a lean.
    const travel = C.hand - AM.hand;
    assert.ok(Math.abs(travel) < 12);
    const way = Math.abs(C.places[3] - AM.places[3] - travel) + 4 + 6;
    const seconds = 0.06 + 0.05 * Math.log2(1 + way / 8);
    assert.ok(Math.abs(movementNeed(AM, C, 'advanced') - seconds * 1e6) <= 1);
  });

  it('takes a beginner longer than others', () => {
    const needs = (['advanced', 'intermediate', 'beginner'] as const).map((player) => movementNeed(C, F, player));
    assert.ok(needs[0] < needs[1] && needs[1] < needs[2]);
  });

  it('is worth four difficulties where it takes all the time there is, and never more than eight', () => {
    assert.equal(movementCost(500_000, 500_000), 4_000_000);
    assert.equal(movementCost(500_000, 1_000_000), 2_000_000);
    assert.equal(movementCost(5_000_000, 500_000), 8_000_000);
    assert.equal(movementCost(0, 0), 0);
  });
});

describe('the logarithm', () => {
  it('is right to nine digits', () => {
    for (const value of [1, 1.001, 1.5, 2, 3.7, 10, 65.25, 1024]) {
      assert.ok(Math.abs(binaryLogarithm(value) - Math.log2(value)) < 1e-9);
    }
  });
});

/** A hand with one finger on one string: enough to make ways long and short. */
const single = (fret: number, cost: number): HandState => {
  const frets = [fret, x, x, x, x, x];
  return {
    frets,
    verdict: { playable: true, zone: 'comfortable', difficulty: 0, effort: 0, fingerings: [], steps: 0 },
    cost,
    posture: posture(frets, [1, x, x, x, x, x]),
    position: fret,
  };
};

const steps: fc.Arbitrary<Step[]> = fc
  .array(
    fc.array(fc.tuple(fc.integer({ min: 1, max: 12 }), fc.integer({ min: 0, max: 3_000_000 })), {
      minLength: 1,
      maxLength: 4,
    }),
    {
      minLength: 1,
      maxLength: 5,
    },
  )
  .map((chords) =>
    chords.map((states, id): Step => ({
      choices: { id: id + 1, states: states.map(([fret, cost]) => single(fret, cost)) } satisfies Choices,
      time: 400_000,
    })),
  );

function sumOf(chain: readonly Step[], chosen: readonly number[]): number {
  return chosen.reduce((sum, state, at) => {
    const here = chain[at].choices.states[state];
    if (at === 0) return sum + here.cost;
    const need = movementNeed(chain[at - 1].choices.states[chosen[at - 1]].posture, here.posture, 'intermediate');
    return sum + here.cost + movementCost(need, chain[at].time);
  }, 0);
}

function* everyWay(chain: readonly Step[], at = 0): Generator<number[]> {
  if (at === chain.length) yield [];
  else
    for (const rest of everyWay(chain, at + 1)) {
      for (let state = 0; state < chain[at].choices.states.length; state++) yield [state, ...rest];
    }
}

describe('a sequence', () => {
  it('has the least sum of all ways through', () => {
    fc.assert(
      fc.property(steps, (chain) => {
        const chosen = easiestSequence(chain, 'intermediate', new RealiseCache());
        const least = Math.min(...[...everyWay(chain)].map((way) => sumOf(chain, way)));
        assert.equal(sumOf(chain, chosen), least);
      }),
      { numRuns: 100, seed: 3 },
    );
  });

  it('stays where it is when a chord comes again', () => {
    const rule = shapeOf('strings 3 2 1', 'spacing close', 'frets 1 to 15');
    const { bars } = realiseSection(planOf('C | C | C', { rule, key: 'C major' }), settingsOf(), new RealiseCache());
    assert.equal(new Set(bars.map(fretsOf)).size, 1);
  });

  it('goes to the nearest inversion, not to the same one elsewhere', () => {
    // After C at 5-5-3, F lies at 5-6-5 and G at 4-3-3 under the same hand.
    const rule = shapeOf('strings 3 2 1', 'spacing close', 'frets 1 to 15');
    const plan = planOf('C at 3 | F | C at 3 | G', { rule, key: 'C major' });
    const { bars } = realiseSection(plan, settingsOf(), new RealiseCache());
    assert.deepEqual(bars.map(fretsOf), ['x-x-x-5-5-3', 'x-x-x-5-6-5', 'x-x-x-5-5-3', 'x-x-x-4-3-3']);
  });

  it('is not stopped by a chord without a voicing, nor by silence', () => {
    const rule = shapeOf('strings 3 2 1', 'tones R 3 5', 'frets 1 to 5');
    const plan = planOf('C | Bb | N.C. | C', { rule, key: 'C major' });
    const { bars } = realiseSection(plan, settingsOf(), new RealiseCache());
    assert.deepEqual(bars.map(fretsOf), ['x-x-x-5-5-3', 'x-x-x-3-3-1', '?', 'x-x-x-5-5-3']);
    const high = shapeOf('strings 3 2 1', 'tones R 3 5', 'frets 3 to 5');
    const gap = realiseSection(planOf('C | Bb | C', { rule: high, key: 'C major' }), settingsOf(), new RealiseCache());
    assert.deepEqual(gap.bars.map(fretsOf), ['x-x-x-5-5-3', '?', 'x-x-x-5-5-3']);
    assert.equal(gap.bars[1].chords[0].none?.line, 'frets');
  });

  it('keeps exact frets that no hand can hold, and says so', () => {
    const plan = planOf('C as 1-12-1-12-1-12', { key: 'C major' });
    const [bar] = realiseSection(plan, settingsOf(), new RealiseCache()).bars;
    assert.equal(fretsOf(bar), '1-12-1-12-1-12');
    assert.equal(bar.chords[0].voicing?.verdict.playable, false);
    assert.equal(bar.chords[0].voicing?.fingering, undefined);
  });
});
