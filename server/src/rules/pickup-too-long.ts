/** A pick-up as long as a bar, or longer. */
import type { Rule } from './rule.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'pickup-too-long',
  severity: 'error',
  topic: 'playing',
  title: 'A pick-up that is a whole bar',
  why: 'A pick-up is what comes before the first beat of bar 1 and shorter than a bar; what is longer has bars of its own.',
  bad: `melody landing on 1
  7 1/1 | 5 1/1

section verse
  melody landing
  pickup 5/4
`,
  good: `melody landing on 1
  7 1/4 | 5 1/1

section verse
  melody landing
  pickup 1/4
`,
  problem: {
    message: ({ found, bar }) =>
      `A pick-up of ${quoted(found)} is no shorter than the bar, ${bar}; write what is left of it before the first beat, as in ${quoted('1/4')}.`,
  },
};
