/** The plucking hand: what a row of plucks asks of its fingers at the tempo, and what of it no hand does. Knows no fretting hand. */
import { toNumber, type Fraction } from '../util/fraction.ts';
import { MILLION, PLUCKING } from './model.ts';
import type { Rates } from './model.ts';

/** Thumb, index, middle, ring and little finger, by the trade's letters. */
export type PluckFinger = 'p' | 'i' | 'm' | 'a' | 'c';

/** From the thumb outwards: the order in which the fingers of a hand at rest lie on the strings, from the bass up. */
export const PLUCK_FINGERS: readonly PluckFinger[] = ['p', 'i', 'm', 'a', 'c'];

export interface TimedPluck {
  readonly finger: PluckFinger;
  /** Player's number, 1 the highest. */
  readonly string: number;
  /** In seconds from any moment; exact, so that what is struck together is known to be. */
  readonly onset: Fraction;
}

export type RemarkKind =
  /** One finger on two strings at once; the thumb may brush neighbours. */
  | 'two-places'
  /** Two fingers on one string at once. */
  | 'one-string'
  /** One finger plucks faster than is easy to keep up. */
  | 'finger-fast'
  /** Several fingers in turn do. */
  | 'hand-fast'
  /** One finger, not the thumb, goes quickly from string to string. */
  | 'hop'
  /** A finger that lies nearer the thumb plucks a higher string than one beyond it. */
  | 'crossing';

export interface PluckRemark {
  readonly kind: RemarkKind;
  /** From the thumb outwards. */
  readonly fingers: readonly PluckFinger[];
  /** Of these fingers, in the same order, or those that one finger plucks, from the bass; player's numbers. */
  readonly strings: readonly number[];
  /** Notes a second, to a millionth; absent where time is not the matter. */
  readonly rate?: number;
  /** The rates that it is measured by. */
  readonly rates?: Rates;
  /** Index of the pluck at which it shows, the later of two. */
  readonly at: number;
}

/** How a rate goes: with ease, at work, hard, or not at all. */
export type Speed = 'comfortable' | 'brisk' | 'hard' | 'beyond';

export function speedOf(rate: number, { comfortable, hard, limit }: Rates): Speed {
  if (rate <= comfortable) return 'comfortable';
  if (rate <= hard) return 'brisk';
  return rate <= limit ? 'hard' : 'beyond';
}

/** What one finger does in a second. */
export const ratesOf = (finger: PluckFinger): Rates => slowed(PLUCKING.oneFinger, isWeak(finger));

/** What several fingers in turn do in a second; two of them are slower where one is weak. */
export const ratesInTurn = (fingers: readonly PluckFinger[]): Rates =>
  fingers.length === 2 ? slowed(PLUCKING.alternating, fingers.some(isWeak)) : PLUCKING.inTurn;

/** The same with its time as a number: fractions are kept in lowest terms, so that equal ones are equal numbers too. */
export interface Struck {
  readonly finger: PluckFinger;
  readonly string: number;
  readonly seconds: number;
}

/** Everything remarkable, in the order of the plucks, which must be sorted by onset. Fast is what is more than brisk. */
export function pluckRemarks(timed: readonly TimedPluck[]): readonly PluckRemark[] {
  const plucks = timed.map(({ finger, string, onset }): Struck => ({ finger, string, seconds: toNumber(onset) }));
  const moments = momentsOf(plucks);
  return [
    ...moments.flatMap((moment) => clashesIn(plucks, moment)),
    ...repeats(plucks),
    ...moments.flatMap((_, at) => runEndingAt(plucks, moments, at)),
    ...moments.flatMap((_, at) => crossingsAt(plucks, moments, at)),
  ].sort((one, other) => one.at - other.at);
}

/** Whether the finger nearer the thumb would have to reach over the other. */
export function isCrossing(one: Struck, other: Struck): boolean {
  const order = PLUCK_FINGERS.indexOf(one.finger) - PLUCK_FINGERS.indexOf(other.finger);
  return order < 0 ? one.string < other.string : order > 0 && other.string < one.string;
}

/** Plucks of one onset, as indices. */
type Moment = readonly number[];

function momentsOf(plucks: readonly Struck[]): readonly Moment[] {
  const moments: number[][] = [];
  plucks.forEach(({ seconds }, at) => {
    const last = moments.at(-1);
    if (last && plucks[last[0]].seconds === seconds) last.push(at);
    else moments.push([at]);
  });
  return moments;
}

