/** A gap between the days of a course. */
import type { Rule } from './rule.ts';

export const rule: Rule = {
  code: 'course-day-missing',
  severity: 'hint',
  topic: 'files',
  title: 'A day without a lesson',
  why: 'A course goes from day to day. A gap may be a day of rest, and then `; allow course-day-missing` says so; more often a line was deleted.',
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
  starts 2030-01-07
  day 1 "monday.lesson"
  day 3 "tuesday.lesson"
`,
  good: `course "A week of lamps"
  starts 2030-01-07
  day 1 "monday.lesson"
  day 2 "tuesday.lesson"
`,
  *check({ lesson }) {
    const days = lesson.course?.days ?? [];
    const told = new Set(days.map(({ day }) => day));
    let last = 0;
    for (const { day, daySpan } of [...days].sort((a, b) => a.day - b.day)) {
      const missing = day - last - 1;
      if (missing > 0) {
        const which = missing === 1 ? `Day ${day - 1} has` : `Days ${last + 1} to ${day - 1} have`;
        yield { span: daySpan, message: `${which} no lesson before this one; add it, or count on from day ${last}.` };
      }
      if (told.has(day)) last = day;
    }
  },
};
