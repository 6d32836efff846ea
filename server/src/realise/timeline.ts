/** The bars of a section as one line of time: where each chord starts for the ear, and for how long it is the one that sounds. */
import { compare, dividedBy, fraction, least, minus, plus, toNumber, ZERO, type Fraction } from '../util/fraction.ts';
import type { BarPlan, ChordPlan, SectionPlan, Tempo } from '../lesson/lesson.ts';

/** How early a pushed chord comes. */
const PUSH = fraction(1, 8);

export interface ChordPlace {
  /** Indexes of the bar in the section, and of the chord in its bar. */
  readonly bar: number;
  readonly chord: number;
  readonly plan: ChordPlan;
  /** As written, in whole notes from the start of the section. */
  readonly start: Fraction;
  readonly end: Fraction;
  /** From here on this chord sounds: earlier than it starts where it is pushed. */
  readonly sounds: Fraction;
}

export interface Timeline {
  /** The start of each bar, in whole notes from the start of the section. */
  readonly bars: readonly Fraction[];
  readonly end: Fraction;
  readonly chords: readonly ChordPlace[];
}

export function timelineOf(plan: SectionPlan): Timeline {
  const bars: Fraction[] = [];
  const chords: ChordPlace[] = [];
  let barStart = ZERO;
  plan.bars.forEach((bar: BarPlan, barIndex) => {
    bars.push(barStart);
    bar.chords.forEach((chord, chordIndex) => {
      const start = plus(barStart, chord.start);
      const before = chords.at(-1);
      // A push takes its eighth from the chord before; the first chord of all has nowhere to take it from.
      const room = chord.pushed && !chord.silent && before ? least(PUSH, minus(start, before.start)) : ZERO;
      const sounds = minus(start, room);
      chords.push({ bar: barIndex, chord: chordIndex, plan: chord, start, end: plus(start, chord.length), sounds });
    });
    barStart = plus(barStart, bar.length);
  });
  return { bars, end: barStart, chords };
}

/** The index of the bar that an instant of the section lies in; the last for what lies beyond it. */
export function barAt(timeline: Timeline, instant: Fraction): number {
  let low = 0;
  let high = timeline.bars.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (compare(timeline.bars[middle], instant) <= 0) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** How long a length in whole notes lasts, in whole millionths of a second. */
export function microseconds(length: number, tempo: Tempo): number {
  const beats = length / toNumber(tempo.beat);
  return Math.round((beats * 60_000_000) / tempo.perMinute);
}

/** How long a whole note lasts, in seconds, exact; tempos are taken to a thousandth of a beat a minute. */
export const secondsOfWhole = ({ perMinute, beat }: Tempo): Fraction =>
  dividedBy(fraction(60_000, Math.max(1, Math.round(perMinute * 1000))), beat);
