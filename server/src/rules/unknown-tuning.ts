/** A tuning that has no such name. */
import type { Rule } from './rule.ts';
import { replaceWith } from './shared/fixes.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'unknown-tuning',
  severity: 'error',
  topic: 'music',
  title: 'A tuning nobody knows',
  why: 'Every fret and every name depends on the tuning, so a wrong one makes the whole lesson wrong. Until it is mended, the standard tuning is taken. Any tuning can be written as its notes from the lowest string up.',
  bad: `lesson "Low bells"

tuning dropd
`,
  good: `lesson "Low bells"

tuning drop-d
`,
  problem: {
    message({ found, right }) {
      if (right) return `No tuning is called ${quoted(found)}; do you mean ${quoted(right)}?`;
      return `No tuning is called ${quoted(found)}; write its notes from the lowest up, as in ${quoted('D2 A2 D3 G3 B3 E4')}.`;
    },
    fixes: ({ right }, span) => (right ? [replaceWith(span, right)] : []),
  },
};
