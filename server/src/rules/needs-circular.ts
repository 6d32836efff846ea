/** Lessons that need one another in a circle. */
import type { Rule } from './rule.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'needs-circular',
  severity: 'error',
  topic: 'files',
  title: 'Lessons that need one another',
  why: 'A student cannot play first what needs the lesson at hand. One of the lessons of the circle must do without the others.',
  beside: {
    'first.lesson': `lesson "First lamps"
  needs "lesson.lesson"
`,
    'zero.lesson': `lesson "No lamps yet"
`,
  },
  bad: `lesson "Second lamps"
  needs "first.lesson"

progression row
  G | D

section verse
  progression row
`,
  good: `lesson "Second lamps"
  needs "zero.lesson"

progression row
  G | D

section verse
  progression row
`,
  problem: {
    message: ({ chain }) =>
      `This lesson comes to need itself, through ${chain.split(' ').map(quoted).join(', then ')}; one of them must do without.`,
  },
};
