/** An ending that is never played, or said twice. */
import type { Rule } from './rule.ts';
import { counted, quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'ending-misplaced',
  severity: 'error',
  topic: 'playing',
  title: 'An ending that is never played',
  why: 'An ending belongs to one of the times that a section is played: `times 2` with `ending 1` and `ending 2`. Without `times` the section is played once, a number above the times never comes, and one time has one ending.',
  bad: `progression quay
  G | C

progression home
  D | G

section verse
  progression quay
  ending 2 home
`,
  good: `progression quay
  G | C

progression home
  D | G

section verse
  progression quay
  times 2
  ending 2 home
`,
  problem: {
    message({ wrong, ending, times }) {
      if (wrong === 'doubled')
        return `Time ${ending} has its ending above, so this one is never played; give it another number.`;
      if (wrong === 'once')
        return `An ending needs times to end: without a line such as ${quoted('times 2')} the section is played once, straight through.`;
      return `The section is played ${counted(Number(times), 'time')}, so ending ${ending} never comes; name a lower number, or play it more often.`;
    },
  },
};
