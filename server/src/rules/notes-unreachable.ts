/** A melody written out that the hand cannot have while it holds its chords. */
import type { WrittenTrouble } from '../realise/score.ts';
import type { Rule } from './rule.ts';
import { hindrance, mendMissed } from './shared/missed.ts';
import { onceForPart } from './shared/written.ts';

export const rule: Rule = {
  code: 'notes-unreachable',
  severity: 'warning',
  topic: 'hands',
  title: 'A melody that cannot be reached while the chord is held',
  why: 'A melody lies over the chords that its section holds, so a hand must have both. All fingerings of the shape have been tried. A note on another string, another shape, or a chord pinned elsewhere on the neck mends it; a tab, which holds no shape but its own notes, is free of it.',
  care: true,
  bad: `progression quay
  C as x-3-2-0-1-0

cell ripple
  each 1/8
  p5 i3 m2 i4 m2 i3 p5 i3

melody landing on 1
  each 1/4
  0 12 0 0

section verse
  progression quay
  cell ripple
  melody landing
`,
  good: `progression quay
  C as x-3-2-0-1-0

cell ripple
  each 1/8
  p5 i3 m2 i4 m2 i3 p5 i3

melody landing on 1
  each 1/4
  0 1 3 0

section verse
  progression quay
  cell ripple
  melody landing
`,
  check: (context) =>
    onceForPart<Missed>(
      context,
      (trouble) => (trouble.kind === 'missed' ? { weight: weightOf(trouble), trouble } : undefined),
      ({ trouble: { missed } }, where) => ({
        message: `${where}, fret ${missed.fret} of string ${missed.string} is out of reach: ${hindrance(missed, missed.why, context)}; ${mendMissed(missed)}.`,
      }),
    ),
};

type Missed = Extract<WrittenTrouble, { readonly kind: 'missed' }>;

const weightOf = ({ missed: { why } }: Missed): number =>
  why.reason === 'too-far' ? why.pair.millimetres - why.limit : 0;
