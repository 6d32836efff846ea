/** A sign that repeats what is not there. */
import type { Rule } from './rule.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'nothing-to-repeat',
  severity: 'error',
  topic: 'music',
  title: 'Nothing to repeat',
  why: 'A `%` plays the bar before once more and a `/` holds the chord before for another beat; in a row of a tab `...` stands for the bar before. At the start there is nothing before.',
  bad: `progression quay
  % | G | C
`,
  good: `progression quay
  G | % | C
`,
  problem: {
    message: ({ what }) =>
      what === 'row'
        ? `This row has no bar before this one that ${quoted('...')} could repeat; write the bar out.`
        : `There is no chord before this that could go on; write the chord out, and ${quoted('%')} or ${quoted('/')} after it.`,
  },
};
