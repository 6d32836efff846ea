/** A melody note that is a stretch while the chord is held. */
import type { Rule } from './rule.ts';
import { isForBeginners } from './shared/level.ts';
import { melodyReaches } from './shared/melody-reach.ts';

export const rule: Rule = {
  code: 'melody-stretch',
  severity: 'hint',
  topic: 'hands',
  title: 'A stretch for the melody',
  why: 'The hand stays in the chord and a finger goes for the note, farther than nineteen of twenty published grips spread it. It can be done, but not by everybody at once. In a lesson of level 1 or 2 it is a warning.',
  care: true,
  bad: `key G major

progression quay
  G as x-x-9-0-8-10

cell ripple
  each 1/8
  p4 i3 m2 i3 p4 i3 m2 i3

contour swell on 1
  each 1/4
  from 5: 0 +1 0 -1

section verse
  progression quay
  cell ripple
  contour swell
`,
  good: `key G major

progression quay
  G as x-x-9-0-8-10

cell ripple
  each 1/8
  p4 i3 m2 i3 p4 i3 m2 i3

contour swell on 1
  each 1/4
  from 5: 0 -1 0 -1

section verse
  progression quay
  cell ripple
  contour swell
`,
  check: (context) =>
    melodyReaches(
      context,
      'stretch',
      isForBeginners(context) ? 'warning' : 'hint',
      'warm up first, or play it higher up the neck',
    ),
};
