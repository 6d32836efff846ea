/** A melody note at the edge of what a hand can reach while it holds the chord. */
import type { Rule } from './rule.ts';
import { melodyReaches } from './shared/melody-reach.ts';

export const rule: Rule = {
  code: 'melody-extreme',
  severity: 'warning',
  topic: 'hands',
  title: 'An extreme reach for the melody',
  why: 'The hand stays in the chord and a finger goes for the note: here farther than in nearly every published grip, and many hands cannot. Another step, another start, or the chord further up the neck, where the frets lie closer, spares it.',
  care: true,
  bad: `key D major

progression quay
  D as x-x-4-x-3-5

cell ripple
  each 1/8
  p4 m2 p4 m2 p4 m2 p4 m2

contour swell on 1
  each 1/4
  from 5: 0 +1 0 -1

section verse
  progression quay
  cell ripple
  contour swell
`,
  good: `key D major

progression quay
  D as x-x-4-x-3-5

cell ripple
  each 1/8
  p4 m2 p4 m2 p4 m2 p4 m2

contour swell on 1
  each 1/4
  from 5: 0 -1 0 -1

section verse
  progression quay
  cell ripple
  contour swell
`,
  check: (context) => melodyReaches(context, 'extreme', 'warning', 'change the step, or move the chord up the neck'),
};
