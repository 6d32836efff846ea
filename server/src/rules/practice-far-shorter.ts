/** A plan of practice that fills but a small part of the lesson. */
import type { Rule } from './rule.ts';
import { minutesOf } from './shared/practice.ts';
import { counted } from './shared/words.ts';

/** The plan has less than this part of the lesson's minutes [set]: explaining and listening take their time too. */
const SMALL_PART = 1 / 3;

export const rule: Rule = {
  code: 'practice-far-shorter',
  severity: 'hint',
  topic: 'playing',
  speaksOf: 'practice',
  title: 'Far less practice than the lesson has minutes',
  why: 'The steps fill less than a third of the minutes that the lesson states. Some of them go into explaining and listening; if that is what they are for, all is well. Nothing is said where a step states no minutes, since nobody knows then how long it takes.',
  bad: `lesson "A waltz"
  minutes 30

practice
  step "Shapes only" at 60 for 4 minutes
`,
  good: `lesson "A waltz"
  minutes 30

practice
  step "Shapes only" at 60 for 12 minutes
`,
  *check({ lesson }) {
    const { minutes, practice, settingSpans } = lesson;
    const place = settingSpans.minutes;
    if (minutes === undefined || !place || practice.length === 0) return;
    if (practice.some((step) => step.minutes === undefined)) return;
    const total = minutesOf(practice);
    if (total >= minutes * SMALL_PART) return;
    const message = `The lesson takes ${counted(minutes, 'minute')} and its practice only ${total}; add a step, or state fewer minutes.`;
    yield { span: place, message, related: [{ span: practice[0].span, message: 'The practice begins here.' }] };
  },
};
