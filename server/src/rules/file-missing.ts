/** A path to a file that is not there. */
import type { Rule } from './rule.ts';
import { replaceWith } from './shared/fixes.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'file-missing',
  severity: 'error',
  topic: 'files',
  title: 'A file that is not there',
  why: 'What a lesson uses, needs or has for a day stands in another file. Where that file is missing, the parts are missing too, and a student who follows the course is led nowhere.',
  beside: {
    'parts.lesson': `shape lamp
  strings 4 2 1
  tones 3 R 5

cell ripple
  each 1/4
  p4 i2 m1
`,
  },
  bad: `lesson "Lamps in a row"

use "partes.lesson"

progression row
  G | D

section verse
  progression row
`,
  good: `lesson "Lamps in a row"

use "parts.lesson"

progression row
  G | D

section verse
  progression row
  shape lamp
`,
  problem: {
    message: ({ path, right }) =>
      right
        ? `There is no file ${quoted(path)}, but there is ${quoted(right)}.`
        : `There is no file ${quoted(path)}, counted from this one; mend the path, or write that file.`,
    fixes: ({ right }, span) => (right ? [replaceWith(span, `"${right}"`)] : []),
  },
};
