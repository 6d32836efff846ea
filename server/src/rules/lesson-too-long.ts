/** A text beyond what is read. */
import type { Rule } from './rule.ts';

/** A remark a line, until even a book of lessons would be full. */
const longText = (lines: number): string =>
  `lesson "A long winter"\n${'; one more evening by the stove\n'.repeat(lines)}`;

export const rule: Rule = {
  code: 'lesson-too-long',
  severity: 'error',
  topic: 'words',
  title: 'A lesson that is too long',
  why: 'No lesson of an evening comes near this length. What lies beyond it is not read, so that the editor stays quick. Share the music between several files, and let a course put them in order.',
  bad: () => longText(14_000),
  good: () => longText(10),
  problem: {
    message: ({ limit }) => `Nothing is read beyond ${limit} letters; share the lesson between several files.`,
  },
};
