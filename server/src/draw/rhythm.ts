/** Note values for the moments of a bar: stems, dots, beams by the beat, triplets and rests. Time in, signs out; no pixels. */
import type { Meter } from '../lesson/lesson.ts';
import { compare, dividedBy, equal, fraction, minus, plus, times, toNumber, ZERO } from '../util/fraction.ts';
import type { Fraction } from '../util/fraction.ts';
import type { Moment } from './moments.ts';
import { endOf } from './moments.ts';

export interface NoteValue {
  /** 1 a whole note, 2 a half … 64. */
  readonly base: number;
  readonly dots: number;
  readonly triplet: boolean;
}

export interface Mark {
  readonly start: Fraction;
  readonly length: Fraction;
  readonly value: NoteValue;
  readonly rest: boolean;
  /** Nothing is struck here: the note before goes on. */
  readonly tied: boolean;
}

export interface Rhythm {
  readonly marks: readonly Mark[];
  /** First and last mark of each group that one beam joins; a note alone has a flag. */
  readonly beams: readonly (readonly [number, number])[];
  /** First and last mark under each 3. */
  readonly triplets: readonly (readonly [number, number])[];
}

const SHORTEST = 64;
const QUARTER = fraction(1, 4);
const THREE_HALVES = fraction(3, 2);
/** One dot makes 3/2 of a value, two make 7/4. */
const PARTS: readonly number[] = [1, 3, 7];
/** A bar's note in more pieces than these is not worth reading. */
const MOST_PIECES = 16;

/** Number of beams or flags: 1 for an eighth, 2 for a sixteenth; 0 for what is longer. */
export const beamCount = (value: NoteValue): number => [8, 16, 32, 64].indexOf(value.base) + 1;

/**
 * `upbeat` is how much of the meter's bar is missing before this one begins: 0 but for a pick-up. `tied`: what sounds before the
 * bar is held into it, so that the bar has a value of its own before anything new is struck.
 */
export function rhythmOf(
  moments: readonly Moment[],
  meter: Meter,
  upbeat: Fraction = ZERO,
  tied: boolean = false,
): Rhythm {
  const groups = groupStarts(meter);
  const marks: Mark[] = [];
  for (let index = 0; index < moments.length; index++) {
    const first = moments[index];
    const goesOn = index === 0 && tied && first.events.length === 0 && !first.rest;
    if (first.events.length === 0 && !first.rest && !goesOn) continue;
    let last = first;
    // A moment at which only a chord's name changes lets the note before it go on.
    while (index + 1 < moments.length && moments[index + 1].events.length === 0 && !moments[index + 1].rest)
      last = moments[++index];
    pushPieces(marks, first, minus(endOf(last), first.start), goesOn, upbeat, groups);
  }
  return { marks, beams: beamsOf(marks, groups, upbeat), triplets: tripletsOf(marks) };
}

/**
 * Where beams may begin. Beats shorter than a quarter, as in 5/8 and 7/8, are taken in twos and a last three; up to three
 * of them are one group.
 */
function groupStarts(meter: Meter): readonly Fraction[] {
  const small = compare(meter.beat, QUARTER) < 0;
  const starts: Fraction[] = [];
  const count = Math.round(toNumber(dividedBy(meter.bar, meter.beat)));
  for (let beat = 0; beat < count; beat++) {
    const lastOfThree = count % 2 === 1 && beat === count - 1;
    if (!small || (beat % 2 === 0 && !lastOfThree)) starts.push(times(meter.beat, fraction(beat)));
  }
  return starts.length === 0 ? [ZERO] : starts;
}

/** The group that an instant of the meter's bar lies in, from 0. */
function groupAt(groups: readonly Fraction[], instant: Fraction): number {
  let group = 0;
  while (group + 1 < groups.length && compare(groups[group + 1], instant) <= 0) group++;
  return group;
}

