/** `melody D4 C4 B3 in bar 3`: the notes of one bar's melody, in their order. */
import type { ClaimedNote } from '../../lesson/claims.ts';
import type { NoteEvent } from '../../realise/score.ts';
import { formatNoteName, formatPitch, midi, sameSound } from '../../theory/note.ts';
import { counted } from '../words.ts';
import type { Predicate, Said } from './judgement.ts';
import { melodyIn, noMelody } from './melody.ts';
import { barNamed, barsOn, untrue } from './stage.ts';

export const melodyNotes: Predicate<Said<'melody notes'>> = {
  judge: ({ notes, bar }, stage) => {
    const there = barsOn(stage).find((one) => one.bar.number === bar);
    if (!there) return { undecided: `there is no bar ${bar}` };
    const melody = melodyIn(there);
    const where = barNamed(stage, there);
    if (melody.length === 0) {
      if (barsOn(stage).every((one) => melodyIn(one).length === 0)) return noMelody(stage);
      const expected = there.bar.contour !== undefined || there.bar.broken;
      return expected
        ? { undecided: `the melody of ${where} cannot be worked out` }
        : untrue([there], { truth: `the melody has no note in ${where}` });
    }
    if (melody.length === notes.length && melody.every((event, at) => isNote(notes[at], event))) return { holds: true };
    const truth = `the melody of ${where} is ${pitchesOf(melody)}`;
    const plain = notes.every(({ pitch }) => pitch === undefined);
    return untrue([there], { truth, repair: { notes: plain ? namesOf(melody) : pitchesOf(melody) } });
  },
  why: ({ bar }, stage) => {
    const there = barsOn(stage).find((one) => one.bar.number === bar);
    const places = there ? melodyIn(there).map(({ string, fret }) => `fret ${fret} of string ${string}`) : [];
    return `It is played at ${places.join(', ')}.`;
  },
  truths: (stage) =>
    barsOn(stage).flatMap((bar) => {
      const melody = melodyIn(bar);
      if (melody.length === 0) return [];
      return { text: `melody ${pitchesOf(melody)} in bar ${bar.bar.number}`, detail: counted(melody.length, 'note') };
    }),
};

/** Notes are named as the shapes are, seen from a capo. */
const isNote = ({ name, pitch }: ClaimedNote, { shapePitch }: NoteEvent): boolean =>
  pitch ? midi(pitch) === midi(shapePitch) : sameSound(name, shapePitch);

const pitchesOf = (melody: readonly NoteEvent[]): string =>
  melody.map(({ shapePitch }) => formatPitch(shapePitch)).join(' ');

const namesOf = (melody: readonly NoteEvent[]): string =>
  melody.map(({ shapePitch }) => formatNoteName(shapePitch)).join(' ');
