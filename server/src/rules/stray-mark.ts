/** A mark under a tab that cannot be read or does not fit its notes. */
import type { Rule } from './rule.ts';
import { counted, quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'stray-mark',
  severity: 'warning',
  topic: 'playing',
  title: 'A mark that does not fit',
  why: 'The row `pluck` has a plucking finger for each step, `fingers` a fretting finger, `palm` a `*` where the palm mutes. Where several strings begin together there is one mark for all of them, or one for each from the lowest string up, `p+a`.',
  bad: `tab coda
  each 1/4
  1 | 0 3 1 0 |
  pluck t m i m
`,
  good: `tab coda
  each 1/4
  1 | 0 3 1 0 |
  pluck p m i m
`,
  problem: {
    message({ row, found, wrong, notes }) {
      if (wrong === 'count')
        return `${quoted(found)} does not fit the ${counted(Number(notes), 'note')} that ${notes === '1' ? 'begins' : 'begin'} here; write one for each from the lowest string up, as in ${quoted(EACH[row] ?? '')}.`;
      return `${quoted(found)} is no mark of the row ${quoted(row)}; write ${MARKS[row] ?? ''}.`;
    },
  },
};

const MARKS: Readonly<Record<string, string>> = {
  pluck: '`p`, `i`, `m`, `a` or `c`, or `-` where none plucks',
  fingers: 'a finger from 1 to 4, 0 for an open string, or `-`',
  palm: '`*` where the palm mutes, or `-`',
};
const EACH: Readonly<Record<string, string>> = { pluck: 'p+a', fingers: '3+1' };
