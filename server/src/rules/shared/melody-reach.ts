/** What is said of a melody that stretches the hand while it holds its chords. */
import type { WidestPair } from '../../hand/fingering.ts';
import type { Zone } from '../../hand/model.ts';
import type { MelodyReach } from '../../realise/score.ts';
import type { Severity } from '../../util/finding.ts';
import type { Context, Found } from '../rule.ts';
import { onceForContour, type Complaint } from './contours.ts';
import { fingerName, quoted } from './words.ts';

interface Far extends Complaint {
  readonly reach: MelodyReach;
}

/**
 * Findings for all chords whose farthest melody note lies in `zone`. Each chord has one zone, its widest, so that a stretch is not
 * told beside an extreme; where a note is out of reach, only that is told.
 */
export function melodyReaches(context: Context, zone: Zone, severity: Severity, mend: string): readonly Found[] {
  const { hand } = context.lesson.settings;
  const what = zone === 'extreme' ? `at the edge of a ${hand} hand` : `a stretch for a ${hand} hand`;
  return onceForContour<Far>(
    context,
    (chord, over) => {
      const { reach, missed } = over.outcome;
      if (reach?.zone !== zone || missed) return undefined;
      const note = over.definition?.noteSpans[reach.note];
      return { weight: reach.pair?.millimetres ?? 0, over, chord, note, noted: 'This note leads there.', reach };
    },
    ({ reach, over, chord }, all, where) => {
      const fret = `fret ${reach.fret} of string ${reach.string}`;
      const fingers = reach.pair ? fingersOf(reach.pair) : 'the fingers crowd';
      const so =
        all.length === 1
          ? `${fret} is ${what}: ${fingers}`
          : `notes of ${quoted(over.contour.name)} are ${what}, most of all ${fret} over ${quoted(chord.plan.written)}: ${fingers}`;
      return { severity, message: `${where}, ${so}; ${mend}.` };
    },
  );
}

const fingersOf = ({ fingers, frets, millimetres }: WidestPair): string =>
  `${fingerName(fingers[0])} at ${frets[0]}, ${fingerName(fingers[1])} at ${frets[1]}, ${millimetres} mm`;
