/** The ways in which a set of pitch classes reads as a chord on each root, and how simple each of them is. */
import type { Degree } from './interval.ts';
import { degreeOf } from './quality.ts';

/** Sounding pitch classes seen as a chord on one of them. Intervals are semitones above the root, 0–11. */
export interface Reading {
  /** The root's pitch class. */
  readonly root: number;
  /** What sounds, in degrees; without the bass where that stands outside the chord. */
  readonly degrees: readonly Degree[];
  /** Interval of the bass from the root; undefined where no bass is to be named. */
  readonly bass: number | undefined;
  /** The bass is a note outside the chord, as in `C/D`. */
  readonly outside: boolean;
  /** How far the name is from a plain triad on its root: smaller is simpler. Whole numbers. */
  readonly cost: number;
}

/** What an intended chord settles where one interval has two names. */
export interface Preference {
  /** A tritone without the natural fifth is #11, not b5. */
  readonly sharpEleventh: boolean;
  /** A minor sixth without the natural fifth is b13, not #5. */
  readonly flatThirteenth: boolean;
  /** A ninth without a third stays a ninth: `9(no3)`, not a suspended second. */
  readonly thirdless: boolean;
}

export const NO_PREFERENCE: Preference = { sharpEleventh: false, flatThirteenth: false, thirdless: false };

/**
 * Set by judgement, in steps of the trade's habits: a triad is simplest, an inversion costs less than a rare colour, a
 * complete chord less than one that lacks its fifth, and far less than one that lacks its third.
 */
const COST = {
  seventh: 10,
  majorSeventh: 12,
  minorMajorSeventh: 18,
  sixth: 14,
  minorSixth: 16,
  diminished: 15,
  diminishedSeventh: 12,
  halfDiminished: 14,
  diminishedMajorSeventh: 40,
  augmented: 12,
  sharpFifth: 10,
  flatFifth: 15,
  flatFifthTriad: 40,
  suspended: 10,
  suspendedFifthless: 20,
  suspendedSeventh: 6,
  suspendedSecondSeventh: 16,
  suspendedMajorSeventh: 20,
  suspendedSixth: 16,
  noThird: 25,
  noFifth: 8,
  ninthOnSeventh: 4,
  ninthOnSixth: 6,
  addedNinth: 8,
  eleventhOnMinorSeventh: 8,
  eleventhOnMinor: 12,
  eleventhOnMajor: 14,
  sharpEleventh: 8,
  thirteenth: 8,
  dominantFlatThirteenth: 12,
  dominantFlatNinth: 8,
  dominantSharpNinth: 6,
  suspendedFlatNinth: 14,
  minorSeventhColour: 20,
  rareColour: 25,
  twoSevenths: 40,
  bassThird: 10,
  bassFifth: 8,
  bassSeventh: 14,
  bassDiminishedSeventh: 10,
  bassSuspended: 20,
  bassSixth: 30,
  bassOutside: 22,
  bassColourDoubled: 30,
  powerOverSlash: 10,
  fifthlessOverSlash: 12,
} as const;

const D = degreeOf;
const ROOT = D(1);
const THIRD = D(3);
const MINOR_THIRD = D(3, -1);
const FIFTH = D(5);

const bit = (mask: number, interval: number): boolean => ((mask >> interval) & 1) === 1;

