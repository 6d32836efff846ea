/** Chords: a root, a quality and a bass, read from a symbol and spelled note by note. */
import type { Degree } from './interval.ts';
import { degreeSemitones } from './interval.ts';
import type { NoteName } from './note.ts';
import {
  formatNoteName,
  LETTER_SEMITONES,
  parseNoteName,
  sameName,
  sameSound,
  semitone,
  transposeName,
} from './note.ts';
import { DegreeSet, formatQuality, isOptional } from './quality.ts';
import { readQuality } from './read-quality.ts';

export { degreeOver, toneOf } from './colour.ts';

export interface ChordTone {
  readonly degree: Degree;
  readonly name: NoteName;
  /** Whether the trade leaves it out without another name, as it does the fifth. */
  readonly optional?: boolean;
}

export interface Chord {
  /** The canonical spelling: `Cmaj7`, `Am7`, `D/F#`. */
  readonly symbol: string;
  readonly root: NoteName;
  /** The canonical suffix without the slash: `m7b5`; empty for a major triad. */
  readonly quality: string;
  /** From the root up. Without the root only where the symbol says `(no1)`; without a bass that the chord lacks. */
  readonly tones: readonly ChordTone[];
  /** The slash bass; absent where it is the root. */
  readonly bass?: NoteName;
}

/** Spells a chord out of its degrees. The quality is the canonical one for them. */
export function chordOf(root: NoteName, degrees: readonly Degree[], bass?: NoteName): Chord {
  const set = new DegreeSet(degrees);
  const tones = set.degrees.map((degree): ChordTone => {
    const name = transposeName(root, degree.number - 1, degreeSemitones(degree));
    return isOptional(set, degree) ? { degree, name, optional: true } : { degree, name };
  });
  return withBass(root, formatQuality(set), tones, bass);
}

function withBass(root: NoteName, quality: string, tones: readonly ChordTone[], bass: NoteName | undefined): Chord {
  const symbol = formatNoteName(root) + quality;
  if (!bass || sameSound(bass, root)) return { symbol, root, quality, tones };
  return { symbol: `${symbol}/${formatNoteName(bass)}`, root, quality, tones, bass };
}

const ROOT = /^([A-G](?:#{1,2}|♯{1,2}|b{1,2}|♭{1,2}|♮|𝄪|𝄫)?)( ?)(.*)$/su;
/** Longer texts than this are no chord symbol; hostile ones cost nothing. */
const LONGEST = 80;
const SLASH_BASS = /^(.*?)\s*\/\s*([A-G][#b♯♭♮𝄪𝄫]*)$/su;

/**
 * Reads a chord symbol in any spelling of the trade, `Cmaj7`, `CM7`, `C△`, `C7(b9, #11)`, `D/F#`. A space after the root
 * decides between `A #5`, an augmented triad, and `A#5`, the power chord on A sharp. Undefined for what cannot be read in
 * full, for suspensions of a minor chord, and for `N.C.`.
 */
export function parseChord(text: string): Chord | undefined {
  const split = text.length > LONGEST ? null : ROOT.exec(text.trim());
  if (!split) return undefined;
  const slash = SLASH_BASS.exec(split[3]);
  const bass = slash ? parseNoteName(slash[2]) : undefined;
  if (slash && !bass) return undefined;
  const suffix = slash ? slash[1] : split[3];
  if (split[2] === ' ' && suffix === '' && !slash) return undefined;
  const root = parseNoteName(split[1])!;
  const degrees = readQuality(suffix);
  return degrees && chordOf(root, degrees, bass);
}

/** Whether a symbol suspends a minor chord, as `Am7sus4` does: the suspension takes away the third that `m` asks for. */
export function suspendsMinor(text: string): boolean {
  return /^[A-G][#b♯♭]*(?:m(?!aj)|min|mi|-)[^/]*sus/.test(text.trim());
}

/** The chord over another bass, or over its root where `bass` is undefined or sounds the root. */
export function chordWithBass(chord: Chord, bass: NoteName | undefined): Chord {
  return withBass(chord.root, chord.quality, chord.tones, bass);
}

/** The chord moved by `letters` of the alphabet and `semitones`, bass and all, each note spelled from its new root. */
export function transposeChord(chord: Chord, letters: number, semitones: number): Chord {
  const root = transposeName(chord.root, letters, semitones);
  // The bass keeps its interval from the root, so that a respelled root takes it along.
  const bass = chord.bass && moveAlong(chord.root, root, chord.bass);
  return chordOf(
    root,
    chord.tones.map((tone) => tone.degree),
    bass,
  );
}

function moveAlong(from: NoteName, to: NoteName, note: NoteName): NoteName {
  const letters = (note.letter - from.letter + 7) % 7;
  const semitones = (semitone(note) - semitone(from) + 12) % 12;
  return transposeName(to, letters, semitones);
}

/** The lowest note that the symbol asks for: the slash bass or the root. */
export function bassOf(chord: Chord): NoteName {
  return chord.bass ?? chord.root;
}

/** Semitones from the chord's root up to a note, 0–11. */
export function aboveRoot(chord: Chord, note: NoteName): number {
  return (semitone(note) - semitone(chord.root) + 12) % 12;
}

/**
 * Whether two chords are the same music: root, bass and intervals, in whatever spelling. Tones that the trade leaves out (the
 * fifth, the ninth of a 13) may be missing from either; a slash bass counts as a note, so that `Cadd9/D` is `C/D`.
 */
export function sameChord(a: Chord, b: Chord): boolean {
  if (!sameSound(a.root, b.root) || !sameSound(bassOf(a), bassOf(b))) return false;
  const free = optionalMask(a) | optionalMask(b);
  return (intervalMask(a) | free) === (intervalMask(b) | free);
}

const FIFTH = LETTER_SEMITONES[4];

function intervalMask(chord: Chord): number {
  let mask = 1 << aboveRoot(chord, bassOf(chord));
  for (const tone of chord.tones) mask |= 1 << degreeSemitones(tone.degree);
  return mask;
}

function optionalMask(chord: Chord): number {
  let mask = 1 << FIFTH;
  for (const tone of chord.tones) if (tone.optional) mask |= 1 << degreeSemitones(tone.degree);
  return mask;
}

/** The tone of the chord that sounds a pitch class, 0–11. */
export function toneAt(chord: Chord, pitchClass: number): ChordTone | undefined {
  return chord.tones.find((tone) => semitone(tone.name) === pitchClass);
}

/** Whether the symbols are the same to the letter, roots and basses included. */
export function sameSymbol(a: Chord, b: Chord): boolean {
  return a.quality === b.quality && sameName(a.root, b.root) && sameName(bassOf(a), bassOf(b));
}
