/** Frets that no hand can hold. */
import type { Refusal } from '../hand/fingering.ts';
import type { Rule } from './rule.ts';
import { refusals } from './shared/refusals.ts';

export const rule: Rule = {
  code: 'not-playable',
  severity: 'error',
  topic: 'hands',
  title: 'A grip that no hand can hold',
  why: 'However the fingers are set, they are too few, too short or too far apart for these frets, for a hand of the size that the lesson names. Thumbs over the neck are not reckoned with. A grip that the engine chooses is always one that can be held; this one was written out.',
  care: true,
  bad: `progression quay
  G as 3-x-x-4-x-12

section verse
  progression quay
`,
  good: `progression quay
  G as 3-x-0-0-0-3

section verse
  progression quay
`,
  check: (context) => refusals(context, (refusal) => !concernsOpenString(refusal)),
};

/** These have a page of their own. */
export const concernsOpenString = ({ reason }: Refusal): boolean =>
  reason === 'open-string-in-barre' || reason === 'open-string-beside-barre';
