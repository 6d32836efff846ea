/** Verdicts of the hand as a shape rule or a grip narrows them: without barres, or with the fingers that the author gives. */
import type { FretList } from '../fretboard/frets.ts';
import type { Fingering, ShapeVerdict } from '../hand/fingering.ts';
import { DIFFICULTY, MILLION, ZONES } from '../hand/model.ts';
import { longestBarre } from './preference.ts';

/** The verdict of a hand that may not lay a finger over two strings; not playable where only barres would do. */
export function withoutBarre(verdict: ShapeVerdict): ShapeVerdict {
  const fingerings = verdict.fingerings.filter(({ fingers }) => longestBarre(fingers) < 2);
  if (fingerings.length === verdict.fingerings.length) return verdict;
  if (fingerings.length === 0) {
    const effort = DIFFICULTY.most * MILLION;
    const { steps } = verdict;
    return { playable: false, zone: 'unplayable', difficulty: DIFFICULTY.most, effort, fingerings, steps };
  }
  const easiest = fingerings.reduce((best, each) => (each.effort < best.effort ? each : best));
  const zone = ZONES.find((each) => fingerings.some((fingering) => fingering.zone === each)) ?? 'unplayable';
  const widest = fingerings.find((each) => each.zone === zone)?.widest;
  const { difficulty, effort } = easiest;
  return { playable: true, zone, difficulty, effort, fingerings, widest, steps: verdict.steps };
}

/** The author's own fingers: judged as one of the fingerings that the hand knows, or else taken as they are given. */
export function givenFingering(verdict: ShapeVerdict, frets: FretList, fingers: FretList): Fingering | undefined {
  const best = verdict.fingerings[0];
  if (!best) return undefined;
  const asGiven = frets.map((fret, index) => (fret === null ? null : fret === 0 ? 0 : (fingers[index] ?? 0)));
  const known = verdict.fingerings.find((each) => each.fingers.every((finger, index) => finger === asGiven[index]));
  return known ?? { ...best, fingers: asGiven };
}
