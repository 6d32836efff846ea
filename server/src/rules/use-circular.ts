/** Files that use one another in a circle. */
import type { Rule } from './rule.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'use-circular',
  severity: 'error',
  topic: 'files',
  title: 'Files that use one another',
  why: 'A file that uses a file that uses the first would have to be read before itself. Move what both need into a third file that uses neither.',
  beside: {
    'bells.lesson': `use "lesson.lesson"

cell ripple
  each 1/4
  p4 i2 m1
`,
    'cells.lesson': `cell ripple
  each 1/4
  p4 i2 m1
`,
  },
  bad: `use "bells.lesson"

shape lamp
  strings 4 2 1
  tones 3 R 5
`,
  good: `use "cells.lesson"

shape lamp
  strings 4 2 1
  tones 3 R 5
`,
  problem: {
    message: ({ chain }) =>
      `These files use one another in a circle: ${chain.split(' ').map(quoted).join(' → ')}; move what they share into a file of its own.`,
  },
};