/** The degrees of the intervals in `mask`, which holds the root. */
export function degreesIn(mask: number, preference: Preference): Degree[] {
  const has = (interval: number): boolean => bit(mask, interval);
  const third = has(4) || has(3);
  const minor = has(3) && !has(4);
  const fifth = has(7);
  const seventh = has(10) || has(11);
  const fourth = has(5) && !third && !preference.thirdless;
  const degrees = has(0) ? [ROOT] : [];
  if (has(4)) degrees.push(THIRD);
  if (has(3)) degrees.push(minor ? MINOR_THIRD : D(9, 1));
  if (fifth) degrees.push(FIFTH);
  const flatFifth = has(6) && !fifth && !sharpEleventhIn(mask, preference);
  if (has(6)) degrees.push(flatFifth ? D(5, -1) : D(11, 1));
  const diminished = minor && flatFifth && has(9) && !seventh;
  if (has(8)) {
    const sharpFifth = has(4) && !fifth && !flatFifth && !(preference.flatThirteenth && seventh);
    degrees.push(sharpFifth ? D(5, 1) : seventh || diminished ? D(13, -1) : D(6, -1));
  }
  if (has(9)) degrees.push(diminished ? D(7, -2) : seventh ? D(13) : D(6));
  if (has(10)) degrees.push(D(7, -1));
  if (has(11)) degrees.push(D(7));
  if (has(1)) degrees.push(D(9, -1));
  if (has(2)) degrees.push(third || fourth || preference.thirdless ? D(9) : D(2));
  if (has(5)) degrees.push(fourth ? D(4) : D(11));
  return degrees;
}

/** A tritone without the fifth: in a major seventh, beside a raised fifth, or where the author says so, it is #11. */
function sharpEleventhIn(mask: number, preference: Preference): boolean {
  if (preference.sharpEleventh) return true;
  return bit(mask, 4) && (bit(mask, 11) || bit(mask, 8));
}

function baseCost(mask: number, set: ReadonlySet<Degree>): number {
  const minor = set.has(MINOR_THIRD);
  const flatFifth = set.has(D(5, -1));
  if (minor && flatFifth) {
    if (set.has(D(7, -2))) return COST.diminishedSeventh;
    if (bit(mask, 10)) return COST.halfDiminished;
    return bit(mask, 11) ? COST.diminishedMajorSeventh : COST.diminished;
  }
  let cost = 0;
  const seventh = bit(mask, 10) || bit(mask, 11);
  if (bit(mask, 10)) cost += COST.seventh;
  else if (bit(mask, 11)) cost += minor ? COST.minorMajorSeventh : COST.majorSeventh;
  else if (set.has(D(6))) cost += minor ? COST.minorSixth : COST.sixth;
  if (bit(mask, 10) && bit(mask, 11)) cost += COST.twoSevenths;
  if (set.has(D(5, 1))) cost += seventh ? COST.sharpFifth : COST.augmented;
  if (flatFifth) cost += seventh ? COST.flatFifth : COST.flatFifthTriad;
  return cost;
}

function suspensionCost(mask: number, set: ReadonlySet<Degree>): number {
  if (set.has(THIRD) || set.has(MINOR_THIRD)) return 0;
  const second = set.has(D(2));
  if (!second && !set.has(D(4))) return mask === 0b10000001 ? 0 : COST.noThird;
  if (bit(mask, 10)) return second ? COST.suspendedSecondSeventh : COST.suspendedSeventh;
  if (bit(mask, 11)) return COST.suspendedMajorSeventh;
  if (set.has(D(6))) return COST.suspendedSixth;
  return bit(mask, 7) ? COST.suspended : COST.suspendedFifthless;
}

/** A colour's cost depends on the chord below it: a ninth is at home on a seventh, a sharp ninth on a dominant. */
function colourCost(mask: number, set: ReadonlySet<Degree>): number {
  const major = set.has(THIRD);
  const minor = set.has(MINOR_THIRD);
  const dominant = major && bit(mask, 10);
  const seventh = bit(mask, 10) || bit(mask, 11);
  const minorSeventh = minor && bit(mask, 10);
  const rare = minorSeventh ? COST.minorSeventhColour : COST.rareColour;
  let cost = 0;
  if (set.has(D(9))) cost += seventh ? COST.ninthOnSeventh : set.has(D(6)) ? COST.ninthOnSixth : COST.addedNinth;
  if (set.has(D(11))) {
    cost += minorSeventh ? COST.eleventhOnMinorSeventh : minor ? COST.eleventhOnMinor : COST.eleventhOnMajor;
  }
  if (set.has(D(11, 1))) cost += major && seventh ? COST.sharpEleventh : rare;
  if (set.has(D(13))) cost += COST.thirteenth;
  if (set.has(D(13, -1)) || set.has(D(6, -1))) cost += dominant ? COST.dominantFlatThirteenth : rare;
  if (set.has(D(9, -1))) {
    cost += dominant ? COST.dominantFlatNinth : bit(mask, 10) && set.has(D(4)) ? COST.suspendedFlatNinth : rare;
  }
  if (set.has(D(9, 1))) cost += dominant ? COST.dominantSharpNinth : rare;
  return cost;
}

