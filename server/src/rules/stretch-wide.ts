/** A grip that is a stretch. */
import type { Rule } from './rule.ts';
import { isForBeginners } from './shared/level.ts';
import { stretches } from './shared/stretch.ts';

export const rule: Rule = {
  code: 'stretch-wide',
  severity: 'hint',
  topic: 'hands',
  title: 'A stretch',
  why: 'Two fingers lie further apart than in nineteen of twenty published grips. It can be held, but not by everybody at once, and not for long without a warm-up. In a lesson of level 1 or 2 it is a warning.',
  care: true,
  bad: `progression quay
  A as 5-x-x-6-x-9

section verse
  progression quay
`,
  good: `progression quay
  A as 5-x-7-6-x-x

section verse
  progression quay
`,
  check: (context) =>
    stretches(
      context,
      'stretch',
      isForBeginners(context) ? 'warning' : 'hint',
      'warm up first, or play it higher up the neck.',
    ),
};
