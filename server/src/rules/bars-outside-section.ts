/** A part called for in bars that the section does not have. */
import type { Rule } from './rule.ts';
import { counted } from './shared/words.ts';

export const rule: Rule = {
  code: 'bars-outside-section',
  severity: 'error',
  topic: 'music',
  title: 'Bars that the section does not have',
  why: 'Bars are counted from 1 in each section as written. A part that begins or ends beyond them is not played there.',
  bad: `progression quay
  G | C

cell ripple
  p5 i3 m2 i3 p5 i3 m2 i3

section verse
  progression quay
  cell ripple bars 1 to 4
`,
  good: `progression quay
  G | C

cell ripple
  p5 i3 m2 i3 p5 i3 m2 i3

section verse
  progression quay
  cell ripple bars 1 to 2
`,
  problem: {
    message({ first, last, bars }) {
      if (Number(first) > Number(last)) return `Bars ${first} to ${last} run backwards; write the lower number first.`;
      if (first === last)
        return `The section has ${counted(Number(bars), 'bar')}, so there is no bar ${first}; name another.`;
      return `The section has ${counted(Number(bars), 'bar')}, so bars ${first} to ${last} do not all exist; name others.`;
    },
  },
};
