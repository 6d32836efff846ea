/** A key that cannot be read, or that does not say its mode. */
import type { Rule } from './rule.ts';
import { replaceWith } from './shared/fixes.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'unknown-key',
  severity: 'error',
  topic: 'music',
  title: 'A key that is not named in full',
  why: 'Numerals, melodies and the spelling of notes follow the key, and G major and G minor share hardly half of them. A key is a note and a mode: `G major`, `E dorian`, `A minor pentatonic`.',
  sure: true,
  bad: `lesson "A waltz"

key G majr
`,
  good: `lesson "A waltz"

key G major
`,
  problem: {
    message({ found, right }) {
      if (right) return `${quoted(found)} is no full name of a key; do you mean ${quoted(right)}?`;
      return `${quoted(found)} is no key; write a note and a mode, as in ${quoted('G major')} or ${quoted('E dorian')}.`;
    },
    fixes: ({ right }, span) => (right ? [replaceWith(span, right)] : []),
  },
};
