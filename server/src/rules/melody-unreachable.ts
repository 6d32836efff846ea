/** A melody note that the hand cannot have while it holds the chord. */
import type { MissedNote } from '../realise/score.ts';
import type { Hindrance } from '../hand/melody.ts';
import type { Rule } from './rule.ts';
import { onceForContour, type Complaint } from './shared/contours.ts';
import { hindrance, mendMissed } from './shared/missed.ts';
import { quoted } from './shared/words.ts';

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
    onceForContour<Missed>(
      context,
      (chord, over) => {
        const { missed } = over.outcome;
        if (!missed || missed.why.reason === 'off-the-neck') return undefined;
        const weight = missed.why.reason === 'too-far' ? missed.why.pair.millimetres - missed.why.limit : 0;
        const note = over.definition?.noteSpans[missed.note];
        return { weight, over, chord, note, noted: 'This note leads there.', missed, why: missed.why };
      },
      ({ missed, why, over, chord }, all, where) => {
        const fret = `fret ${missed.fret} of string ${missed.string}`;
        const so =
          all.length === 1
            ? `${fret} is out of reach`
            : `notes of ${quoted(over.contour.name)} are out of reach, most of all ${fret} over ${quoted(chord.plan.written)}`;
        return { message: `${where}, ${so}: ${hindrance(missed, why, context)}; ${mendMissed(missed)}.` };
      },
    ),
};

interface Missed extends Complaint {
  readonly missed: MissedNote;
  readonly why: Hindrance;
}
