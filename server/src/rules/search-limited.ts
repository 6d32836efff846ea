/** A shape with more voicings than are looked through. */
import type { Rule } from './rule.ts';
import { once, ruleOf, shapeOf } from './shared/chords.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'search-limited',
  severity: 'information',
  topic: 'shapes',
  title: 'More voicings than are looked through',
  why: 'The shape leaves so much open that its voicings run into the thousands. They are looked through evenly over the whole neck up to a limit, so the choice is a good one, but perhaps not the easiest of all. A narrower shape says more clearly what is meant, too.',
  bad: `shape anything
  strings 6 5 4 3 2 1
  frets 0 to 20

progression quay
  G13

section verse
  progression quay
  shape anything
`,
  good: `shape anything
  strings 4 3 2 1
  frets 0 to 7

progression quay
  G7

section verse
  progression quay
  shape anything
`,
  check: (context) =>
    once(
      context.chords.flatMap((chord) => {
        const shapeRule = ruleOf(chord);
        if (!chord.played.searchCut || !shapeRule) return [];
        const span = shapeOf(context, shapeRule)?.span;
        const message = `${quoted(shapeRule.name)} allows more voicings than are looked through; fix some tones, or narrow its frets.`;
        return { chord, message, related: span ? [{ span, message: 'The shape is written here.' }] : [] };
      }),
    ),
};
