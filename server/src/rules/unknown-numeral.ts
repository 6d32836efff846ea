/** A numeral that means no chord. */
import type { Rule } from './rule.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'unknown-numeral',
  severity: 'error',
  topic: 'music',
  title: 'A numeral that means no chord',
  why: 'Numerals run from I to VII, capital for major and small for minor, with an accidental before and the rest of the chord behind: `bVII`, `vi7`, `V7/V`. Anything else leaves the bar silent.',
  bad: `progression quay
  I | vi7b | V
`,
  good: `progression quay
  I | vi7 | V
`,
  problem: {
    message: ({ found, key }) =>
      `${quoted(found)} is no degree of ${key}; write I to VII, as in ${quoted('vi7')}, ${quoted('bVII')} or ${quoted('V7/V')}.`,
  },
};
