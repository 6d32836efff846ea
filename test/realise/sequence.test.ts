/** The choice of a whole sequence: against trying out every way through, and the sum that it is chosen by. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { RealiseCache, realiseSection } from '../../server/src/realise/realise.ts';
import { gripOf } from '../../server/src/hand/grip.ts';
import { heldOf } from '../../server/src/hand/held.ts';
import { changeBetween } from '../../server/src/hand/change.ts';
import { movementCost } from '../../server/src/hand/movement.ts';
import { HANDS } from '../../server/src/hand/search.ts';
import type { Choices, HandState } from '../../server/src/realise/hand-states.ts';
import { easiestSequence, type Step } from '../../server/src/realise/sequence.ts';
import { fretsOf, instrument, planOf, settingsOf, shapeOf } from '../support/plan.ts';

const x = null;

/** A hand with one finger on one string: enough to make ways long and short. */
const single = (fret: number, cost: number): HandState => {
  const frets = [fret, x, x, x, x, x];
  return {
    frets,
    verdict: { playable: true, zone: 'comfortable', difficulty: 0, effort: 0, fingerings: [], steps: 0 },
    cost,
    grip: gripOf(instrument(), frets),
    held: heldOf(gripOf(instrument(), frets), [1, x, x, x, x, x]),
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
    chords.map((states, id): Step => {
      const choices: Choices = { id: id + 1, states: states.map(([fret, cost]) => single(fret, cost)) };
      const timed = choices.states.map(({ held, cost, position }) => ({
        held,
        times: { first: HAND.map(() => 1_000 * position), last: HAND.map(() => (cost % 7) * 10_000) },
      }));
      const extras = states.map(([fret]) => (fret % 2) * 700_000);
      return { choices, timed, name: `step ${id}`, gap: 400_000, extras };
    }),
  );

const HAND = [0, 1, 2, 3, 4];

function sumOf(chain: readonly Step[], chosen: readonly number[]): number {
  return chosen.reduce((sum, state, at) => {
    const own = chain[at].choices.states[state].cost + chain[at].extras[state];
    if (at === 0) return sum + own;
    const before = chain[at - 1].timed[chosen[at - 1]];
    const { tightest } = changeBetween(before, chain[at].timed[state], chain[at].gap, 'intermediate', HANDS.medium);
    return sum + own + (tightest ? movementCost(tightest.need, tightest.available) : 0);
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
        const chosen = easiestSequence(chain, { player: 'intermediate', hand: 'medium' }, new RealiseCache());
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
