/** How long the notes of a tab are as notated: a note lasts to whatever is new on any string, and silence begins where `r` ends it. */
import { compare, equal, minus, ZERO, type Fraction } from '../util/fraction.ts';
import type { WrittenBar, WrittenNote } from './written.ts';

/** A note whose length is still to be found. */
export type TabNote = { -readonly [Key in keyof WrittenNote]: WrittenNote[Key] };

/** The strings of the last moment that goes on sounding over a bar line. */
export type Sounding = ReadonlySet<number>;

interface Notated extends Pick<WrittenBar, 'rests' | 'held'> {
  readonly sounding: Sounding;
}

/**
 * Gives each note its length; grace notes get none. `notes` are in playing order, `stops` by start, and `before` are the strings
 * whose notes of the bar before have not been stopped.
 */
export function notated(
  notes: readonly TabNote[],
  stops: WrittenBar['stops'],
  before: Sounding,
  bar: Fraction,
): Notated {
  for (const note of notes) if (note.grace) note.length = ZERO;
  const played = notes.filter((note) => !note.grace);
  const starts = played.map((note) => note.start).filter((start, i, all) => i === 0 || !equal(start, all[i - 1]));
  const rests: Silence[] = [];
  const held: Held[] = [];
  let sounding: ReadonlySet<number> = before;

  // What lies between one moment and the next: where each of its strings is stopped, and the silence when all are.
  const fill = (start: Fraction, end: Fraction, strings: ReadonlySet<number>): Map<number, Fraction> => {
    const inside = stops.filter((stop) => compare(stop.start, start) >= 0 && compare(stop.start, end) < 0);
    const ends = new Map([...strings].map((string) => [string, end]));
    for (const { string, start: at } of inside) {
      if (ends.has(string) && compare(at, ends.get(string)!) < 0) ends.set(string, at);
    }
    const silent = [...ends.values()].reduce((latest, one) => (compare(one, latest) > 0 ? one : latest), start);
    const cuts = inside.map((stop) => stop.start).filter((at) => compare(at, silent) > 0);
    let from = silent;
    for (const to of [...cuts, end]) {
      if (compare(to, from) > 0) rests.push({ start: from, length: minus(to, from) });
      from = to;
    }
    sounding = new Set([...strings].filter((string) => equal(ends.get(string)!, end)));
    return ends;
  };

  const opening = fill(ZERO, starts[0] ?? bar, before);
  for (const [string, end] of opening) if (compare(end, ZERO) > 0) held.push({ string, length: end });
  starts.forEach((start, i) => {
    const here = played.filter((note) => equal(note.start, start));
    const end = starts[i + 1] ?? bar;
    const ends = fill(start, end, new Set(here.map((note) => note.string)));
    for (const note of here) note.length = minus(ends.get(note.string) ?? end, start);
    // A dead note is over at once, and nothing of it goes on.
    sounding = new Set([...sounding].filter((string) => !here.some((note) => note.string === string && note.dead)));
  });
  return { rests, held, sounding };
}

type Silence = WrittenBar['rests'][number];
type Held = WrittenBar['held'][number];
