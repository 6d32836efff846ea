/** Chooses one way of holding each chord so that the whole is easiest to play: least sum of difficulties and movements. */
import type { RealiseCache } from './cache.ts';
import type { Choices, HandState } from './hand-states.ts';
import { movementCost, movementNeed, type Player } from './movement.ts';

export interface Step {
  readonly choices: Choices;
  /** For the change to this chord from the one before, in whole millionths of a second. */
  readonly time: number;
}

/**
 * For each step the index of the state chosen, by dynamic programming over all states; every step must have at least one. Sums
 * are whole millionths. Of equal sums the one wins whose states come first in their lists, looked at from the last step back.
 */
export function easiestSequence(steps: readonly Step[], player: Player, cache: RealiseCache): readonly number[] {
  if (steps.length === 0) return [];
  const cameFrom: Int16Array[] = [];
  let sums = steps[0].choices.states.map((state) => state.cost);
  for (let at = 1; at < steps.length; at++) {
    const { choices, time } = steps[at];
    const needs = needsBetween(steps[at - 1].choices, choices, player, cache);
    const { states } = choices;
    const from = new Int16Array(states.length);
    const next: number[] = [];
    const width = sums.length;
    for (let to = 0; to < states.length; to++) {
      let least = Infinity;
      for (let before = 0; before < width; before++) {
        const sum = sums[before];
        if (sum >= least) continue;
        const whole = sum + movementCost(needs[to * width + before], time);
        if (whole < least) {
          least = whole;
          from[to] = before;
        }
      }
      next.push(least + states[to].cost);
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
function needsBetween(before: Choices, after: Choices, player: Player, cache: RealiseCache): Int32Array {
  return cache.movements.get(`${before.id} ${after.id} ${player}`, () => {
    const { states } = before;
    const needs = new Int32Array(after.states.length * states.length);
    after.states.forEach((to: HandState, row) => {
      for (let from = 0; from < states.length; from++) {
        needs[row * states.length + from] = movementNeed(states[from].posture, to.posture, player);
      }
    });
    return needs;
  });
}
