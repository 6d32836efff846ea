/** A word that is nearly one of the language's own. */
import type { Rule } from './rule.ts';
import { replaceWith } from './shared/fixes.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'misspelt-word',
  severity: 'error',
  topic: 'words',
  title: 'A misspelt word',
  why: 'The word is so near to one that can stand here that this is surely the one that was meant. The lesson is read with it where that is safe, but a student who reads the text should find one spelling of each word.',
  sure: true,
  bad: `lesson "A waltz"

metre 3/4
`,
  good: `lesson "A waltz"

meter 3/4
`,
  problem: {
    message: ({ found, right }) =>
      right === `"${found}"`
        ? `${quoted(found)} lacks its quotes; write ${quoted(right)}.`
        : /^\p{L}+$/u.test(found)
          ? `${quoted(found)} is not a word that can stand here; you surely mean ${quoted(right)}.`
          : `${quoted(found)} is not how this is written; you surely mean ${quoted(right)}.`,
    fixes: ({ right }, span) => [replaceWith(span, right)],
  },
};
