/** Rows of a tab that do not have the same steps or bars. */
import type { Rule } from './rule.ts';
import { capitalised, counted, quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'row-miscounted',
  severity: 'error',
  topic: 'playing',
  title: 'Rows of a tab that do not match',
  why: 'What stands under each other in a tab sounds together, so that the rows of a system need as many bars, and in each bar as many signs, one a step. A row that is too short is filled with `-`, one that is too long is cut.',
  bad: `tab coda
  each 1/8
  1 | 0 - 3 - 1 - 0 - |
  6 | 3 - - - - - - |
`,
  good: `tab coda
  each 1/8
  1 | 0 - 3 - 1 - 0 - |
  6 | 3 - - - - - - - |
`,
  problem: {
    message({ what, row, found, usual, bar }) {
      const named = /^\d+$/.test(row) ? `string ${row}` : `the row ${quoted(row)}`;
      const mend =
        Number(found) < Number(usual) ? `add ${quoted('-')} where nothing is new` : 'take out what is too much';
      if (what === 'step')
        return `In bar ${bar} ${named} has ${counted(Number(found), 'step')} and the rows beside it ${usual}; ${mend}.`;
      return `${capitalised(named)} has ${counted(Number(found), 'bar')} in this system and the rows beside it ${usual}; set the bar lines alike.`;
    },
  },
};
