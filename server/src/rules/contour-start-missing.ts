/** A contour that starts on another tone than its first. */
import { toneOf } from '../theory/chord.ts';
import { semitone } from '../theory/note.ts';
import type { Tone } from '../lesson/lesson.ts';
import type { Rule } from './rule.ts';
import type { PlacedChord } from './shared/chords.ts';
import { onceForContour, type Complaint } from './shared/contours.ts';
import { listed, quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'contour-start-missing',
  severity: 'hint',
  topic: 'playing',
  title: 'A contour that starts on its second choice',
  why: 'Over this chord the tone that the contour should start on is not there, or the hand cannot keep the contour from it while it holds the chord, and the one behind `or` was taken. That is what `or` is for, but the melody starts elsewhere here, and the ear will notice.',
  bad: `shape lamp
  strings 3 2 1
  tones R 3 5

progression quay
  D

contour swell on 1
  each 1/4
  from 9 or 5: 0 +1 0 +1

section verse
  progression quay
  shape lamp
  contour swell
`,
  good: `shape lamp
  strings 3 2 1
  tones R 3 5

progression quay
  D

contour swell on 1
  each 1/4
  from 5: 0 +1 0 +1

section verse
  progression quay
  shape lamp
  contour swell
`,
  check: (context) =>
    onceForContour<Moved>(
      context,
      (chord, over) => {
        const { contour, outcome, definition } = over;
        const [first] = contour.starts;
        const taken = outcome.start > 0 ? contour.starts[outcome.start] : undefined;
        if (!first || !taken) return undefined;
        const isThere = hasTone(chord, first);
        const note = definition?.startSpans[0];
        return { weight: 0, over, chord, note, noted: 'It should start on this tone.', taken: taken.text, isThere };
      },
      ({ over: { contour } }, all, where) => {
        const distinct = (words: readonly string[]): readonly string[] => [...new Set(words)];
        const taken = distinct(all.map((one) => quoted(one.taken)));
        const lacks = all.length === 1 ? 'the chord does not have it' : 'the chords do not have it';
        const why = distinct(all.map(({ isThere }) => (isThere ? 'from there the hand cannot keep it' : lacks)));
        const starts = `${quoted(contour.name)} starts on ${listed(taken, 'or')}, not on ${quoted(contour.starts[0].text)}`;
        return { message: `${where}, ${starts}: ${listed(why, 'or')}.` };
      },
    ),
};

interface Moved extends Complaint {
  /** The tone that it starts on instead. */
  readonly taken: string;
  /** Whether the chord has the tone that it should start on. */
  readonly isThere: boolean;
}

function hasTone({ plan, section }: PlacedChord, tone: Tone): boolean {
  const name = plan.chord && toneOf(plan.chord, tone.degree, tone.absolute, section.plan.key);
  return name !== undefined && plan.chord!.tones.some((each) => semitone(each.name) === semitone(name));
}
