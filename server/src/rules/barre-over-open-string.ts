/** A barre that would stop a string which must ring open. */
import { concernsOpenString } from './not-playable.ts';
import type { Rule } from './rule.ts';
import { refusals } from './shared/refusals.ts';

export const rule: Rule = {
  code: 'barre-over-open-string',
  severity: 'error',
  topic: 'hands',
  title: 'An open string under a barre',
  why: 'With four fingers these frets can only be held by laying one of them flat, and then a string under it or beside it, which is to ring open, would sound a fretted note. Leave that string out, press it at the barre, or choose a voicing with fewer fretted strings.',
  care: true,
  bad: `progression quay
  F as 1-3-0-2-1-3

section verse
  progression quay
`,
  good: `progression quay
  F as 1-3-3-2-1-1

section verse
  progression quay
`,
  check: (context) => refusals(context, concernsOpenString),
};
