/** The end of a list of findings that would be too long to help. */
import type { Rule } from './rule.ts';

const wrongLines = (lines: number): string =>
  `lesson "A bad day"\n${'Nothing is known of this line.\n\n'.repeat(lines)}`;

export const rule: Rule = {
  code: 'too-many-findings',
  severity: 'information',
  topic: 'words',
  title: 'Too many findings to show',
  why: 'Nobody works through a list of hundreds. Mend the first ones; most of the others usually have the same cause and go away with them.',
  bad: () => wrongLines(501),
  good: () => wrongLines(0),
  problem: {
    message: ({ limit, more }) =>
      `Only the first ${limit} findings are shown, ${more} more left out; mend the first ones first.`,
  },
};
