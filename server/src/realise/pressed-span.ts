/** What the right hand asks of a shape: from when until when its pressed strings must be held, and strings that it leaves silent. */
import { minus, toNumber, type Fraction } from '../util/fraction.ts';
import { aimsOf } from './aims.ts';
import type { Stopped } from './neck.ts';
import type { Onset } from './picking.ts';
import type { ChordPlace } from './timeline.ts';

export interface PressedSpan {
  /** In whole notes from where the chord starts as written; negative for a pushed one. */
  readonly first: number;
  readonly last: number;
  /** How many strings are plucked that the shape does not sound. */
  readonly missing: number;
}

/** `sungOn` is the string of a melody, which sounds by itself. A shape of which no pressed string is sounded is free from where the chord sounds, and wanted only when it is over. */
export function pressedSpan(
  onsets: readonly Onset[],
  { start, end, sounds, plan }: ChordPlace,
  strings: readonly Stopped[],
  sungOn: number | undefined,
): PressedSpan {
  const from = (instant: Fraction): number => toNumber(minus(instant, start));
  let first: Fraction | undefined;
  let last = sounds;
  const missed = new Set<number>();
  for (const onset of onsets) {
    let binds = false;
    for (const { string, stroke } of aimsOf(onset, strings, plan.bassStrings)) {
      const fret = strings.find((each) => each.string === string)?.fret;
      if (fret === undefined && string !== undefined && string !== sungOn) missed.add(string);
      if (fret !== undefined && fret > 0 && stroke !== 'mute') binds = true;
    }
    if (!binds) continue;
    first ??= onset.start;
    last = onset.start;
  }
  return { first: from(first ?? end), last: from(last), missing: missed.size };
}
