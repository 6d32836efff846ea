/** A lesson of a course that does not say how long it takes. */
import type { Rule } from './rule.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'course-minutes-missing',
  severity: 'hint',
  topic: 'files',
  title: 'A day without its minutes',
  why: 'Whoever follows a course wants to know in the evening whether there is time for it.',
  beside: {
    'monday.lesson': `lesson "Two lamps"
  level 1
  focus "changing between two chords"
  minutes 10
`,
    'tuesday.lesson': `lesson "Three lamps"
  level 2
  focus "a steady thumb"
`,
    'wednesday.lesson': `lesson "Three lamps"
  level 2
  focus "a steady thumb"
  minutes 10
`,
  },
  bad: `course "A week of lamps"
  starts 2030-01-07
  day 1 "monday.lesson"
  day 2 "tuesday.lesson"
`,
  good: `course "A week of lamps"
  starts 2030-01-07
  day 1 "monday.lesson"
  day 2 "wednesday.lesson"
`,
  *check({ lesson }) {
    for (const { day, path, head, span } of lesson.course?.days ?? []) {
      if (!head || head.minutes !== undefined) continue;
      yield { span, message: `${quoted(path)} of day ${day} does not state its \`minutes\`; add them to its head.` };
    }
  },
};
