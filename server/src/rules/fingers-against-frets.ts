/** Fingers of a grip that cannot be at its frets. */
import type { FretList } from '../fretboard/frets.ts';
import { stringAtIndex } from '../fretboard/frets.ts';
import type { Rule } from './rule.ts';
import { fingerName } from './shared/words.ts';

export const rule: Rule = {
  code: 'fingers-against-frets',
  severity: 'warning',
  topic: 'hands',
  title: 'Fingers that do not match the frets',
  why: 'The fingers of a grip stand in the same places as its frets. A finger on an open or silent string, a pressed string without one, or one finger at two frets is nearly always a slip of one place, and the diagram would show it to the student.',
  bad: `grip Am x02210
  fingers x02230
`,
  good: `grip Am x02210
  fingers x02310
`,
  *check({ lesson }) {
    for (const { frets, fingers, lines, fretsSpan } of lesson.grips) {
      if (!frets || !fingers) continue;
      const why = mismatch(frets, fingers);
      if (!why) continue;
      yield {
        span: lines.fingers ?? fretsSpan,
        message: `These fingers do not fit the frets: ${why}.`,
        related: [{ span: fretsSpan, message: 'The frets are written here.' }],
      };
    }
  },
};

/** The first thing that is wrong, from the lowest string up; the strings first, then the fingers among themselves. */
function mismatch(frets: FretList, fingers: FretList): string | undefined {
  const fretOf: (number | undefined)[] = [];
  for (let index = 0; index < frets.length; index++) {
    const fret = frets[index];
    const finger = fingers[index] ?? 0;
    const string = stringAtIndex(index, frets.length);
    if (!fret && finger > 0) return `string ${string} ${fret === null ? 'is silent' : 'rings open'} and needs none`;
    if (!fret) continue;
    if (finger === 0) return `string ${string} is pressed at fret ${fret} and has none`;
    if ((fretOf[finger] ?? fret) !== fret)
      return `the ${fingerName(finger)} cannot be at frets ${fretOf[finger]} and ${fret} at once`;
    fretOf[finger] = fret;
  }
  for (let higher = 2; higher <= 4; higher++) {
    for (let lower = 1; lower < higher; lower++) {
      const [low, high] = [fretOf[lower], fretOf[higher]];
      if (low !== undefined && high !== undefined && low > high)
        return `the ${fingerName(lower)} at fret ${low} would lie above the ${fingerName(higher)} at fret ${high}`;
    }
  }
  return undefined;
}
