/** `no barre`: in no shape as fingered does a finger lie over several strings. */
import { stringAtIndex } from '../../fretboard/frets.ts';
import type { Voicing } from '../../realise/score.ts';
import { longestBarre } from '../../realise/preference.ts';
import { counted, fingerName } from '../words.ts';
import type { Predicate, Said } from './judgement.ts';
import { chordNamed, judgedBy, shapesOn, type ShapedChord, type Stage } from './stage.ts';

const isBarred = ({ voicing }: ShapedChord): boolean => longestBarre(voicing.fingering?.fingers ?? []) > 1;

export const noBarre: Predicate<Said<'no barre'>> = {
  judge: (_, stage) =>
    judgedBy(stage, shapesOn(stage), isBarred, (first) => ({
      truth: `${chordNamed(stage, first)} has ${barreIn(first.voicing)}`,
    })),
  why: (_, stage) => `In ${counted(shapesOn(stage).shaped.length, 'shape')} every finger holds one string.`,
  truths: (stage) =>
    noBarre.judge({ kind: 'no barre' }, stage).holds ? [{ text: 'no barre', detail: holdsIn(stage) }] : [],
};

const holdsIn = (stage: Stage): string => `of ${counted(shapesOn(stage).shaped.length, 'shape')}`;

/** `the index finger over strings 5 to 1 at fret 3`. */
function barreIn({ fingering, frets }: Voicing): string {
  const fingers = fingering?.fingers ?? [];
  const finger = [1, 2, 3, 4].find((each) => fingers.indexOf(each) !== fingers.lastIndexOf(each)) ?? 1;
  const first = fingers.indexOf(finger);
  const last = fingers.lastIndexOf(finger);
  const strings = [first, last].map((index) => stringAtIndex(index, fingers.length));
  return `the ${fingerName(finger)} over strings ${strings[0]} to ${strings[1]} at fret ${frets[first]}`;
}