function clashesIn(plucks: readonly Struck[], moment: Moment): readonly PluckRemark[] {
  if (moment.length < 2) return [];
  const at = moment[moment.length - 1];
  const together = moment.map((index) => plucks[index]);
  const clashes: PluckRemark[] = [];
  for (const finger of PLUCK_FINGERS) {
    const strings = distinct(together.filter((each) => each.finger === finger).map(({ string }) => string));
    if (strings.length < 2 || (finger === 'p' && areNeighbours(strings))) continue;
    clashes.push({ kind: 'two-places', fingers: [finger], strings, at });
  }
  for (const string of distinct(together.map((each) => each.string))) {
    const fingers = PLUCK_FINGERS.filter((each) =>
      together.some((pluck) => pluck.string === string && pluck.finger === each),
    );
    if (fingers.length > 1) clashes.push({ kind: 'one-string', fingers, strings: [string], at });
  }
  return clashes;
}

/** From the bass up: the highest number first. */
const distinct = (strings: readonly number[]): number[] => [...new Set(strings)].sort((a, b) => b - a);

const areNeighbours = (strings: readonly number[]): boolean =>
  strings.every((string, at) => at === 0 || strings[at - 1] - string === 1);

/** Each finger against its own last pluck. */
function repeats(plucks: readonly Struck[]): readonly PluckRemark[] {
  const remarks: PluckRemark[] = [];
  const last = new Map<PluckFinger, Struck>();
  plucks.forEach((pluck, at) => {
    const { finger, string, seconds } = pluck;
    const before = last.get(finger);
    last.set(finger, pluck);
    if (!before || before.seconds === seconds) return;
    const rate = rateOf(1, seconds - before.seconds);
    const rates = ratesOf(finger);
    const speed = speedOf(rate, rates);
    const told = { fingers: [finger], rate, rates, at };
    if (isFast(speed)) remarks.push({ kind: 'finger-fast', strings: distinct([before.string, string]), ...told });
    else if (speed === 'brisk' && finger !== 'p' && before.string !== string) {
      remarks.push({ kind: 'hop', strings: [before.string, string], ...told });
    }
  });
  return remarks;
}

/** The row of notes that ends with this moment, where two or more fingers take turns in it. */
function runEndingAt(plucks: readonly Struck[], moments: readonly Moment[], end: number): readonly PluckRemark[] {
  const start = end - PLUCKING.notesInTurn + 1;
  if (start < 0) return [];
  const row = moments.slice(start, end + 1).flat();
  const fingers = PLUCK_FINGERS.filter((finger) => row.some((index) => plucks[index].finger === finger));
  if (fingers.length < 2) return [];
  const seconds = plucks[moments[end][0]].seconds - plucks[moments[start][0]].seconds;
  const rate = rateOf(PLUCKING.notesInTurn - 1, seconds);
  const rates = ratesInTurn(fingers);
  if (!isFast(speedOf(rate, rates))) return [];
  const strings = fingers.map((finger) => plucks[row.find((index) => plucks[index].finger === finger) ?? 0].string);
  return [{ kind: 'hand-fast', fingers, strings, rate, rates, at: row[row.length - 1] }];
}

/** Fingers that cross within this moment, or against the one before it where that is near. */
function crossingsAt(plucks: readonly Struck[], moments: readonly Moment[], at: number): readonly PluckRemark[] {
  const moment = moments[at];
  const before = at > 0 ? moments[at - 1] : [];
  const isNear = before.length > 0 && plucks[moment[0]].seconds - plucks[before[0]].seconds < PLUCKING.crossing;
  const crossings: PluckRemark[] = [];
  moment.forEach((later, place) => {
    for (const earlier of [...(isNear ? before : []), ...moment.slice(0, place)]) {
      const pair = [plucks[earlier], plucks[later]];
      if (!isCrossing(pair[0], pair[1])) continue;
      pair.sort((one, other) => PLUCK_FINGERS.indexOf(one.finger) - PLUCK_FINGERS.indexOf(other.finger));
      const [fingers, strings] = [pair.map(({ finger }) => finger), pair.map(({ string }) => string)];
      crossings.push({ kind: 'crossing', fingers, strings, at: later });
    }
  });
  return crossings;
}

const isFast = (speed: Speed): boolean => speed === 'hard' || speed === 'beyond';

const isWeak = (finger: PluckFinger): boolean => finger === 'a' || finger === 'c';

function slowed(rates: Rates, weak: boolean): Rates {
  if (!weak) return rates;
  const { comfortable, hard, limit } = rates;
  const by = PLUCKING.weakFinger;
  return { comfortable: comfortable * by, hard: hard * by, limit: limit * by };
}

/** To a millionth, so that what is exactly at a limit is not beyond it for the way its times were added up. */
const rateOf = (notes: number, seconds: number): number => Math.round((notes * MILLION) / seconds) / MILLION;
