/** Chooses one way of holding each chord so that the whole is easiest to play: least sum of difficulties and movements. */
import { movementCost, needFor } from '../hand/movement.ts';
import type { HandSize, Player } from '../hand/model.ts';
import { HANDS } from '../hand/search.ts';
import type { RealiseCache } from './cache.ts';
import type { Choices, HandState } from './hand-states.ts';

export interface Step {
  readonly choices: Choices;
  /** One for each state, in whole millionths of a second: from where its chord starts until a pressed string is first sounded. */
  readonly heads: readonly number[];
  /** From where a pressed string was last sounded until the next chord of the row starts. */
  readonly tails: readonly number[];
  /** What each state costs beside what it costs anywhere, in whole millionths. */
  readonly extras: readonly number[];
}

export interface Mover {
  readonly player: Player;
  readonly hand: HandSize;
}

/**
 * For each step the index of the state chosen, by dynamic programming over all states; every step must have at least one. Sums
 * are whole millionths. Of equal sums the one wins whose states come first in their lists, looked at from the last step back.
 */
export function easiestSequence(steps: readonly Step[], mover: Mover, cache: RealiseCache): readonly number[] {
  if (steps.length === 0) return [];
  const cameFrom: Int16Array[] = [];
  let sums = steps[0].choices.states.map((state, index) => state.cost + steps[0].extras[index]);
  for (let at = 1; at < steps.length; at++) {
    const { choices, heads, extras } = steps[at];
    const { tails } = steps[at - 1];
    const needs = needsBetween(steps[at - 1].choices, choices, mover, cache);
    const { states } = choices;
    const from = new Int16Array(states.length);
    const next: number[] = [];
    const width = sums.length;
    for (let to = 0; to < states.length; to++) {
      let least = Infinity;
      for (let before = 0; before < width; before++) {
        const sum = sums[before];
        if (sum >= least) continue;
        const whole = sum + movementCost(needs[to * width + before], tails[before] + heads[to]);
        if (whole < least) {
          least = whole;
          from[to] = before;
        }
      }
      next.push(least + states[to].cost + extras[to]);
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

/** The time that each change needs, by `to * (number of states before) + from`. */
function needsBetween(before: Choices, after: Choices, { player, hand }: Mover, cache: RealiseCache): Int32Array {
  return cache.movements.get(`${before.id} ${after.id} ${player} ${hand}`, () => {
    const { states } = before;
    const needs = new Int32Array(after.states.length * states.length);
    after.states.forEach((to: HandState, row) => {
      for (let from = 0; from < states.length; from++) {
        needs[row * states.length + from] = needFor(states[from].held, to.held, player, HANDS[hand]);
      }
    });
    return needs;
  });
}
