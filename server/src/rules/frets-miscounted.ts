/** A fret list that has too many or too few strings. */
import type { Rule } from './rule.ts';
import { counted, quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'frets-miscounted',
  severity: 'error',
  topic: 'shapes',
  title: 'A fret list of the wrong length',
  why: 'A fret list names every string, from the lowest to the highest, with an x for each that is silent. With one too few nobody can know which string was forgotten. From fret 10 on hyphens keep the numbers apart.',
  bad: `grip Am x0221
`,
  good: `grip Am x02210
`,
  problem: {
    message({ found, count, strings }) {
      const why = Number(count) > 0 ? `names ${counted(Number(count), 'string')}` : 'is no fret list';
      return `${quoted(found)} ${why}, and the tuning has ${strings}; write one fret or x a string, low to high.`;
    },
  },
};
