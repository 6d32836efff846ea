/** A melody note that the hand cannot have while it holds the chord. */
import type { MissedNote } from '../realise/score.ts';
import type { Hindrance } from '../hand/melody.ts';
import type { Context, Rule } from './rule.ts';
import { once } from './shared/chords.ts';
import { contourOver } from './shared/contours.ts';
import { counted, fingerName, listed, quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'melody-unreachable',
  severity: 'warning',
  topic: 'hands',
  title: 'A melody note out of reach',
  why: 'While the chord is held, and strings that are plucked again ring on, a melody note is there already, or a finger lifts off it, a free one takes it, one lies flat over it, moves along the string, or lets go of what may stop. No fingering of the shape leaves any of these for this note. Another tone to start on, another string, or another place for the chord does.',
  care: true,
  bad: `progression quay
  C as x-3-2-0-1-0

cell ripple
  each 1/8
  p5 i3 m2 i4 m2 i3 p5 i3

contour swell on 1
  each 1/4
  from 3: 0 +1 0 +4

section verse
  progression quay
  cell ripple
  contour swell
`,
  good: `progression quay
  C as x-3-2-0-1-0

cell ripple
  each 1/8
  p5 i3 m2 i4 m2 i3 p5 i3

contour swell on 1
  each 1/4
  from 3: 0 +1 0 +2

section verse
  progression quay
  cell ripple
  contour swell
`,
  check: (context) =>
    once(
      context.chords.flatMap((chord) => {
        const found = contourOver(chord, context);
        const missed = found?.outcome.missed;
        if (!missed || missed.why.reason === 'off-the-neck') return [];
        const message = `Over ${quoted(chord.plan.written)}, fret ${missed.fret} of string ${missed.string} is out of reach: ${hindrance(missed, missed.why, context)}; ${mend(missed)}.`;
        const span = found.definition?.noteSpans[missed.note];
        return { chord, message, related: span ? [{ span, message: 'This note leads there.' }] : [] };
      }),
    ),
};

function hindrance({ string }: MissedNote, why: Hindrance, { lesson }: Context): string {
  switch (why.reason) {
    case 'too-far': {
      const [lower, higher] = why.pair.fingers;
      const [from, to] = why.pair.frets;
      const { hand } = lesson.settings;
      const fingers = `${fingerName(lower)} at fret ${from}, ${fingerName(higher)} at ${to}`;
      return `${fingers}, ${why.pair.millimetres} mm apart, a ${hand} hand reaches ${why.limit}`;
    }
    case 'stops-strings': {
      const rings = why.strings.length === 1 ? 'rings' : 'ring';
      return `${counted(why.strings.length, 'string').replace(/^\d+ /, '')} ${listed(why.strings.map(String))} still ${rings}`;
    }
    default:
      return `no finger is free for string ${string}`;
  }
}

function mend({ instead }: MissedNote): string {
  switch (instead?.kind) {
    case 'start':
      return `from ${quoted(instead.tone)} it can be kept`;
    case 'string':
      return `string ${instead.string} has it at fret ${instead.fret}`;
    case 'fret':
      return `the nearest in reach is fret ${instead.fret}`;
    default:
      return 'move the chord, or put the melody on another string';
  }
}
