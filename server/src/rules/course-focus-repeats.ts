/** Two days running with the same focus. */
import type { Rule } from './rule.ts';
import type { CourseDay } from '../lesson/library.ts';
import { inOrder } from './shared/course.ts';

export const rule: Rule = {
  code: 'course-focus-repeats',
  severity: 'hint',
  topic: 'files',
  title: 'The same focus two days running',
  why: 'Hands and ears learn better when the work changes from day to day. Put something else between two lessons of one focus.',
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
    'wednesday.lesson': `lesson "Four lamps"
  level 2
  focus "changing between two chords", "a steady thumb"
  minutes 10
`,
    'thursday.lesson': `lesson "Five lamps"
  level 2
  focus "a melody on top"
  minutes 10
`,
  },
  bad: `course "A week of lamps"
  starts 2030-01-07
  day 1 "monday.lesson"
  day 2 "tuesday.lesson"
  day 3 "wednesday.lesson"
`,
  good: `course "A week of lamps"
  starts 2030-01-07
  day 1 "monday.lesson"
  day 2 "tuesday.lesson"
  day 3 "thursday.lesson"
  day 4 "wednesday.lesson"
`,
  *check({ lesson }) {
    let before: CourseDay | undefined;
    for (const one of inOrder(lesson.course?.days ?? [])) {
      const again = one.head?.focus.find((focus) => before?.head?.focus.includes(focus));
      if (before && again !== undefined && one.day === before.day + 1) {
        yield {
          span: one.span,
          message: `Day ${one.day} has the focus of day ${before.day} again, “${again}”; put something else between.`,
          related: [{ span: before.span, message: 'It is the focus of this day too.' }],
        };
      }
      before = one;
    }
  },
};
