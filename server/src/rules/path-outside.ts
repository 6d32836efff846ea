/** A path that leads out of the folder in which lessons may look for one another. */
import type { Rule } from './rule.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'path-outside',
  severity: 'error',
  topic: 'files',
  title: 'A path that leads outside',
  why: 'A lesson may use and name files of its own library or workspace alone, so that it means the same wherever the library is copied. A path is relative to the file it stands in, with slashes.',
  beside: {
    'parts.lesson': `shape lamp
  strings 4 2 1
  tones 3 R 5

cell ripple
  each 1/4
  p4 i2 m1
`,
  },
  bad: `meter 3/4

use "../../elsewhere/parts.lesson"

progression row
  G | D

section verse
  progression row
`,
  good: `meter 3/4

use "parts.lesson"

progression row
  G | D

section verse
  progression row
  shape lamp
`,
  problem: {
    message: ({ path }) =>
      `${quoted(path)} leads out of this library; keep what lessons share inside it, and write the way from this file.`,
  },
};
