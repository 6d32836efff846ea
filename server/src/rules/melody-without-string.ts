/** A melody that does not say on which string it is. */
import type { Rule } from './rule.ts';
import { insertAt } from './shared/fixes.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'melody-without-string',
  severity: 'error',
  topic: 'playing',
  title: 'A melody without a string',
  why: 'Frets are places on a string: the melody names one in its first line, `on 1`, or before its first note, `2:`. Notes before that are not played.',
  bad: `melody landing
  each 1/4
  7 8 5 7
`,
  good: `melody landing on 1
  each 1/4
  7 8 5 7
`,
  problem: {
    message: ({ found }) =>
      `Nothing says on which string ${quoted(found)} is; write ${quoted('on 1')} behind the melody’s name, or ${quoted('1:')} before the note.`,
    fixes: (_, span) => [insertAt(span.start, '1: ', 'Write `1:` before the note')],
  },
};
