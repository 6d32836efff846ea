/** What is said of a melody that stretches the hand while it holds a chord. */
import type { WidestPair } from '../../hand/fingering.ts';
import type { Zone } from '../../hand/model.ts';
import type { Severity } from '../../util/finding.ts';
import type { Context, Found } from '../rule.ts';
import { once } from './chords.ts';
import { contourOver } from './contours.ts';
import { fingerName, quoted } from './words.ts';

/** Findings for all chords whose farthest melody note lies in `zone`. */
export function melodyReaches(context: Context, zone: Zone, severity: Severity, mend: string): readonly Found[] {
  const { hand } = context.lesson.settings;
  return once(
    context.chords.flatMap((chord) => {
      const found = contourOver(chord, context);
      const reach = found?.outcome.reach;
      if (reach?.zone !== zone) return [];
      const what = zone === 'extreme' ? `at the edge of a ${hand} hand` : `a stretch for a ${hand} hand`;
      const where = reach.pair ? fingersOf(reach.pair) : 'the fingers crowd';
      const message = `Over ${quoted(chord.plan.written)}, fret ${reach.fret} of string ${reach.string} is ${what}: ${where}; ${mend}.`;
      const span = found?.definition?.noteSpans[reach.note];
      return { chord, severity, message, related: span ? [{ span, message: 'This note leads there.' }] : [] };
    }),
  );
}

const fingersOf = ({ fingers, frets, millimetres }: WidestPair): string =>
  `${fingerName(fingers[0])} at ${frets[0]}, ${fingerName(fingers[1])} at ${frets[1]}, ${millimetres} mm`;
