/** A name that a thing of the same kind has already. */
import type { Rule } from './rule.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'doubled-name',
  severity: 'error',
  topic: 'names',
  title: 'A name given twice',
  why: 'Where two shapes have one name, a section that calls for it gets the first, and the second is never played. Things of different kinds may share a name.',
  bad: `cell ripple
  p4 i3 m2 i3

cell ripple
  p5 i3 m2 i3
`,
  good: `cell ripple
  p4 i3 m2 i3

cell wave
  p5 i3 m2 i3
`,
  problem: {
    message: ({ kind, name }) =>
      `There is a ${kind} ${quoted(name)} above, and that one is played; give this one another name.`,
  },
};
