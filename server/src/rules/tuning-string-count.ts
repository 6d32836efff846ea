/** A tuning of too many or too few strings. */
import type { Rule } from './rule.ts';
import { counted } from './shared/words.ts';

export const rule: Rule = {
  code: 'tuning-string-count',
  severity: 'error',
  topic: 'music',
  title: 'Too many strings, or too few',
  why: 'Instruments of 3 to 12 strings can be written for; a course of two strings counts as one. Until it is mended, the standard tuning is taken.',
  bad: `lesson "Low bells"

tuning D2 A2
`,
  good: `lesson "Low bells"

tuning D2 A2 D3 G3 B3 E4
`,
  problem: {
    message: ({ count, least, most }) =>
      `A tuning of ${counted(Number(count), 'string')} cannot be played here; name ${least ?? '3'} to ${most ?? '12'} notes, low to high.`,
  },
};
