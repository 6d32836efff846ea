/** A ladder of tempi whose last tempo is not above its first. */
import type { Rule } from './rule.ts';
import { replaceWith } from './shared/fixes.ts';

export const rule: Rule = {
  code: 'ladder-never-climbs',
  severity: 'warning',
  topic: 'playing',
  title: 'A ladder that never climbs',
  why: 'A ladder begins at a tempo that is easy and climbs to the one that is wanted. Written the other way round it has no rungs, and the step is practised at its first tempo alone.',
  bad: `practice
  step "Up to speed" from 84 to 60 by 6
`,
  good: `practice
  step "Up to speed" from 60 to 84 by 6
`,
  problem: {
    message({ from, to }) {
      if (from === to)
        return `From ${from} to ${to} there is nothing to climb; name a higher tempo, or write \`at ${from}\`.`;
      return `From ${from} to ${to} the ladder goes down, so only ${from} is practised; write the slower tempo first.`;
    },
    fixes: ({ from, to, by }, span) => [
      from === to ? replaceWith(span, `at ${from}`) : replaceWith(span, `from ${to} to ${from} by ${by}`),
    ],
  },
};
