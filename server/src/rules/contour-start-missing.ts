/** A contour that starts on another tone than its first. */
import { toneOf } from '../theory/chord.ts';
import { semitone } from '../theory/note.ts';
import type { Tone } from '../lesson/lesson.ts';
import type { Rule } from './rule.ts';
import { once, type PlacedChord } from './shared/chords.ts';
import { contourOver } from './shared/contours.ts';
import { quoted } from './shared/words.ts';

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
    once(
      context.chords.flatMap((chord) => {
        const found = contourOver(chord, context);
        if (!found || found.outcome.start <= 0) return [];
        const { contour, outcome, definition } = found;
        const [first] = contour.starts;
        const taken = contour.starts[outcome.start];
        if (!first || !taken) return [];
        const why = hasTone(chord, first) ? 'from there the hand cannot keep it' : 'the chord does not have it';
        const message = `Over ${quoted(chord.plan.written)}, ${quoted(contour.name)} starts on ${quoted(taken.text)}, not on ${quoted(first.text)}: ${why}.`;
        const span = definition?.startSpans[0];
        return { chord, message, related: span ? [{ span, message: 'It should start on this tone.' }] : [] };
      }),
    ),
};

function hasTone({ plan, section }: PlacedChord, tone: Tone): boolean {
  const name = plan.chord && toneOf(plan.chord, tone.degree, tone.absolute, section.plan.key);
  return name !== undefined && plan.chord!.tones.some((each) => semitone(each.name) === semitone(name));
}
