/** Note names and pitches: a letter, its accidental and, for a pitch, the octave in which it sounds. */
export interface NoteName {
  /** 0 = C, 1 = D … 6 = B. */
  readonly letter: number;
  /** −3 … 3 semitones; negative is flat. */
  readonly accidental: number;
}

/** A note name in an octave of scientific pitch notation: C4 is MIDI 60, and so is B#3. */
export interface Pitch extends NoteName {
  readonly octave: number;
}

const LETTERS = 'CDEFGAB';

/** Semitones of C D E F G A B above C: the major scale. */
export const LETTER_SEMITONES: readonly number[] = [0, 2, 4, 5, 7, 9, 11];

const MOST_ACCIDENTALS = 3;
const NOTE = /^([A-G])(#{1,3}|♯{1,3}|b{1,3}|♭{1,3}|♮|𝄪|𝄫)?(-?\d{1,2})?$/u;

const modulo = (value: number, by: number): number => ((value % by) + by) % by;

function accidentalOf(signs: string | undefined): number {
  if (signs === undefined || signs === '♮') return 0;
  if (signs === '𝄪') return 2;
  if (signs === '𝄫') return -2;
  return signs[0] === '#' || signs[0] === '♯' ? signs.length : -signs.length;
}

/** Reads `F#`, `Bb`, `B♭`, `C♯`, `G♮`, `F##`, `Ebb`; the letter must be a capital. Undefined for anything else. */
export function parseNoteName(text: string): NoteName | undefined {
  const match = NOTE.exec(text);
  if (!match || match[3] !== undefined) return undefined;
  return { letter: LETTERS.indexOf(match[1]), accidental: accidentalOf(match[2]) };
}

/** Reads a note name with its octave: `D2`, `Eb4`. Undefined for anything else. */
export function parsePitch(text: string): Pitch | undefined {
  const match = NOTE.exec(text);
  if (!match || match[3] === undefined) return undefined;
  return { letter: LETTERS.indexOf(match[1]), accidental: accidentalOf(match[2]), octave: Number(match[3]) };
}

/** The signs of an accidental of `semitones`: `#` and `b`, never the typographic ones; empty for 0. */
export function formatAccidental(semitones: number): string {
  return semitones < 0 ? 'b'.repeat(-semitones) : '#'.repeat(semitones);
}

export function formatNoteName(name: NoteName): string {
  return LETTERS[name.letter] + formatAccidental(name.accidental);
}

export function formatPitch(pitch: Pitch): string {
  return formatNoteName(pitch) + pitch.octave;
}

/** The pitch class, 0 (C) to 11 (B). */
export function semitone(name: NoteName): number {
  return modulo(LETTER_SEMITONES[name.letter] + name.accidental, 12);
}

/** The MIDI number; 60 for C4. */
export function midi(pitch: Pitch): number {
  return 12 * (pitch.octave + 1) + LETTER_SEMITONES[pitch.letter] + pitch.accidental;
}

/** `name` in the octave in which it sounds MIDI number `sounding`. The name must have that number's pitch class. */
export function pitchFromMidi(sounding: number, name: NoteName): Pitch {
  const octave = Math.round((sounding - LETTER_SEMITONES[name.letter] - name.accidental) / 12) - 1;
  return { letter: name.letter, accidental: name.accidental, octave };
}

/** Whether both names sound the same pitch class, as F# and Gb do. */
export function sameSound(a: NoteName, b: NoteName): boolean {
  return semitone(a) === semitone(b);
}

/** Whether both are spelled alike; octaves are not compared. */
export function sameName(a: NoteName, b: NoteName): boolean {
  return a.letter === b.letter && a.accidental === b.accidental;
}

/** Names of the twelve pitch classes where nothing else decides: the ones that keys and players use most. */
const USUAL: readonly string[] = ['C', 'C#', 'D', 'Eb', 'E', 'F', 'F#', 'G', 'Ab', 'A', 'Bb', 'B'];
const USUAL_NAMES: readonly NoteName[] = USUAL.map((text) => Object.freeze(parseNoteName(text)!));

/** The usual name of a pitch class, 0 to 11, where neither chord nor key decides. */
export function usualName(pitchClass: number): NoteName {
  return USUAL_NAMES[modulo(pitchClass, 12)];
}

/** The name of a pitch class on a given letter; undefined where it would need more than three signs. */
export function nameOnLetter(letter: number, pitchClass: number): NoteName | undefined {
  const place = modulo(letter, 7);
  const accidental = modulo(pitchClass - LETTER_SEMITONES[place] + 6, 12) - 6;
  return Math.abs(accidental) > MOST_ACCIDENTALS ? undefined : { letter: place, accidental };
}

/**
 * `name` moved by `letters` of the alphabet and `semitones`, spelled exactly: a minor third is (2, 3), an augmented
 * second (1, 3). Negative values move down. Where that needs more than three signs the usual name stands in.
 */
export function transposeName(name: NoteName, letters: number, semitones: number): NoteName {
  const pitchClass = modulo(semitone(name) + semitones, 12);
  return nameOnLetter(name.letter + letters, pitchClass) ?? usualName(pitchClass);
}

/** A pitch moved like {@link transposeName}, with its octave. */
export function transposePitch(pitch: Pitch, letters: number, semitones: number): Pitch {
  return pitchFromMidi(midi(pitch) + semitones, transposeName(pitch, letters, semitones));
}
