/** What is said of a grip that spreads the fingers: which two, how far apart, where and for what hand. */
import type { WidestPair } from '../../hand/fingering.ts';
import type { Zone } from '../../hand/model.ts';
import type { Severity } from '../../util/finding.ts';
import type { Context, Found } from '../rule.ts';
import { once, voiced, type VoicedChord } from './chords.ts';
import { pairNamed } from './seen.ts';
import { quoted } from './words.ts';

/** Findings for all chords whose grip lies in `zone`; `says` and `mend` frame the two fingers. */
export function stretches(context: Context, zone: Zone, severity: Severity, mend: string): readonly Found[] {
  const { hand, instrument } = context.lesson.settings;
  const wide = voiced(context).filter((chord) => spreadOf(chord).zone === zone);
  return once(
    wide.map((chord) => {
      const { widest } = spreadOf(chord);
      const what = zone === 'extreme' ? `at the edge of what a ${hand} hand can hold` : `a stretch for a ${hand} hand`;
      const where = widest ? pairNamed(instrument, widest, chord.voicing.frets) : 'the fingers crowd on few frets';
      return { chord, severity, message: `${quoted(chord.plan.written)} is ${what}: ${where}; ${mend}` };
    }),
  );
}

interface Spread {
  readonly zone: Zone;
  readonly widest?: WidestPair;
}

/** A grip with fingers of its own is judged by these, all others by the best that a hand can do. */
const spreadOf = ({ plan, voicing }: VoicedChord): Spread => (plan.fingers && voicing.fingering) || voicing.verdict;
