/** A line that ends before it has said everything. */
import type { Rule } from './rule.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'line-too-short',
  severity: 'error',
  topic: 'words',
  title: 'A line that ends too early',
  why: 'Something is still missing at the end of the line, and without it nobody could know what was meant: a tempo without a number, a shape without a name.',
  bad: `lesson "A waltz"

tempo
`,
  good: `lesson "A waltz"

tempo 84
`,
  problem: {
    message({ expected, after }) {
      const behind = after === '' ? 'at the end of the line' : `behind ${quoted(after)}`;
      return expected === ''
        ? `Something is missing ${behind}.`
        : `The line ends too early: ${behind} comes ${expected}.`;
    },
  },
};
