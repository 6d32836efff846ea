/** A meter that no bar has. */
import type { Rule } from './rule.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'bad-meter',
  severity: 'error',
  topic: 'music',
  title: 'A meter that no bar has',
  why: 'The upper number counts the beats, up to 32; the lower one is a note value: 1, 2, 4, 8, 16 or 32. Until it is mended, bars are taken for 4/4.',
  bad: `lesson "A waltz"

meter 3/5
`,
  good: `lesson "A waltz"

meter 3/4
`,
  problem: {
    message: ({ found }) =>
      `${quoted(found)} is no meter: up to 32 beats over 1, 2, 4, 8, 16 or 32, as in ${quoted('3/4')}.`,
  },
};
