/** A title whose closing quote is missing. */
import type { Rule } from './rule.ts';
import { insertAt } from './shared/fixes.ts';

export const rule: Rule = {
  code: 'unclosed-quote',
  severity: 'error',
  topic: 'words',
  title: 'A quote that is not closed',
  why: 'Titles stand between double quotes. Where the second one is missing, everything up to the end of the line is taken for the title, comments and all.',
  bad: `lesson "Harbour lamps
  level 2
`,
  good: `lesson "Harbour lamps"
  level 2
`,
  problem: {
    message: () => 'The closing quote is missing, so the title runs to the end of the line; add it.',
    fixes: (_, span) => [insertAt(span.end, '"', 'Close the quote')],
  },
};