function chordCost(mask: number, degrees: readonly Degree[]): number {
  const set = new Set(degrees);
  const hasFifth = bit(mask, 7) || set.has(D(5, -1)) || set.has(D(5, 1));
  return baseCost(mask, set) + suspensionCost(mask, set) + colourCost(mask, set) + (hasFifth ? 0 : COST.noFifth);
}

function bassCost(degree: Degree): number {
  switch (degree.number) {
    case 1:
      return 0;
    case 3:
      return COST.bassThird;
    case 5:
      return COST.bassFifth;
    case 7:
      return degree.accidental === -2 ? COST.bassDiminishedSeventh : COST.bassSeventh;
    case 6:
      return COST.bassSixth;
    default:
      return COST.bassSuspended;
  }
}

const isColour = ({ number, accidental }: Degree): boolean => number >= 9 || (number === 6 && accidental !== 0);

const POWER = 0b10000001;

/**
 * The chord that pitch classes form on a root. `mask` holds a bit a pitch class, the root's among them or not (then the chord is
 * rootless); `bass` is the lowest pitch class, undefined where it is not to be named; `doubled` tells that the bass sounds
 * higher up as well.
 */
export function readingOn(
  root: number,
  mask: number,
  bass: number | undefined,
  doubled: boolean,
  preference: Preference = NO_PREFERENCE,
): Reading {
  const over = ((mask >> root) | (mask << (12 - root))) & 0xfff;
  const degrees = degreesIn(over, preference);
  const interval = bass === undefined ? undefined : (bass - root + 12) % 12;
  if (interval === undefined || interval === 0) {
    return { root, degrees, bass: interval, outside: false, cost: chordCost(over, degrees) };
  }
  const lowest = degrees.find((degree) => intervalOf(degree) === interval)!;
  if (!isColour(lowest)) {
    return { root, degrees, bass: interval, outside: false, cost: chordCost(over, degrees) + bassCost(lowest) };
  }
  // A colour in the bass is heard as a bass under a chord of its own, as long as a chord is left.
  const upper = over & ~(1 << interval);
  const outside = !doubled && (upper & (upper - 1)) !== 0;
  const above = degreesIn(upper, preference);
  const thin =
    upper === POWER ? COST.powerOverSlash : above.some(({ number }) => number === 5) ? 0 : COST.fifthlessOverSlash;
  const cost = chordCost(upper, above) + thin + (outside ? COST.bassOutside : COST.bassColourDoubled);
  return { root, degrees: outside ? above : degrees, bass: interval, outside, cost };
}

const SEMITONES: readonly number[] = [0, 0, 2, 4, 5, 7, 9, 11];

const intervalOf = ({ number, accidental }: Degree): number => SEMITONES[number > 7 ? number - 7 : number] + accidental;

/** One reading for each pitch class that sounds, as its root; the simplest first, equal ones with the root in the bass. */
export function readingsOf(
  mask: number,
  bass: number | undefined,
  doubled: boolean,
  preference = NO_PREFERENCE,
): Reading[] {
  const readings: Reading[] = [];
  for (let root = 0; root < 12; root++) {
    if (bit(mask, root)) readings.push(readingOn(root, mask, bass, doubled, preference));
  }
  return readings;
}
