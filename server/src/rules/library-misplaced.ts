/** A `library` statement away from the root. */
import type { Rule } from './rule.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'library-misplaced',
  severity: 'warning',
  topic: 'files',
  title: 'A library that does not lie at its root',
  why: 'What a library asks of its lessons is read from the file `library.lesson` in its uppermost folder. Elsewhere the statement asks nothing of anybody.',
  path: 'parts/lamps.lesson',
  bad: `library "Evening lamps"
  requires level
`,
  good: `lesson "Evening lamps"
`,
  problem: {
    message: ({ path }) =>
      `A library is told of in \`library.lesson\` at its root; ${quoted(path)} is not read for that.`,
  },
};
