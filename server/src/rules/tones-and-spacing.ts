/** A shape that says both what each string sounds and how the notes are to be spread. */
import type { Rule } from './rule.ts';
import { deleteLines } from './shared/fixes.ts';

export const rule: Rule = {
  code: 'tones-and-spacing',
  severity: 'warning',
  topic: 'shapes',
  title: 'Tones and spacing in one shape',
  why: 'Where the tones of the strings are fixed, so is their spacing. The tones hold, and the other line does nothing.',
  bad: `shape lamp
  strings 4 2 1
  tones 3 R 5
  spacing spread
`,
  good: `shape lamp
  strings 4 2 1
  spacing spread
`,
  problem: {
    message: () => 'The tones of the strings are fixed above, so this line does nothing; keep one of the two.',
    fixes: (_, span, text) => [deleteLines(span, text, 'Delete this line')],
  },
};
