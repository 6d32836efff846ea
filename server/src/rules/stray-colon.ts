/** A colon behind a keyword. */
import type { Rule } from './rule.ts';
import { deleteSpan } from './shared/fixes.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'stray-colon',
  severity: 'warning',
  topic: 'words',
  title: 'A colon too many',
  why: 'A keyword needs no colon behind it: `capo 2` says it all. The line is read without it. Colons stand behind the start of a contour and behind the string that a melody changes to.',
  sure: true,
  bad: `lesson "A waltz"

capo: 2
`,
  good: `lesson "A waltz"

capo 2
`,
  problem: {
    message: ({ word }) => `${quoted(word)} needs no colon behind it; the line is read without, so take it out.`,
    fixes: (_, span) => [deleteSpan(span, 'Delete the colon')],
  },
};
