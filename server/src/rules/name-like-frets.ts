/** A name that reads as a fret list. */
import type { Rule } from './rule.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'name-like-frets',
  severity: 'error',
  topic: 'names',
  title: 'A name that looks like frets',
  why: 'Behind `as` there may be the name of a shape or a fret list such as `x02210`. A name of an x and digits would always be taken for frets.',
  bad: `cell x02
  p4 i3 m2 i3
`,
  good: `cell cross
  p4 i3 m2 i3
`,
  problem: {
    message: ({ name }) => `${quoted(name)} would be taken for a fret list; choose another name.`,
  },
};
