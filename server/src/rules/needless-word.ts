/** A word that says again what its line says already. */
import type { Rule } from './rule.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'needless-word',
  severity: 'warning',
  topic: 'words',
  title: 'A word that is not needed',
  why: 'The keyword says what its numbers are: a tempo is in beats a minute, a meter is a time, strings are strings, and blanks keep words apart. The line is read without the word; one way to write a thing keeps lessons alike.',
  sure: true,
  bad: `lesson "A waltz"

tempo 84 bpm
`,
  good: `lesson "A waltz"

tempo 84
`,
  problem: {
    message: ({ found }) => `${quoted(found)} is not needed here; the line is read without, so take it out.`,
    fixes: ({ found }, { start, end }, text) => {
      // The blanks before it go too, or else those behind it.
      let from = start;
      while (from > 0 && /[ \t]/.test(text[from - 1])) from--;
      return [{ title: `Delete ${quoted(found)}`, edits: [{ span: { start: from, end }, text: '' }] }];
    },
  },
};
