/** A fraction that is no length of a note. */
import type { Rule } from './rule.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'bad-length',
  severity: 'error',
  topic: 'playing',
  title: 'A length that no note has',
  why: 'Lengths are parts of a whole note: 1/4 is a quarter, 3/8 a dotted quarter. Nothing can last for 0/4, and nobody can play notes shorter than 1/128.',
  bad: `cell ripple
  each 0/8
  p4 i3 m2 i3
`,
  good: `cell ripple
  each 1/8
  p4 i3 m2 i3
`,
  problem: {
    message: ({ found }) =>
      `${quoted(found)} is no length of a note; write a part of a whole note down to ${quoted('1/128')}, as in ${quoted('1/8')}.`,
  },
};
