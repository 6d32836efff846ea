/** A lesson that comes before what it needs. */
import type { Rule } from './rule.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'course-before-needs',
  severity: 'warning',
  topic: 'files',
  title: 'A lesson before what it needs',
  why: 'A lesson says in `needs` what a student plays first. In a course that comes on an earlier day, or the student meets something that nobody has shown.',
  beside: {
    'monday.lesson': `lesson "Two lamps"
  level 1
  focus "changing between two chords"
  minutes 10
  needs "tuesday.lesson"
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
    const days = lesson.course?.days ?? [];
    for (const { day, path, span, needs } of days) {
      for (const need of needs) {
        const other = days.find(({ to }) => to === need);
        if (other && other.day < day) continue;
        const where = other ? `which is day ${other.day}` : 'which the course does not have';
        yield {
          span,
          message: `${quoted(path)} on day ${day} needs ${quoted(other?.path ?? need)} first, ${where}.`,
          ...(other && { related: [{ span: other.span, message: 'What it needs comes here.' }] }),
        };
      }
    }
  },
};
