/** A change of shape in the time that the music leaves: each finger goes when its old string has sounded, and is due at its new one. */
import { FINGERS, HURRIED_COST, INDEX, MILLION, MOVEMENT, SECOND_A_CHANGE } from './model.ts';
import type { Pace, Player } from './model.ts';
import { isLongBarre, measureMove, moveBetween, movementCost, ownWay, paceOf, timeFor } from './movement.ts';
import type { Measured, Move } from './movement.ts';
import type { Hand, Held, Run } from './search.ts';

/** When the fingers of one shape are bound to their strings: by finger, in whole millionths of a second from where its chord starts. */
export interface FingerTimes {
  /** When a string that the finger presses is first sounded; the end of the chord where none is. */
  readonly first: readonly number[];
  /** When one is last sounded; the start of the chord where none is. */
  readonly last: readonly number[];
}

/** A shape as it is held and played. */
export interface TimedShape {
  readonly held: Held;
  readonly times: FingerTimes;
}

/** The finger that has least time beside what it needs, both in whole millionths of a second. */
export interface Tightest {
  readonly finger: number;
  readonly need: number;
  /** May be less than nothing. */
  readonly available: number;
}

/** How a change goes in time. */
export interface TimedMove extends Move {
  readonly pace: Pace;
  /** Undefined where no finger moves. */
  readonly tightest?: Tightest;
}

/**
 * The change from one shape to another whose chord starts `gap` millionths of a second later. A finger has the time from the last
 * sounding of its old strings to the first of its new ones; where the hand shifts, all fingers wait for the last that moves, and so
 * does a beginner's finger in the air: to set it while others still hold the old shape is learnt later. It needs the shift, its own way, and a part more for every other finger that is due by then.
 * A hand that is `settled` has both within its reach and does not shift at all.
 */
export function changeBetween(
  from: TimedShape,
  to: TimedShape,
  gap: number,
  player: Player,
  hand: Hand,
  settled = false,
): TimedMove {
  const moved = moveBetween(from.held, to.held, player, hand);
  const move = settled ? { ...moved, shift: 0 } : moved;
  const tightest = tightestOf(from, to, gap, player, hand, settled);
  if (!tightest) return { ...move, pace: 'easy' };
  return { ...move, pace: paceOf(tightest.need, tightest.available), tightest };
}

/** What that change costs beside the difficulty of shapes, in whole millionths. */
export function changeCost(from: TimedShape, to: TimedShape, gap: number, player: Player, hand: Hand): number {
  const tightest = tightestOf(from, to, gap, player, hand);
  if (!tightest) return 0;
  const { need, available } = tightest;
  const cost = movementCost(need, available);
  return isHurried({ pace: paceOf(need, available), tightest }, player) ? cost + HURRIED_COST * MILLION : cost;
}

/** Whether a beginner is given less than a second for it; what is easy is never hurried, and others need no second. */
export const isHurried = ({ pace, tightest }: Pick<TimedMove, 'pace' | 'tightest'>, player: Player): boolean =>
  player === 'beginner' && pace !== 'easy' && tightest !== undefined && tightest.available < SECOND_A_CHANGE;

function tightestOf(
  from: TimedShape,
  to: TimedShape,
  gap: number,
  player: Player,
  hand: Hand,
  settled = false,
): Tightest | undefined {
  const measured = measureMove(from.held, to.held, hand);
  const { moved, guides } = measured;
  const travel = settled ? 0 : measured.travel;
  if (moved === 0) return undefined;
  const isShift = Math.abs(travel) >= MOVEMENT.leastShift;
  const left = isShift || player === 'beginner' ? lastOf(from, measured) : undefined;
  const { first } = to.times;
  let tightest: Tightest | undefined;
  for (let finger = INDEX; finger <= FINGERS; finger++) {
    if (!(moved & (1 << finger))) continue;
    let together = 0;
    let leading = 0;
    for (let other = INDEX; other <= FINGERS; other++) {
      if (!(moved & (1 << other)) || first[other] > first[finger]) continue;
      together++;
      if (guides & (1 << other)) leading++;
    }
    const start = from.held[finger];
    const goal = to.held[finger] as Run;
    const newBarre = isLongBarre(goal) && !(start && isLongBarre(start));
    const need = timeFor(travel, ownWay(start, goal, travel), newBarre, together, leading, player);
    const free = isShift || !start ? (left ?? from.times.last[finger]) : from.times.last[finger];
    const available = gap + first[finger] - free;
    if (!tightest || isTighter(need, available, tightest)) tightest = { finger, need, available };
  }
  return tightest;
}

/** By the part of its time that a finger needs; where there is none at all, by how much is missing. */
function isTighter(need: number, available: number, other: Tightest): boolean {
  if (available <= 0 || other.available <= 0) return available - need < other.available - other.need;
  return need * other.available > other.need * available;
}

/** When the last finger that does not stay leaves its strings; undefined where none was down. */
function lastOf({ held, times }: TimedShape, { stays }: Measured): number | undefined {
  let latest: number | undefined;
  for (let finger = INDEX; finger <= FINGERS; finger++) {
    if (!held[finger] || stays & (1 << finger)) continue;
    latest = Math.max(latest ?? times.last[finger], times.last[finger]);
  }
  return latest;
}
