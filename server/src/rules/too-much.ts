/** More of something than a lesson can have. */
import type { Rule } from './rule.ts';

export const rule: Rule = {
  code: 'too-much',
  severity: 'warning',
  topic: 'playing',
  title: 'More than a lesson can have',
  why: 'The limit lies far above what can be taught in an evening, and keeps the editor quick whatever is written. What lies beyond is left out; the rest of the lesson works as before.',
  bad: `progression quay
  G C G C G C G C G C G C G C G C G | C
`,
  good: `progression quay
  G C G C | G C G C | G C G C | G C G C | G | C
`,
  problem: {
    message: ({ what, limit }) =>
      `More than ${limit} ${what} are not read; what follows is left out, so share it out differently.`,
  },
};
