/** A first word that begins no statement. */
import type { Rule } from './rule.ts';
import { replaceWith } from './shared/fixes.ts';
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
    message({ found, homes }) {
      if (homes)
        return `${quoted(found)} belongs inside ${listed(homes.split(' ').map(quoted), 'or')}; write it there, indented.`;
      const right = meant(found);
      if (right) return `Nothing begins with ${quoted(found)}, so this line is not read; do you mean ${quoted(right)}?`;
      return `Nothing begins with ${quoted(found)}, so this line is not read; prose goes under ${quoted('text')}, a remark behind ${quoted(';')}.`;
    },
    fixes({ found, homes }, span) {
      const right = homes ? undefined : meant(found);
      return right ? [replaceWith(span, right)] : [];
    },
  },
};

/** Names that players give to the parts of a song. */
const SONG_PARTS = /^(?:intro|verse|chorus|refrain|bridge|interlude|solo|coda|outro)$/i;

/** A meter or the name of a section, with its word before it. */
function meant(found: string): string | undefined {
  if (/^\d{1,2}\/(?:1|2|4|8|16)$/.test(found)) return `meter ${found}`;
  return SONG_PARTS.test(found) ? `section ${found}` : undefined;
}
