/** Which finger of the plucking hand takes a note that names none, beside those that are named. */
import { compare, equal, type Fraction } from '../util/fraction.ts';
import { PLUCK_CHOICE, PLUCKING } from './model.ts';
import { isCrossing, PLUCK_FINGERS, ratesOf, secondsBetween, speedOf } from './plucking.ts';
import type { PluckFinger, Speed, TimedPluck } from './plucking.ts';

/** A pluck whose finger may be still to choose. */
export interface OpenPluck {
  readonly finger?: PluckFinger;
  /** Player's number, 1 the highest. */
  readonly string: number;
  /** In seconds, exact. */
  readonly onset: Fraction;
}

/** Named plucks that are looked at on each side of an open one: none farther off is near in time. */
const LOOKED_AT = 12;

/** Strings on which the fingers of a hand at rest lie: the first string has the ring finger, the fourth and below the thumb. */
const HOME: readonly PluckFinger[] = ['a', 'm', 'i', 'p'];

/**
 * A finger for each pluck, those that are named unchanged; the plucks must be sorted by onset. The row of open ones is chosen as
 * a whole, by dynamic programming over the five fingers; of equal sums the finger nearer the thumb wins, from the last one back.
 */
export function choosePluckFingers(plucks: readonly OpenPluck[]): readonly PluckFinger[] {
  const open = plucks.flatMap(({ finger }, at) => (finger ? [] : [at]));
  if (open.length === 0) return plucks.map(({ finger }) => finger ?? 'p');
  let sums: readonly number[] = [];
  const cameFrom: number[][] = [];
  open.forEach((at, row) => {
    const own = PLUCK_FINGERS.map((finger) => besideNamed(plucks, at, finger));
    if (row === 0) {
      sums = own;
      return;
    }
    const before = plucks[open[row - 1]];
    const from: number[] = [];
    sums = PLUCK_FINGERS.map((finger, to) => {
      const reached = PLUCK_FINGERS.map(
        (last, index) => sums[index] + againstOther({ ...before, finger: last }, { ...plucks[at], finger }),
      );
      const least = Math.min(...reached);
      from[to] = reached.indexOf(least);
      return least + own[to];
    });
    cameFrom.push(from);
  });
  const chosen = new Map<number, PluckFinger>();
  let state = sums.indexOf(Math.min(...sums));
  for (let row = open.length - 1; row >= 0; row--) {
    chosen.set(open[row], PLUCK_FINGERS[state]);
    if (row > 0) state = cameFrom[row - 1][state];
  }
  return plucks.map(({ finger }, at) => finger ?? chosen.get(at) ?? 'p');
}

/** What speaks against this finger by itself and beside the named plucks around. */
function besideNamed(plucks: readonly OpenPluck[], at: number, finger: PluckFinger): number {
  const pluck: TimedPluck = { ...plucks[at], finger };
  const home = HOME[Math.min(HOME.length, Math.max(1, pluck.string)) - 1];
  const away = Math.abs(PLUCK_FINGERS.indexOf(finger) - PLUCK_FINGERS.indexOf(home));
  let cost = PLUCK_CHOICE.awayFromHome * away + (finger === 'c' ? PLUCK_CHOICE.littleFinger : 0);
  for (const step of [-1, 1]) {
    let met = 0;
    let isRepeatMet = false;
    for (let other = at + step; plucks[other] !== undefined && met < LOOKED_AT; other += step) {
      const named = plucks[other];
      if (!named.finger) continue;
      met++;
      const beside: TimedPluck = { ...named, finger: named.finger };
      const isOwn = beside.finger === finger;
      if (isOwn && isRepeatMet) continue;
      isRepeatMet ||= isOwn;
      cost += againstOther(beside, pluck);
    }
  }
  return cost;
}

/** What speaks against two plucks after or upon each other. */
function againstOther(one: TimedPluck, other: TimedPluck): number {
  const [first, second] = compare(one.onset, other.onset) <= 0 ? [one, other] : [other, one];
  const isTogether = equal(first.onset, second.onset);
  const seconds = secondsBetween(first.onset, second.onset);
  if (first.finger === second.finger) {
    if (isTogether) return first.string === second.string ? 0 : PLUCK_CHOICE.twoPlaces;
    return SPEED_COST[speedOf(1 / seconds, ratesOf(first.finger))];
  }
  const isNear = isTogether || seconds < PLUCKING.crossing;
  return isNear && isCrossing(first, second) ? PLUCK_CHOICE.crossing : 0;
}

const SPEED_COST: Readonly<Record<Speed, number>> = {
  comfortable: 0,
  brisk: PLUCK_CHOICE.beyondComfort,
  hard: PLUCK_CHOICE.beyondHard,
  beyond: PLUCK_CHOICE.beyondLimit,
};
