/** A line of a statement's body that begins in the first column. */
import type { Rule } from './rule.ts';
import { indentLine } from './shared/fixes.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'line-not-indented',
  severity: 'warning',
  topic: 'words',
  title: 'A line that lost its indent',
  why: 'The line is read as part of the statement above, since it can be nothing else. Indented it says so to the eye too, and stays there when lines are moved about.',
  sure: true,
  bad: `cell ripple
each 1/8
  p4 i3 m2 i3
`,
  good: `cell ripple
  each 1/8
  p4 i3 m2 i3
`,
  problem: {
    message: ({ statement }) =>
      `This line is read as part of ${quoted(statement)} above; indent it, so that it stays there.`,
    fixes: (_, span) => [indentLine(span)],
  },
};
