/** `reach at most 2`: no held shape spans more frets. A melody over it is the hand's business, not the shape's. */
import { counted, quoted } from '../words.ts';
import { pressedIn, reachOf } from './hand-shapes.ts';
import type { Predicate, Said } from './judgement.ts';
import { chordNamed, judgedBy, placeNamed, shapesOn, type ShapedChord, type Stage } from './stage.ts';

export const reach: Predicate<Said<'reach'>> = {
  judge: ({ most }, stage) => {
    const shapes = shapesOn(stage);
    return judgedBy(
      stage,
      shapes,
      ({ voicing }) => reachOf(voicing) > most,
      (first) => ({ truth: spans(stage, first), repair: { most: `${reachOf(widest(shapes.shaped).voicing)}` } }),
    );
  },
  why: (_, stage) => `The widest shape: ${spans(stage, widest(shapesOn(stage).shaped))}.`,
  truths: (stage) => {
    const { shaped, missing } = shapesOn(stage);
    if (shaped.length === 0 || missing !== undefined) return [];
    const chord = widest(shaped);
    const where = `${quoted(chord.plan.written)} in ${placeNamed(stage, chord)}`;
    return [{ text: `reach at most ${reachOf(chord.voicing)}`, detail: `the widest is ${where}` }];
  },
};

/** The first of the widest. */
const widest = (shaped: readonly ShapedChord[]): ShapedChord =>
  shaped.reduce((best, one) => (reachOf(one.voicing) > reachOf(best.voicing) ? one : best));

function spans(stage: Stage, chord: ShapedChord): string {
  const pressed = pressedIn(chord.voicing);
  const range = pressed && pressed.highest > pressed.lowest ? `, from ${pressed.lowest} to ${pressed.highest}` : '';
  return `${chordNamed(stage, chord)} spans ${counted(reachOf(chord.voicing), 'fret')}${range}`;
}
