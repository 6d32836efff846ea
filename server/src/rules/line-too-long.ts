/** A line beyond what is read. */
import type { Rule } from './rule.ts';

const longLine = (words: number): string => `lesson "A long breath"\n;${' and on'.repeat(words)}\n`;

export const rule: Rule = {
  code: 'line-too-long',
  severity: 'error',
  topic: 'words',
  title: 'A line that is too long',
  why: 'Nobody reads a line of music of this length, on paper or on a screen. What lies beyond is not read. Bars may go on in the next line: the end of a line ends a bar.',
  bad: () => longLine(800),
  good: () => longLine(8),
  problem: {
    message: ({ limit }) => `Only the first ${limit} letters of this line are read; go on in the next line.`,
  },
};
