/** A number beyond what makes sense. */
import type { Rule } from './rule.ts';
import { capitalised, quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'number-out-of-range',
  severity: 'error',
  topic: 'words',
  title: 'A number out of range',
  why: 'A tempo of 4, a capo beyond the neck, a fret that the guitar does not have: such a number is nearly always a slip, and it is passed over as if it had not been written.',
  bad: `lesson "A waltz"

tempo 4000
`,
  good: `lesson "A waltz"

tempo 120
`,
  problem: {
    message({ what, found, least, most }) {
      if (Number(least) > Number(most)) return `${capitalised(what)} cannot be ${quoted(found)} here; nothing fits.`;
      return `${capitalised(what)} cannot be ${quoted(found)}; it lies between ${least} and ${most}.`;
    },
  },
};
