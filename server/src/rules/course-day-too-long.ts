/** A day that takes much longer than the others. */
import type { Rule } from './rule.ts';

/** Of fewer days no usual length can be told. */
const FEWEST_DAYS = 3;
const FAR_LONGER = 2;

export const rule: Rule = {
  code: 'course-day-too-long',
  severity: 'hint',
  topic: 'files',
  title: 'A day that takes far longer than the others',
  why: 'Whoever plays ten minutes an evening finds no forty on Wednesday. Cut the lesson in two, or say so beforehand.',
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
  focus "a melody on top"
  minutes 40
`,
    'thursday.lesson': `lesson "Five lamps"
  level 2
  focus "a melody on top"
  minutes 15
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
`,
  *check({ lesson }) {
    const days = lesson.course?.days ?? [];
    const minutes = days.flatMap(({ head }) => head?.minutes ?? []).sort((a, b) => a - b);
    if (minutes.length < FEWEST_DAYS) return;
    const usual = minutes[minutes.length >> 1];
    for (const { day, head, span } of days) {
      if (head?.minutes === undefined || head.minutes <= usual * FAR_LONGER) continue;
      yield { span, message: `Day ${day} takes ${head.minutes} minutes, and a usual day of this course ${usual}.` };
    }
  },
};
