/** Which finger of the plucking hand takes a note that names none, beside those that are named. */
import { toNumber, type Fraction } from '../util/fraction.ts';
import { PLUCK_CHOICE, PLUCKING } from './model.ts';
import { isCrossing, PLUCK_FINGERS, ratesInTurn, ratesOf, speedOf } from './plucking.ts';
import type { PluckFinger, Speed, Struck } from './plucking.ts';

/** A pluck whose finger may be still to choose. */
export interface OpenPluck {
  readonly finger?: PluckFinger;
  /** Player's number, 1 the highest. */
  readonly string: number;
  /** In seconds, exact. */
  readonly onset: Fraction;
}

/** Further off, in seconds, no pluck matters: even the ring finger then has all the time it wants. */
const NEAR = 1 / ratesOf('a').comfortable;
/** Named plucks that are looked at on each side of an open one, however fast they come. */
const LOOKED_AT = 12;

/** Strings on which the fingers of a hand at rest lie: the first string has the ring finger, the fourth and below the thumb. */
const HOME: readonly PluckFinger[] = ['a', 'm', 'i', 'p'];

/** A pluck whose finger may be still to choose, with its time as a number. */
type Candidate = Omit<Struck, 'finger'> & { readonly finger?: PluckFinger };

/**
 * A finger for each pluck, those that are named unchanged; the plucks must be sorted by onset. The row of open ones is chosen as
 * a whole, by dynamic programming over the five fingers; of equal sums the finger nearer the thumb wins, from the last one back.
 */
export function choosePluckFingers(row: readonly OpenPluck[]): readonly PluckFinger[] {
  const plucks = row.map(({ finger, string, onset }): Candidate => ({ finger, string, seconds: toNumber(onset) }));
  const open = plucks.flatMap(({ finger }, at) => (finger ? [] : [at]));
  const cameFrom: number[][] = [];
  let sums: readonly number[] = PLUCK_FINGERS.map(() => 0);
  open.forEach((at, place) => {
    const own = PLUCK_FINGERS.map((finger) => besideNamed(plucks, at, finger));
    const last = open[place - 1];
    const reached = PLUCK_FINGERS.map((finger) =>
      sums.map((sum, state) =>
        last === undefined ? sum : sum + againstLast(plucks, last, PLUCK_FINGERS[state], at, finger),
      ),
    );
    cameFrom.push(reached.map((ways) => ways.indexOf(Math.min(...ways))));
    sums = reached.map((ways, finger) => Math.min(...ways) + own[finger]);
  });
  const chosen = new Map<number, PluckFinger>();
  let state = sums.indexOf(Math.min(...sums));
  for (let place = open.length - 1; place >= 0; place--) {
    chosen.set(open[place], PLUCK_FINGERS[state]);
    state = cameFrom[place][state];
  }
  return plucks.map(({ finger }, at) => finger ?? chosen.get(at) ?? 'p');
}

/** What speaks against this finger by itself and beside the named plucks around. */
function besideNamed(plucks: readonly Candidate[], at: number, finger: PluckFinger): number {
  const pluck = plucks[at];
  const home = HOME[Math.min(HOME.length, Math.max(1, pluck.string)) - 1];
  const away = Math.abs(PLUCK_FINGERS.indexOf(finger) - PLUCK_FINGERS.indexOf(home));
  let cost = PLUCK_CHOICE.awayFromHome * away + (finger === 'c' ? PLUCK_CHOICE.littleFinger : 0);
  for (const step of [-1, 1]) {
    let isRepeatMet = false;
    for (let other = at + step, met = 0; met < LOOKED_AT; other += step) {
      const named = plucks[other];
      if (!named || Math.abs(named.seconds - pluck.seconds) > NEAR) break;
      if (!named.finger) continue;
      met++;
      const isOwn = named.finger === finger;
      if (!isOwn || !isRepeatMet) cost += againstOther(named, named.finger, pluck, finger);
      isRepeatMet ||= isOwn;
    }
  }
  return cost;
}

/** What speaks against this finger after that of the last open pluck; two that take turns by themselves must be fast enough for it. */
function againstLast(
  plucks: readonly Candidate[],
  last: number,
  lastFinger: PluckFinger,
  at: number,
  finger: PluckFinger,
): number {
  const before = plucks[last];
  const pluck = plucks[at];
  const cost = againstOther(before, lastFinger, pluck, finger);
  const seconds = pluck.seconds - before.seconds;
  if (finger === lastFinger || seconds <= 0) return cost;
  for (let between = last + 1; between < at; between++) {
    if (plucks[between].seconds > before.seconds && plucks[between].seconds < pluck.seconds) return cost;
  }
  return cost + SPEED_COST[speedOf(1 / seconds, ratesInTurn([lastFinger, finger]))];
}

/** What speaks against two plucks after or upon each other. */
function againstOther(one: Candidate, finger: PluckFinger, other: Candidate, otherFinger: PluckFinger): number {
  const seconds = Math.abs(other.seconds - one.seconds);
  if (finger === otherFinger) {
    if (seconds > 0) return SPEED_COST[speedOf(1 / seconds, ratesOf(finger))];
    return one.string === other.string ? 0 : PLUCK_CHOICE.twoPlaces;
  }
  const isNear = seconds < PLUCKING.crossing;
  return isNear && isCrossing({ ...one, finger }, { ...other, finger: otherFinger }) ? PLUCK_CHOICE.crossing : 0;
}

const SPEED_COST: Readonly<Record<Speed, number>> = {
  comfortable: 0,
  brisk: PLUCK_CHOICE.beyondComfort,
  hard: PLUCK_CHOICE.beyondHard,
  beyond: PLUCK_CHOICE.beyondLimit,
};
