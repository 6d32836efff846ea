/** A word that a statement may have once, said again. */
import type { Rule } from './rule.ts';
import { deleteLines } from './shared/fixes.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'said-twice',
  severity: 'warning',
  topic: 'words',
  title: 'Something that is said twice',
  why: 'There is one key, one tempo, one title. The first line holds and the second does nothing, which is rarely what was meant: one of them is a left-over.',
  bad: `lesson "A waltz"

tempo 84
tempo 96
`,
  good: `lesson "A waltz"

tempo 84
`,
  problem: {
    message: ({ word }) => `${quoted(word)} has been said above, so this one does nothing; delete one of the two.`,
    // What stands under a second `lesson` would be left without its head.
    fixes: ({ word }, span, text) =>
      word === 'lesson' ? [] : [deleteLines(span, text, `Delete this ${quoted(word)}`)],
  },
};
