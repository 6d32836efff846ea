/** A word that cannot stand where it does. */
import type { Rule } from './rule.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'unexpected-word',
  severity: 'error',
  topic: 'words',
  title: 'A word in the wrong place',
  why: 'The line makes sense up to this word and then no more. What stands behind it is not read; in a line of bars the next bar line picks the thread up again.',
  bad: `lesson "A waltz"

tempo fast
`,
  good: `lesson "A waltz"

tempo 120
`,
  problem: {
    message({ found, expected, after }) {
      if (expected === '') return `${quoted(found)} cannot stand here; take it out, or write it where it belongs.`;
      return `${quoted(found)} cannot stand ${after === '' ? 'here' : `behind ${quoted(after)}`}; what fits is ${expected}.`;
    },
  },
};
