/** A melody that is written out, as it lies over one chord: in time, with the pitches of its frets. */
import { degreeOver } from '../theory/chord.ts';
import { pitchFromMidi, semitone, usualName, type Pitch } from '../theory/note.ts';
import { indexOfString } from '../fretboard/frets.ts';
import type { ChordPlan, SectionPlan } from '../lesson/lesson.ts';
import type { WrittenBar, WrittenNote } from '../lesson/written.ts';
import { compare, equal, plus, type Fraction } from '../util/fraction.ts';
import type { MelodyNote } from './melody-notes.ts';
import type { Neck } from './neck.ts';
import type { Timeline } from './timeline.ts';

/** Semitones that a string touched at a part of its length sounds above the same string untouched: octave, twelfth, and so on. */
const HARMONICS: Readonly<Record<number, number>> = {
  12: 12,
  7: 19,
  19: 19,
  5: 24,
  24: 24,
  4: 28,
  9: 28,
  16: 28,
  3: 31,
};

/** What the bars around a written one go on with. */
export type WrittenBars = (bar: number) => WrittenBar | undefined;

/** The notes of the bar's melody that begin while the chord at `at` of the timeline lasts; none where the bar has a tab. */
export function lineOver(plan: SectionPlan, timeline: Timeline, at: number, neck: Neck): readonly MelodyNote[] {
  const { bar, plan: chord } = timeline.chords[at];
  const { melody, tab } = plan.bars[bar];
  if (!melody || tab) return [];
  const end = plus(chord.start, chord.length);
  const written: WrittenBars = (index) => plan.bars[index]?.melody;
  return melody.notes.flatMap((note, index): MelodyNote | readonly [] => {
    // What stands before the first chord of a bar is played over it too.
    const isBefore = compare(note.start, chord.start) < 0 && timeline.chords[at].chord > 0;
    if (isBefore || compare(note.start, end) >= 0) return [];
    const stop = stopAfter(note, bar, written, timeline);
    const ends = endOf(note, bar, written, timeline);
    return {
      index,
      start: plus(timeline.bars[bar], note.start),
      end: ends,
      string: note.string,
      fret: note.fret,
      shapePitch: writtenPitch(note, plan, chord, neck),
      triplet: note.triplet,
      ...(note.pluck && { pluck: note.pluck }),
      stopped: stop !== undefined && equal(stop, ends),
      written: note,
    };
  });
}

/** As notated, on the section's line of time: a tie goes on from bar to bar for as long as nothing new is said on the string. */
export function endOf(note: WrittenNote, bar: number, written: WrittenBars, timeline: Timeline): Fraction {
  const onString = (one: { readonly string: number }): boolean => one.string === note.string;
  let end = plus(timeline.bars[bar], plus(note.start, note.length));
  if (written(bar)?.notes.some((one) => onString(one) && compare(one.start, note.start) > 0)) return end;
  for (let next = bar + 1; ; next++) {
    const there = written(next);
    const held = there?.held.find(onString);
    if (!there || !held) return end;
    end = plus(timeline.bars[next], held.length);
    if (there.notes.some(onString)) return end;
  }
}

/** Where `r` ends a note: on its own string, in its bar or a bar after it with nothing new between. */
export function stopAfter(
  note: WrittenNote,
  bar: number,
  written: WrittenBars,
  timeline: Timeline,
): Fraction | undefined {
  let after: Fraction | undefined = note.start;
  for (let next = bar; ; next++) {
    const there = written(next);
    if (!there) return undefined;
    const isAfter = (start: Fraction): boolean => after === undefined || compare(start, after) > 0;
    const stop = there.stops.find((one) => one.string === note.string && isAfter(one.start));
    const other = there.notes.find((one) => one.string === note.string && isAfter(one.start));
    if (stop && (!other || compare(stop.start, other.start) <= 0)) return plus(timeline.bars[next], stop.start);
    if (other) return undefined;
    after = undefined;
  }
}

/** As the symbols name it; a bent note is named where it is pressed, a harmonic where it sounds. */
export function writtenPitch(note: WrittenNote, { key }: SectionPlan, chord: ChordPlan | undefined, neck: Neck): Pitch {
  const open = neck.open[indexOfString(note.string, neck.strings)];
  const touched = note.harmonic === undefined ? 0 : (HARMONICS[note.harmonic - note.fret] ?? 0);
  const sounding = open + note.fret + touched;
  const place = ((sounding % 12) + 12) % 12;
  const name =
    chord?.chord && !note.dead
      ? degreeOver(chord.chord, place, key).name
      : (key.scale.find((one) => semitone(one) === place) ?? usualName(place));
  return pitchFromMidi(sounding, name);
}
