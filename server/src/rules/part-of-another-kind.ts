/** A part that a variant takes for one of another kind. */
import type { Rule } from './rule.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'part-of-another-kind',
  severity: 'error',
  topic: 'names',
  title: 'A part of another kind',
  why: 'A variant plays a shape instead of a shape, a cell instead of a cell. A part of another kind cannot take its place, and the variant is played as the lesson is.',
  bad: `progression quay
  G | C

progression pier
  Em | D

cell ripple
  p4 i3 m2 i3

section verse
  progression quay
  cell ripple

variant other
  tempo 60
  cell pier instead of ripple

section coda
  progression pier
`,
  good: `progression quay
  G | C

progression pier
  Em | D

cell ripple
  p4 i3 m2 i3

section verse
  progression quay
  cell ripple

variant other
  tempo 60
  progression pier instead of quay
`,
  problem: {
    message: ({ kind, other, name }) =>
      `${quoted(name)} is a ${other}, and this line is about a ${kind}; begin it with ${quoted(other)}, or name a ${kind}.`,
  },
};
