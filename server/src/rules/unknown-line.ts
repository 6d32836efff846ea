/** An indented line that its statement has no use for. */
import type { Rule } from './rule.ts';
import { unindentLine } from './shared/fixes.ts';
import { listed, quoted } from './shared/words.ts';

/** More lines than these are no help. */
const MOST_LINES = 8;

export const rule: Rule = {
  code: 'unknown-line',
  severity: 'error',
  topic: 'words',
  title: 'A line that does not belong to its statement',
  why: 'What is indented belongs to the statement above it, and each statement knows its own lines. A statement of its own must begin in the first column, or it is taken for a line of the one before.',
  bad: `lesson "A waltz"
  level 2
  meter 3/4
`,
  good: `lesson "A waltz"
  level 2
meter 3/4
`,
  problem: {
    message({ found, statement, expected, elsewhere, homes }) {
      if (elsewhere)
        return `${quoted(found)} stands by itself, not under ${quoted(statement)}; begin it in the first column.`;
      if (homes)
        return `${quoted(found)} belongs inside ${listed(homes.split(' ').map(quoted), 'or')}, not under ${quoted(statement)}.`;
      const lines = expected === '' ? [] : expected.split(', ');
      const shown =
        lines.length > MOST_LINES ? [...lines.slice(0, MOST_LINES).map(quoted), 'others'] : lines.map(quoted);
      const wanted = shown.length === 0 ? 'it has none at all' : `it has ${listed(shown)}`;
      return `${quoted(statement)} has no line ${quoted(found)}; ${wanted}.`;
    },
    fixes: ({ elsewhere }, span, text) => (elsewhere ? [unindentLine(span, text)] : []),
  },
};
