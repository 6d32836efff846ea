/** A file that is no text. */
import type { Rule } from './rule.ts';

export const rule: Rule = {
  code: 'not-a-text',
  severity: 'error',
  topic: 'words',
  title: 'A file that is not a text',
  why: 'The file holds signs that no keyboard writes, as pictures and sound files do. Nothing of it is read, so that nothing wrong can come of it. A lesson is plain text in UTF-8.',
  bad: 'lesson "A waltz\u0000"\n',
  good: 'lesson "A waltz"\n',
  problem: {
    message: () =>
      'This is not a text: it holds a sign that cannot be written. Save the lesson as plain text in UTF-8.',
  },
};
