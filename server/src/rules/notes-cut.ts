/** A contour with more notes than its chord has room for. */
import type { Rule } from './rule.ts';
import { once } from './shared/chords.ts';
import { contourOver } from './shared/contours.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'notes-cut',
  severity: 'hint',
  topic: 'playing',
  title: 'A contour that is cut short',
  why: 'A contour starts anew with every chord, so what does not fit into the time of the chord is left out. Over a chord of half a bar that may be meant; over a whole bar it is more likely a note too many.',
  bad: `shape lamp
  strings 3 2 1
  tones R 3 5

progression quay
  D

contour swell on 1
  each 1/4
  from 5: 0 +1 0 +1 0

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
        if (!found || found.outcome.cut === 0) return [];
        const { contour, outcome, definition } = found;
        const notes = outcome.cut === 1 ? 'last note' : `last ${outcome.cut} notes`;
        const message = `There is no room over this chord for the ${notes} of ${quoted(contour.name)}; shorten it, or hold the chord longer.`;
        const span = definition?.noteSpans[contour.notes.length - outcome.cut];
        return { chord, message, related: span ? [{ span, message: 'From here on it is cut.' }] : [] };
      }),
    ),
};
