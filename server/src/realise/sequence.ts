/** Chooses one way of holding each chord so that the whole is easiest to play: least sum of difficulties and changes. */
import { changeCost, type TimedShape } from '../hand/change.ts';
import type { HandSize, Player } from '../hand/model.ts';
import { HANDS } from '../hand/search.ts';
import type { RealiseCache } from './cache.ts';
import type { Choices } from './hand-states.ts';

export interface Step {
  readonly choices: Choices;
  /** One for each state: how it is held and when its fingers are bound. Equal words in `name` say that they are equal. */
  readonly timed: readonly TimedShape[];
  readonly name: string;
  /** From where the chord of the step before starts to where this one does, in whole millionths of a second. */
  readonly gap: number;
  /** What each state costs beside what it costs anywhere, in whole millionths. */
  readonly extras: readonly number[];
}

export interface Mover {
  readonly player: Player;
  readonly hand: HandSize;
}

/** Stands in a table of changes for what nobody has asked for yet. */
const NOT_ASKED = -1;

/**
 * For each step the index of the state chosen, by dynamic programming over all states; every step must have at least one. Sums
 * are whole millionths. Of equal sums the one wins whose states come first in their lists, looked at from the last step back.
 */
export function easiestSequence(steps: readonly Step[], mover: Mover, cache: RealiseCache): readonly number[] {
  if (steps.length === 0) return [];
  const { player } = mover;
  const hand = HANDS[mover.hand];
  const cameFrom: Int16Array[] = [];
  let sums = steps[0].choices.states.map((state, index) => state.cost + steps[0].extras[index]);
  for (let at = 1; at < steps.length; at++) {
    const before = steps[at - 1];
    const { choices, timed, gap, extras } = steps[at];
    const costs = costsBetween(before, steps[at], mover, cache);
    const from = new Int16Array(timed.length);
    const next: number[] = [];
    const width = sums.length;
    // The cheapest so far first: most of the others then need no change worked out.
    const order = sums.map((_, index) => index).sort((a, b) => sums[a] - sums[b] || a - b);
    for (let to = 0; to < timed.length; to++) {
      let least = Infinity;
      let best = 0;
      for (const state of order) {
        const sum = sums[state];
        if (sum > least) break;
        const cell = to * width + state;
        if (costs[cell] === NOT_ASKED) costs[cell] = changeCost(before.timed[state], timed[to], gap, player, hand);
        const whole = sum + costs[cell];
        if (whole > least || (whole === least && state > best)) continue;
        least = whole;
        best = state;
      }
      from[to] = best;
      next.push(least + choices.states[to].cost + extras[to]);
    }
    cameFrom.push(from);
    sums = next;
  }
  return traceBack(sums, cameFrom);
}

function traceBack(sums: readonly number[], cameFrom: readonly Int16Array[]): readonly number[] {
  let state = 0;
  for (let other = 1; other < sums.length; other++) if (sums[other] < sums[state]) state = other;
  const chosen = [state];
  for (let at = cameFrom.length - 1; at >= 0; at--) {
    state = cameFrom[at][state];
    chosen.push(state);
  }
  return chosen.reverse();
}

/** What each change costs, by `to * (number of states before) + from`, filled in as it is asked for. */
function costsBetween(before: Step, after: Step, { player, hand }: Mover, cache: RealiseCache): Int32Array {
  const name = `${before.name} ${after.name} ${after.gap} ${player} ${hand}`;
  const cells = before.timed.length * after.timed.length;
  return cache.movements.get(name, () => new Int32Array(cells).fill(NOT_ASKED));
}
