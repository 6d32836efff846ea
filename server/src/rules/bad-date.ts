/** A date that no calendar has. */
import type { Rule } from './rule.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'bad-date',
  severity: 'error',
  topic: 'files',
  title: 'A date that no calendar has',
  why: 'The days of a course are counted from its first, which must be one. It is written year, month, day.',
  beside: {
    'monday.lesson': `lesson "Two lamps"
  level 1
  focus "changing between two chords"
  minutes 10
`,
    'tuesday.lesson': `lesson "Three lamps"
  level 2
  focus "a steady thumb"
  minutes 10
`,
  },
  bad: `course "A week of lamps"
  starts 2030-02-30
  day 1 "monday.lesson"
  day 2 "tuesday.lesson"
`,
  good: `course "A week of lamps"
  starts 2030-02-28
  day 1 "monday.lesson"
  day 2 "tuesday.lesson"
`,
  problem: {
    message: ({ found }) =>
      `${quoted(found)} is no day of the calendar; write year, month and day, such as \`2030-01-07\`.`,
  },
};
