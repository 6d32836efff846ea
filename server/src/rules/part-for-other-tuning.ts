/** Frets from a file that is tuned otherwise. */
import type { Rule } from './rule.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'part-for-other-tuning',
  severity: 'warning',
  topic: 'files',
  title: 'Frets that were written for another tuning',
  why: 'A melody, a tab or a grip is frets, and the same frets sound other notes in another tuning. Shapes, cells and contours are worked out anew and may be shared between tunings. An instrument that is tuned lower as a whole counts as tuned alike.',
  beside: {
    'codas.lesson': `tab closing
  each 1/4
  1 | 3 - 2 - |
  6 | 3 - - - |
`,
  },
  bad: `lesson "A coda from the shelf"
  minutes 5

tuning drop-d

use closing from "codas.lesson"

progression row
  G | D

section verse
  progression row

section end
  tab closing
`,
  good: `lesson "A coda from the shelf"
  minutes 5

use closing from "codas.lesson"

progression row
  G | D

section verse
  progression row

section end
  tab closing
`,
  problem: {
    message: ({ part, path, theirs, ours, stated }) =>
      stated
        ? `${quoted(part)} of ${quoted(path)} was written for ${theirs}; in ${ours} the same frets sound other notes.`
        : `${quoted(path)} names no tuning, so ${quoted(part)} counts as written for ${theirs}, and sounds other notes in ${ours}; say the tuning there.`,
  },
};