/** One value where one will do, else several tied ones, cut where a beat begins. */
function pushPieces(
  marks: Mark[],
  moment: Moment,
  whole: Fraction,
  goesOn: boolean,
  upbeat: Fraction,
  groups: readonly Fraction[],
): void {
  let start = moment.start;
  let left = whole;
  for (let piece = 0; left.over > 0 && piece < MOST_PIECES; piece++) {
    const exact = valueOf(left);
    let length = left;
    if (!exact) {
      const instant = plus(start, upbeat);
      const group = groupAt(groups, instant);
      const onBeat = equal(groups[group], instant);
      const next = groups[group + 1];
      const toNext = next && !onBeat ? minus(next, instant) : undefined;
      if (toNext && compare(toNext, left) < 0 && valueOf(toNext)) length = toNext;
      else length = longestWithin(left);
    }
    const value = exact ?? valueOf(length) ?? { base: SHORTEST, dots: 0, triplet: false };
    marks.push({ start, length, value, rest: moment.rest, tied: piece > 0 || goesOn });
    start = plus(start, length);
    left = minus(left, length);
  }
}

/** The largest plain value not above `length`; what is shorter than the shortest, or no such fraction, is taken whole. */
function longestWithin(length: Fraction): Fraction {
  for (let base = 1; base <= SHORTEST; base *= 2) {
    const plain = fraction(1, base);
    if (compare(plain, length) <= 0) return plain;
  }
  return length;
}

const isPowerOfTwo = (n: number): boolean => Number.isInteger(n) && n > 0 && (n & (n - 1)) === 0;

/** The note value of a length; undefined where no single one has it. Thirds of a plain value are triplets, never dotted. */
export function valueOf(length: Fraction): NoteValue | undefined {
  const triplet = length.under % 3 === 0;
  const written = triplet ? times(length, THREE_HALVES) : length;
  for (let dots = 0; dots <= (triplet ? 0 : 2); dots++) {
    const base = (PARTS[dots] * written.under) / (written.over * 2 ** dots);
    if (isPowerOfTwo(base) && base <= SHORTEST) return { base, dots, triplet };
  }
  return undefined;
}

function beamsOf(marks: readonly Mark[], groups: readonly Fraction[], upbeat: Fraction): readonly [number, number][] {
  const beams: [number, number][] = [];
  const groupOf = (mark: Mark): number => groupAt(groups, plus(mark.start, upbeat));
  for (let first = 0; first < marks.length; first++) {
    let last = first;
    while (last + 1 < marks.length && canBeam(marks[last]) && canBeam(marks[last + 1])) {
      if (groupOf(marks[last + 1]) !== groupOf(marks[first])) break;
      last++;
    }
    if (last > first) beams.push([first, last]);
    first = last;
  }
  return beams;
}

const canBeam = (mark: Mark): boolean => !mark.rest && beamCount(mark.value) > 0;

/** A group of triplets is through when its notes together fill a plain value. */
function tripletsOf(marks: readonly Mark[]): readonly [number, number][] {
  const groups: [number, number][] = [];
  for (let first = 0; first < marks.length; first++) {
    if (!marks[first].value.triplet) continue;
    let last = first;
    let sum = marks[first].length;
    while (last + 1 < marks.length && marks[last + 1].value.triplet && !isPowerOfTwo(sum.under)) {
      last++;
      sum = plus(sum, marks[last].length);
    }
    groups.push([first, last]);
    first = last;
  }
  return groups;
}

/** `quarter`, `dotted half`, `eighth triplet`. */
export function valueWords(value: NoteValue): string {
  const names: Readonly<Record<number, string>> = {
    1: 'whole',
    2: 'half',
    4: 'quarter',
    8: 'eighth',
    16: 'sixteenth',
    32: 'thirty-second',
    64: 'sixty-fourth',
  };
  const dots = ['', 'dotted ', 'double-dotted '][value.dots];
  return `${dots}${names[value.base]}${value.triplet ? ' triplet' : ''}`;
}

/** What the tempo counts, in words: `quarter`, `dotted quarter`; the fraction itself where no single note has its length. */
export function beatWords(beat: Fraction): string {
  const value = valueOf(beat);
  return value && equal(beat, lengthOf(value)) ? valueWords(value) : `${beat.over}/${beat.under}`;
}

const lengthOf = ({ base, dots }: NoteValue): Fraction => fraction(PARTS[dots], base * 2 ** dots);
