/** A grip at the edge of what a hand can hold. */
import type { Rule } from './rule.ts';
import { stretches } from './shared/stretch.ts';

export const rule: Rule = {
  code: 'stretch-extreme',
  severity: 'warning',
  topic: 'hands',
  title: 'An extreme stretch',
  why: 'Hardly any published grip asks for this much, and many hands cannot hold it at all. A lesson should not depend on it: another voicing, a smaller reach or a place higher up the neck, where the frets lie closer, does the same.',
  care: true,
  bad: `progression quay
  G as 3-x-x-4-x-7

section verse
  progression quay
`,
  good: `progression quay
  G as 3-x-0-0-0-3

section verse
  progression quay
`,
  check: (context) => stretches(context, 'extreme', 'warning', 'choose another voicing, or one higher up the neck.'),
};
