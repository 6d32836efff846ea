/** A day of a course with two lessons. */
import type { Rule } from './rule.ts';
import type { Span } from '../util/span.ts';

export const rule: Rule = {
  code: 'course-day-doubled',
  severity: 'error',
  topic: 'files',
  title: 'A day that is said twice',
  why: 'A student plays one lesson a day. The second lesson of the same day would be left out.',
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
  day 1 "tuesday.lesson"
`,
  good: `course "A week of lamps"
  starts 2030-01-07
  day 1 "monday.lesson"
  day 2 "tuesday.lesson"
`,
  *check({ lesson }) {
    const before = new Map<number, Span>();
    for (const { day, daySpan } of lesson.course?.days ?? []) {
      const first = before.get(day);
      if (!first) before.set(day, daySpan);
      else
        yield {
          span: daySpan,
          message: `Day ${day} has a lesson already; give this one a day of its own.`,
          related: [{ span: first, message: `Day ${day} is said here first.` }],
        };
    }
  },
};
