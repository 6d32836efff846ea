/** A plan of practice that takes longer than the lesson. */
import type { Rule } from './rule.ts';
import { minutesOf } from './shared/practice.ts';
import { counted } from './shared/words.ts';

export const rule: Rule = {
  code: 'practice-longer-than-lesson',
  severity: 'warning',
  topic: 'playing',
  speaksOf: 'practice',
  title: 'More practice than the lesson has minutes',
  why: 'The lesson states how long it takes, and its steps of practice together take longer: a student who keeps to them does not get to the end. Steps that state no minutes are not counted, so it may be longer still.',
  bad: `lesson "A waltz"
  minutes 15

practice
  step "Shapes only" at 60 for 10 minutes
  step "With the cell" at 72 for 8 minutes
`,
  good: `lesson "A waltz"
  minutes 20

practice
  step "Shapes only" at 60 for 10 minutes
  step "With the cell" at 72 for 8 minutes
`,
  *check({ lesson }) {
    const { minutes, practice, settingSpans } = lesson;
    if (minutes === undefined) return;
    const total = minutesOf(practice);
    let before = 0;
    const over = practice.find((step) => (before += step.minutes ?? 0) > minutes);
    if (!over) return;
    const message = `The steps take ${counted(total, 'minute')} and the lesson ${minutes}; shorten a step, or give the lesson more.`;
    const related = settingSpans.minutes ? [{ span: settingSpans.minutes, message: 'The lesson states it here.' }] : [];
    yield { span: over.span, message, related };
  },
};
