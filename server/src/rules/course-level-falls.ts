/** A course that becomes easier. */
import type { Rule } from './rule.ts';
import type { CourseDay } from '../lesson/library.ts';
import { inOrder } from './shared/course.ts';

export const rule: Rule = {
  code: 'course-level-falls',
  severity: 'hint',
  topic: 'files',
  title: 'A day that is easier than the day before',
  why: 'A course climbs: what a student has learnt is what the next day builds on. An easier day may be a rest on purpose, and then `; allow course-level-falls` says so.',
  beside: {
    'monday.lesson': `lesson "Two lamps"
  level 2
  focus "changing between two chords"
  minutes 10
`,
    'tuesday.lesson': `lesson "Three lamps"
  level 1
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
  day 1 "tuesday.lesson"
  day 2 "monday.lesson"
`,
  *check({ lesson }) {
    let before: CourseDay | undefined;
    for (const one of inOrder(lesson.course?.days ?? [])) {
      const level = one.head?.level;
      if (level === undefined) continue;
      const last = before?.head?.level;
      if (before && last !== undefined && level < last) {
        yield {
          span: one.span,
          message: `Day ${one.day} is for level ${level}, and day ${before.day} before it for level ${last}.`,
          related: [{ span: before.span, message: `Level ${last} is asked for here.` }],
        };
      }
      before = one;
    }
  },
};
