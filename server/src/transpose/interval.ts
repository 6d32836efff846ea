/** How far a key lies from another: by how many letters names move, by how many semitones notes do, and by how many frets a part. */
import type { Key } from '../theory/key.ts';
import { nameOnLetter, semitone, usualName, type NoteName } from '../theory/note.ts';

export interface Interval {
  /** Letters of the alphabet upwards, 0–6. */
  readonly letters: number;
  /** Semitones upwards, 0–11. */
  readonly semitones: number;
  /** The same the nearer way, −6…6: where written notes go when nothing else decides. */
  readonly nearest: number;
}

const OCTAVE = 12;
const TRITONE = 6;
const modulo = (value: number, by: number): number => ((value % by) + by) % by;

/**
 * From tonic to tonic. What is exactly half an octave goes up as an augmented fourth and down as a diminished fifth, so that
 * the way back is always the same way.
 */
export function intervalBetween(from: Key, to: Key): Interval {
  const letters = modulo(to.tonic.letter - from.tonic.letter, 7);
  const semitones = modulo(semitone(to.tonic) - semitone(from.tonic), OCTAVE);
  const up = semitones < TRITONE || (semitones === TRITONE && letters <= 3);
  return { letters, semitones, nearest: up ? semitones : semitones - OCTAVE };
}

export interface MovedName {
  readonly name: NoteName;
  /** False where the exact spelling would need more signs than may be written, and the usual name stands in. */
  readonly exact: boolean;
}

/** The name an interval higher, with at most `signs` sharps or flats. */
export function movedName(name: NoteName, { letters, semitones }: Interval, signs: number): MovedName {
  const pitchClass = modulo(semitone(name) + semitones, OCTAVE);
  const moved = nameOnLetter(name.letter + letters, pitchClass);
  if (moved && Math.abs(moved.accidental) <= signs) return { name: moved, exact: true };
  return { name: usualName(pitchClass), exact: false };
}

/** Where a part of frets goes as a whole. */
export interface Shift {
  /** Frets up; negative is down. */
  readonly frets: number;
  /** Whether the way back leads to where it came from. */
  readonly returns: boolean;
}

/**
 * By how many frets a part moves whose lowest fret is `lowest`. The lowest fret stays in its octave of the neck, which begins at
 * fret `first` (0, or 1 for what cannot be open), and goes round in it: a whole tone up from fret 10 is the open string. In
 * this way every place has one place to go to and one to come from, and there and back is where it was; the nearest way
 * would take frets 0 and 12 to the same fret 10. Only where the part would not fit the neck there, it goes an octave
 * lower; undefined where it fits nowhere.
 */
export function shiftOf(
  lowest: number,
  first: 0 | 1,
  { semitones }: Interval,
  fits: (frets: number) => boolean,
): Shift | undefined {
  const start = first + OCTAVE * Math.floor((lowest - first) / OCTAVE);
  const frets = start + modulo(lowest - start + semitones, OCTAVE) - lowest;
  if (fits(frets)) return { frets, returns: true };
  const lower = frets - OCTAVE;
  return lowest + lower >= first && fits(lower) ? { frets: lower, returns: false } : undefined;
}
