/** A sign that repeats what is not there. */
import type { Rule } from './rule.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'nothing-to-repeat',
  severity: 'error',
  topic: 'music',
  title: 'Nothing to repeat',
  why: 'A `%` plays the bar before once more and a `/` holds the chord before for another beat. At the start of a progression there is neither.',
  bad: `progression quay
  % | G | C
`,
  good: `progression quay
  G | % | C
`,
  problem: {
    message: () =>
      `There is no chord before this that could go on; write the chord out, and ${quoted('%')} or ${quoted('/')} after it.`,
  },
};
