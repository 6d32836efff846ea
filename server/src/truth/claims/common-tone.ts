/** `common tone G3 throughout`: every shape sounds that note, at that height where its octave is named. */
import type { ClaimedNote } from '../../lesson/claims.ts';
import type { SoundingString } from '../../realise/score.ts';
import { formatNoteName, formatPitch, midi, sameSound } from '../../theory/note.ts';
import { listed } from '../words.ts';
import type { Predicate, Said } from './judgement.ts';
import { chordNamed, judgedBy, shapesOn, type ShapedChord } from './stage.ts';

/** Notes are named as the shapes are, seen from a capo. */
const isNote = ({ name, pitch }: ClaimedNote, { shapePitch }: SoundingString): boolean =>
  pitch ? midi(pitch) === midi(shapePitch) : sameSound(name, shapePitch);

const stringOf = (note: ClaimedNote, { voicing }: ShapedChord): SoundingString | undefined =>
  voicing.strings.find((one) => isNote(note, one));

export const commonTone: Predicate<Said<'common tone'>> = {
  judge: ({ note }, stage) => {
    const shapes = shapesOn(stage);
    return judgedBy(
      stage,
      shapes,
      (chord) => !stringOf(note, chord),
      (first) => {
        const notes = first.voicing.strings.map(({ shapePitch }) => formatPitch(shapePitch));
        const truth = `${chordNamed(stage, first)} sounds ${notes.join(' ')}, and no ${note.text} among them`;
        const [right] = commonTones(shapes.shaped, note.pitch !== undefined);
        return right ? { truth, repair: { note: right.text } } : { truth };
      },
    );
  },
  why: ({ note }, stage) => {
    const { shaped } = shapesOn(stage);
    const strings = [...new Set(shaped.map((chord) => stringOf(note, chord)?.string))];
    const on = `string${strings.length === 1 ? '' : 's'} ${listed(strings.map(String))}`;
    return `All ${shaped.length} shapes sound ${note.text}, on ${on}.`;
  },
  truths: (stage) => {
    const { shaped, missing } = shapesOn(stage);
    if (missing !== undefined || shaped.length < 2) return [];
    const notes = [...commonTones(shaped, true), ...commonTones(shaped, false)];
    const texts = [...new Set(notes.map(({ text }) => text))];
    return texts.map((text) => ({ text: `common tone ${text} throughout`, detail: `in all ${shaped.length} shapes` }));
  },
};

/** The notes that all shapes have, the lowest first; with their octaves, and without where only the name is common. */
function commonTones(shaped: readonly ShapedChord[], withOctaves: boolean): readonly ClaimedNote[] {
  const [first] = shaped;
  const low = [...(first?.voicing.strings ?? [])].sort((a, b) => a.midi - b.midi);
  const named = low.map(({ shapePitch }): ClaimedNote => ({ name: shapePitch, text: formatNoteName(shapePitch) }));
  const pitched = low.map(({ shapePitch }): ClaimedNote => ({
    name: shapePitch,
    pitch: shapePitch,
    text: formatPitch(shapePitch),
  }));
  const inOrder = withOctaves ? [...pitched, ...named] : named;
  return inOrder.filter((note) => shaped.every((chord) => stringOf(note, chord) !== undefined));
}
