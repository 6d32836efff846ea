/** Fingers of a grip that cannot be at its frets. */
import type { FretList } from '../fretboard/frets.ts';
import { stringAtIndex } from '../fretboard/frets.ts';
import { neckFret, type Instrument } from '../fretboard/instrument.ts';
import type { Rule } from './rule.ts';
import { fretNamed } from './shared/seen.ts';
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
      const why = mismatch(frets, fingers, lesson.settings.instrument);
      if (!why) continue;
      yield {
        span: lines.fingers ?? fretsSpan,
        message: `These fingers do not fit the frets: ${why}.`,
        related: [{ span: fretsSpan, message: 'The frets are written here.' }],
      };
    }
  },
};

/** A fret where a finger was found first: as it is named, and where it lies on the neck, whatever capo it is counted from. */
interface Pressed {
  readonly onNeck: number;
  readonly named: string;
}

/** The first thing that is wrong, from the lowest string up; the strings first, then the fingers among themselves. */
function mismatch(frets: FretList, fingers: FretList, instrument: Instrument): string | undefined {
  const at: (Pressed | undefined)[] = [];
  for (let index = 0; index < frets.length; index++) {
    const fret = frets[index];
    const finger = fingers[index] ?? 0;
    const string = stringAtIndex(index, frets.length);
    if (!fret && finger > 0) return `string ${string} ${fret === null ? 'is silent' : 'rings open'} and needs none`;
    if (!fret) continue;
    if (finger === 0) return `string ${string} is pressed at fret ${fret} and has none`;
    const here = { onNeck: neckFret(instrument, string, fret), named: fretNamed(instrument, fret, string) };
    const before = at[finger];
    if (before && before.onNeck !== here.onNeck)
      return `the ${fingerName(finger)} cannot be at ${before.named} and ${here.named} at once`;
    at[finger] = before ?? here;
  }
  for (let higher = 2; higher <= 4; higher++) {
    for (let lower = 1; lower < higher; lower++) {
      const [low, high] = [at[lower], at[higher]];
      if (low && high && low.onNeck > high.onNeck)
        return `the ${fingerName(lower)} at ${low.named} would lie above the ${fingerName(higher)} at ${high.named}`;
    }
  }
  return undefined;
}
