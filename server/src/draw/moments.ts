/** A bar cut at each instant at which something begins: what stands in one column of a tab. */
import type { BarScore, ChordScore, NoteEvent } from '../realise/score.ts';
import type { PluckingFinger } from '../lesson/lesson.ts';
import { compare, equal, fraction, minus, plus, ZERO } from '../util/fraction.ts';
import type { Fraction } from '../util/fraction.ts';

export interface Moment {
  /** In whole notes from the start of the bar. */
  readonly start: Fraction;
  /** To the next moment, or to the end of the bar. */
  readonly length: Fraction;
  /** At most one a string; where picking and melody meet on a string, the melody's. Grace notes are not among them. */
  readonly events: readonly NoteEvent[];
  /** Played just before the others and in no time of their own; at most one a string. */
  readonly graces: readonly NoteEvent[];
  readonly rest: boolean;
  /** The chord that begins here. */
  readonly chord?: ChordScore;
}

/** A note beyond the end of its bar, which only a broken lesson has, is given this much room. */
const LEAST_LENGTH = fraction(1, 64);

/** In the order of time; at least one, which begins the bar. */
export function momentsOf(bar: BarScore): readonly Moment[] {
  const starts = [
    ZERO,
    ...bar.events.map((event) => drawnIn(event.start)),
    ...bar.rests.map((rest) => drawnIn(rest.start)),
    ...bar.chords.map((chord) => drawnIn(chord.start)),
  ]
    .sort(compare)
    .filter((start, index, all) => index === 0 || !equal(start, all[index - 1]));
  return starts.map((start, index): Moment => {
    const here = (other: Fraction): boolean => equal(drawnIn(other), start);
    const end = starts[index + 1] ?? bar.length;
    const all = bar.events.filter((event) => here(event.start));
    const events = all.filter((event) => !event.technique?.grace);
    return {
      start,
      length: compare(end, start) > 0 ? minus(end, start) : LEAST_LENGTH,
      events: oneAString(events),
      graces: events.length < all.length ? oneAString(all.filter((event) => event.technique?.grace)) : [],
      rest: events.length === 0 && bar.rests.some((rest) => here(rest.start)),
      chord: bar.chords.find((chord) => here(chord.start)),
    };
  });
}

const drawnIn = (start: Fraction): Fraction => (start.over < 0 ? ZERO : start);

function oneAString(events: readonly NoteEvent[]): readonly NoteEvent[] {
  const byString = new Map<number, NoteEvent>();
  for (const event of events) {
    if (byString.get(event.string)?.voice !== 'melody') byString.set(event.string, event);
  }
  return [...byString.values()].sort((a, b) => b.string - a.string);
}

export const endOf = (moment: Moment): Fraction => plus(moment.start, moment.length);

/** Thumb first, as the trade writes a pinch: p i m a c. */
const FINGER_ORDER = 'pimac';

/** The plucking fingers of a moment without doubles, those of its grace notes too; empty for a stroke and where none is known. */
export function pluckingFingers(moment: Moment): readonly PluckingFinger[] {
  const fingers = new Set<PluckingFinger>();
  for (const { pluck } of [...moment.graces, ...moment.events]) if (pluck !== undefined) fingers.add(pluck);
  return [...fingers].sort((a, b) => FINGER_ORDER.indexOf(a) - FINGER_ORDER.indexOf(b));
}

export const strokeOf = (moment: Moment): NoteEvent['stroke'] =>
  moment.events.find((event) => event.stroke !== undefined)?.stroke;

/** Letters of the trade for a string that the thumb slaps or a finger taps. */
export const strikeLetter = (event: NoteEvent): 'S' | 'T' | undefined => {
  const attack = event.technique?.attack;
  return attack === 'slap' ? 'S' : attack === 'tap' ? 'T' : undefined;
};

export const isPalmMuted = (moment: Moment): boolean =>
  moment.events.some((event) => event.technique?.palmMuted === true);

export const isAccented = (moment: Moment): boolean => moment.events.some((event) => event.accent);
