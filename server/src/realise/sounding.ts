/** From the key that the shapes are thought in to the key that sounds, under a capo or in a tuning lowered as a whole. */
import type { Instrument } from '../fretboard/instrument.ts';
import { shapeShift } from '../fretboard/shape-pitch.ts';
import { keyOf, keySignature, type Key } from '../theory/key.ts';
import { nameOnLetter, semitone, transposePitch, type Pitch } from '../theory/note.ts';

/** An interval by which names move: every name of the shapes moved by it is spelled as in the key that sounds. */
export interface Shift {
  readonly letters: number;
  /** May be negative. */
  readonly semitones: number;
  /** The key that sounds. */
  readonly key: Key;
}

/** The key that a lesson in `key` sounds in on this instrument: G major with a capo on 3 is B flat major. */
export const soundingKey = (key: Key, instrument: Instrument): Key => shiftOf(key, shapeShift(instrument)).key;

/** The way from the shapes to what sounds, `semitones` higher: of the keys on that pitch the one with the fewest signs. */
export function shiftOf(key: Key, semitones: number): Shift {
  if (semitones === 0) return { letters: 0, semitones, key };
  const pitchClass = (((semitone(key.tonic) + semitones) % 12) + 12) % 12;
  const sharps = semitones > 0 && keySignature(key) > 0;
  let best: Shift | undefined;
  let fewest = Infinity;
  for (let letters = 0; letters < 7; letters++) {
    const tonic = nameOnLetter(key.tonic.letter + letters, pitchClass);
    const moved = tonic && keyOf(tonic, key.mode);
    if (!moved) continue;
    const signature = keySignature(moved);
    // F sharp and G flat have as many: up from a key of sharps it is sharps, down it is flats, as the open strings are called.
    const signs = 2 * Math.abs(signature) + (signature > 0 === sharps ? 0 : 1);
    if (signs >= fewest) continue;
    fewest = signs;
    best = { letters, semitones, key: moved };
  }
  return best ?? { letters: 0, semitones, key };
}

/** A pitch of the shapes as it sounds. */
export const sounded = (pitch: Pitch, shift: Shift): Pitch =>
  shift.semitones === 0 ? pitch : transposePitch(pitch, shift.letters, shift.semitones);
