/** The chords that a key builds on its own scale: what a list of suggestions offers first, and what a key's hover shows. */
import { chordOf, type Chord } from '../theory/chord.ts';
import { countingScale, type Key } from '../theory/key.ts';
import type { Degree } from '../theory/interval.ts';
import { semitone } from '../theory/note.ts';
import { numeralOf } from '../theory/numeral.ts';
import { degreeOf } from '../theory/quality.ts';

export interface KeyChord {
  readonly chord: Chord;
  /** `vi`, `V7`; absent where no numeral reads back to the chord. */
  readonly numeral?: string;
}

/** A stack of thirds, root, third, fifth and seventh, and what these measure in the major scale. */
const STACK: readonly { readonly number: number; readonly semitones: number }[] = [
  { number: 1, semitones: 0 },
  { number: 3, semitones: 4 },
  { number: 5, semitones: 7 },
  { number: 7, semitones: 11 },
];

/** Triads on the seven degrees, then the chords of the seventh, from the tonic up. */
export function chordsInKey(key: Key): readonly KeyChord[] {
  const scale = countingScale(key);
  const on = (place: number, notes: number): KeyChord => {
    const root = scale[place];
    const degrees = STACK.slice(0, notes).map(({ number, semitones }, i): Degree => {
      const distance = (semitone(scale[(place + 2 * i) % scale.length]) - semitone(root) + 12) % 12;
      return degreeOf(number, distance - semitones);
    });
    const chord = chordOf(root, degrees);
    const numeral = numeralOf(chord, key);
    return numeral === undefined ? { chord } : { chord, numeral };
  };
  return [3, 4].flatMap((notes) => scale.map((_, place) => on(place, notes)));
}
