/** A contour that cannot be played over a chord. */
import type { Found, Rule } from './rule.ts';
import { once } from './shared/chords.ts';
import { contourOver } from './shared/contours.ts';
import { listed, quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'contour-off-neck',
  severity: 'warning',
  topic: 'playing',
  title: 'A contour that cannot be kept over a chord',
  why: 'The contour is worked out anew over every chord, in the place where the hand holds it. Here it would begin, or go, where no fret lies on its string or none that the hand can reach, so notes are missing. Let it start on another tone by `or`, move the shape by `at`, or put the contour on another string.',
  bad: `shape lamp
  strings 4 3 2
  tones R 3 5

progression quay
  G

contour swell on 1
  each 1/4
  from R: 0 +14 0

section verse
  progression quay
  shape lamp
  contour swell
`,
  good: `shape lamp
  strings 4 3 2
  tones R 3 5

progression quay
  G

contour swell on 1
  each 1/4
  from R: 0 +1 0

section verse
  progression quay
  shape lamp
  contour swell
`,
  check: (context) =>
    once(
      context.chords.flatMap((chord) => {
        const found = contourOver(chord, context);
        if (!found) return [];
        const { outcome, contour, definition } = found;
        const over = `over ${quoted(chord.plan.written)}`;
        const related = (span: { start: number; end: number } | undefined, message: string): Found['related'] =>
          span ? [{ span, message }] : [];
        if (outcome.start < 0) {
          const tones = listed(
            contour.starts.map((tone) => quoted(tone.text)),
            'or',
          );
          const message = `${quoted(contour.name)} finds no ${tones} to start on ${over}; give it another tone by ${quoted('or')}, or move the chord.`;
          return { chord, message, related: related(definition?.startSpans[0], 'It is to start on this tone.') };
        }
        if (outcome.unreachable === undefined) return [];
        const message = `Note ${outcome.unreachable + 1} of ${quoted(contour.name)} lies beyond string ${outcome.string} ${over}; change the step, or move the chord.`;
        return {
          chord,
          message,
          related: related(definition?.noteSpans[outcome.unreachable], 'This step leads there.'),
        };
      }),
    ),
};
