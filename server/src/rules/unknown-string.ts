/** A string that the instrument does not have. */
import type { Rule } from './rule.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'unknown-string',
  severity: 'error',
  topic: 'shapes',
  title: 'A string that is not there',
  why: 'Strings are numbered as players number them: 1 is the highest, and how many there are the tuning says.',
  bad: `cell ripple
  p7 i3 m2 i3
`,
  good: `cell ripple
  p6 i3 m2 i3
`,
  problem: {
    message: ({ found, count }) =>
      `There is no string ${quoted(found)}: the tuning has ${count}, and 1 is the highest.`,
  },
};
