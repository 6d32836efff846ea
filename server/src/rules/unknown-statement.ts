/** A first word that begins no statement. */
import type { Rule } from './rule.ts';
import { listed, quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'unknown-statement',
  severity: 'error',
  topic: 'words',
  title: 'A line that begins with no known word',
  why: 'Every line in the first column begins with a word that says what it is: `shape`, `progression`, `section`. What begins otherwise cannot be read, and nothing that stands in it is played. Prose belongs indented under `text` or `note`.',
  bad: `lesson "A waltz"

Remember the open string.
`,
  good: `lesson "A waltz"

; Remember the open string.
`,
  problem: {
    message: ({ found, homes }) =>
      homes
        ? `${quoted(found)} belongs inside ${listed(homes.split(' ').map(quoted), 'or')}; write it there, indented.`
        : `Nothing begins with ${quoted(found)}, so this line is not read; prose goes under ${quoted('text')}, a remark behind ${quoted(';')}.`,
  },
};
