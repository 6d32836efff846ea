/** A list of fingers that does not match the strings. */
import type { Rule } from './rule.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'fingers-miscounted',
  severity: 'error',
  topic: 'shapes',
  title: 'A finger list that does not fit the strings',
  why: 'The fingers of a grip are listed like its frets, from the lowest string to the highest: 1 to 4 for the fingers from the index finger on, 0 for an open string, x for a silent one.',
  bad: `grip Am x02210
  fingers x0231
`,
  good: `grip Am x02210
  fingers x02310
`,
  problem: {
    message: ({ found, strings }) =>
      `${quoted(found)} does not give each of the ${strings} strings a finger 1 to 4, a 0 or an x; write them low to high.`,
  },
};
