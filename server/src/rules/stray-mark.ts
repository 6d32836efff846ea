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
    message({ row, found, wrong, notes, bar }) {
      if (wrong === 'count') {
        const where = bar ? `in bar ${bar}, which repeats it` : 'here';
        const each = EACH[row]?.[Number(notes) - 1];
        const example = each ? `, as in ${quoted(each)}` : '';
        return `${quoted(found)} does not fit the ${counted(Number(notes), 'note')} that ${notes === '1' ? 'begins' : 'begin'} ${where}; write one for each from the lowest string up${example}.`;
      }
      return `${quoted(found)} is no mark of the row ${quoted(row)}; write ${MARKS[row] ?? ''}.`;
    },
  },
};

const MARKS: Readonly<Record<string, string>> = {
  pluck: '`p`, `i`, `m`, `a` or `c`, or `-` where none plucks',
  fingers: 'a finger from 1 to 4, 0 for an open string, or `-`',
  palm: '`*` where the palm mutes, or `-`',
};
/** Marks for one note, for two, and so on. */
const EACH: Readonly<Record<string, readonly string[]>> = {
  pluck: ['p', 'p+a', 'p+i+a', 'p+i+m+a'],
  fingers: ['3', '3+1', '3+2+1', '4+3+2+1'],
};
