/** A placed contour in time: by lengths of its own, or riding the cell's plucks of its string. */
import type { Contour, PluckingFinger, SectionPlan } from '../lesson/lesson.ts';
import type { WrittenNote } from '../lesson/written.ts';
import type { Pitch } from '../theory/note.ts';
import { compare, minus, plus, type Fraction } from '../util/fraction.ts';
import { aimsOf, type Aim } from './aims.ts';
import type { PlacedContour } from './contour.ts';
import type { Stopped } from './neck.ts';
import { cellOver, type Onset } from './picking.ts';
import type { Timeline } from './timeline.ts';

export interface MelodyNote {
  /** Of the contour's notes, or of the notes that the bar's melody writes out. */
  readonly index: number;
  /** In whole notes from the start of the section. */
  readonly start: Fraction;
  readonly end: Fraction;
  /** Player's number. */
  readonly string: number;
  readonly fret: number;
  readonly shapePitch: Pitch;
  readonly triplet: boolean;
  readonly pluck?: PluckingFinger;
  /** Silence follows where the note ends. */
  readonly stopped: boolean;
  /** As the author wrote it; undefined where a contour became it. */
  readonly written?: WrittenNote;
}

export interface Melody {
  readonly notes: readonly MelodyNote[];
  /** Notes of the contour that found no place. */
  readonly cut: number;
}

export interface Room {
  /** Where the chord starts as written, and where it begins and ceases to sound, pushes counted. */
  readonly start: Fraction;
  readonly sounds: Fraction;
  readonly end: Fraction;
  /** What the right hand does meanwhile, with the strings that each moment sounds. */
  readonly onsets: readonly { readonly onset: Onset; readonly aims: readonly Aim[] }[];
  /** Whether the chord is only struck: a riding contour then has but one pluck, and that is no fault. */
  readonly struck: boolean;
}

/** The room over the chord at `at` of the timeline, whose shape has these strings. */
export function roomOver(
  plan: SectionPlan,
  { chords }: Timeline,
  at: number,
  onsets: readonly Onset[],
  strings: readonly Stopped[],
): Room {
  const place = chords[at];
  const next = chords[at + 1];
  return {
    start: place.start,
    sounds: place.sounds,
    end: next && compare(next.sounds, place.end) < 0 ? next.sounds : place.end,
    onsets: onsets.map((onset) => ({ onset, aims: aimsOf(onset, strings, place.plan.bassStrings) })),
    struck: cellOver(plan, place) === undefined,
  };
}

export function melodyOf(contour: Contour, placed: PlacedContour, room: Room): Melody {
  const rides = contour.notes.every((note) => note.length === undefined);
  const starts = rides ? ridingStarts(contour, placed, room) : ownStarts(contour, room);
  const notes: MelodyNote[] = [];
  let cut = 0;
  placed.notes.forEach((note, index) => {
    const start = starts[index];
    if (start === undefined) {
      if (note.kind === 'note') cut++;
      return;
    }
    if (note.kind !== 'note') return;
    // A note lasts until something else begins: held notes, and notes that lie nowhere, let it go on.
    let next = index + 1;
    while (next < placed.notes.length && !['note', 'rest'].includes(placed.notes[next].kind)) next++;
    const nextStart = starts[next];
    const { fret, shapePitch } = note;
    notes.push({
      index,
      start,
      end: nextStart ?? room.end,
      string: placed.string,
      fret,
      shapePitch,
      triplet: contour.notes[index].triplet,
      ...(contour.finger && { pluck: contour.finger }),
      stopped: nextStart !== undefined && placed.notes[next].kind === 'rest',
    });
  });
  return { notes, cut: rides && room.struck ? 0 : cut };
}

/** By the contour's own lengths, as far as the chord lasts. */
function ownStarts(contour: Contour, room: Room): readonly (Fraction | undefined)[] {
  let at = room.start;
  return contour.notes.map((note, index) => {
    const start = at;
    if (note.length) at = plus(at, note.length);
    if (compare(start, room.end) >= 0) return undefined;
    return index === 0 ? room.sounds : start;
  });
}

/** By the cell's plucks of the contour's string, in order. */
function ridingStarts(contour: Contour, placed: PlacedContour, room: Room): readonly (Fraction | undefined)[] {
  const plucks = room.onsets.filter(({ aims }) => aims.some((aim) => aim.string === placed.string));
  return contour.notes.map((_, index) => plucks[index]?.onset.start);
}

/** The note that sounds on a string at an instant, whether it begins there or goes on. */
export const soundingAt = (
  notes: readonly MelodyNote[],
  instant: Fraction,
  string: number | undefined,
): MelodyNote | undefined =>
  notes.find((note) => note.string === string && compare(note.start, instant) <= 0 && compare(note.end, instant) > 0);

export const lengthOf = (note: MelodyNote): Fraction => minus(note.end, note.start);
