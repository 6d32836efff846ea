/** Keys and scales: reading their names, stepping along them, and bending them to the chord of the moment. */
import type { Chord } from './chord.ts';
import type { NoteName, Pitch } from './note.ts';
import { formatNoteName, midi, parseNoteName, pitchFromMidi, sameSound, semitone, transposeName } from './note.ts';
import type { ScaleNote } from './tonal.ts';
import { namedScales } from './tonal.ts';

export interface Key {
  readonly tonic: NoteName;
  /** `major`, `minor`, `dorian`, `minor pentatonic` …: one of {@link modeNames}. */
  readonly mode: string;
  /** The notes of the scale, rising from the tonic: 7 in most modes, from 5 to 12 in all. */
  readonly scale: readonly NoteName[];
}

/** The modes named first in a list of suggestions, in the order in which players meet them. */
const COMMON: readonly string[] =
  'major,minor,dorian,mixolydian,lydian,phrygian,locrian,ionian,aeolian,major pentatonic,minor pentatonic,minor blues,major blues,harmonic minor,melodic minor'.split(
    ',',
  );

/** Words that say the same as a mode's name; all without spaces, as they are compared. */
const SAME: Readonly<Record<string, string>> = {
  '': 'major',
  maj: 'major',
  mi: 'minor',
  min: 'minor',
  '-': 'minor',
  m: 'minor',
  naturalminor: 'minor',
  pentatonic: 'major pentatonic',
  pentatonicmajor: 'major pentatonic',
  pentatonicminor: 'minor pentatonic',
  majpentatonic: 'major pentatonic',
  minpentatonic: 'minor pentatonic',
  blues: 'minor blues',
  bluesminor: 'minor blues',
  bluesmajor: 'major blues',
  minorharmonic: 'harmonic minor',
  minormelodic: 'melodic minor',
  jazzminor: 'melodic minor',
  dominantphrygian: 'phrygian dominant',
};

const squeezed = (name: string): string => name.toLowerCase().replace(/[\s_'’-]+/g, '');

interface Modes {
  /** By name without spaces. */
  readonly names: ReadonlyMap<string, string>;
  readonly notes: ReadonlyMap<string, readonly ScaleNote[]>;
}

let modes: Modes | undefined;

/** The modes by name, gathered on first need. Ionian and aeolian stay what the author called them. */
function knownModes(): Modes {
  if (modes) return modes;
  const names = new Map<string, string>();
  const notes = new Map<string, readonly ScaleNote[]>();
  for (const scale of namedScales()) {
    notes.set(scale.name, scale.notes);
    names.set(squeezed(scale.name), scale.name);
  }
  for (const scale of namedScales()) {
    for (const alias of scale.aliases) {
      const own = COMMON.includes(alias) ? alias : scale.name;
      if (own === alias) notes.set(alias, scale.notes);
      if (!names.has(squeezed(alias))) names.set(squeezed(alias), own);
    }
  }
  for (const [word, name] of Object.entries(SAME)) names.set(word, name);
  modes = { names, notes };
  return modes;
}

/** Every mode and scale that a key may name, the common ones first, then by the alphabet. */
export function modeNames(): readonly string[] {
  return [...COMMON, ...[...knownModes().notes.keys()].filter((name) => !COMMON.includes(name)).sort()];
}

function modeOf(text: string): string | undefined {
  const words = text.trim();
  // Only this one letter tells major from minor by its case.
  if (words === 'M') return 'major';
  const name = words === '-' ? '-' : squeezed(words);
  return knownModes().names.get(name) ?? knownModes().names.get(name.replace(/(scale|mode)$/, ''));
}

/** The key of a tonic and one of {@link modeNames}; undefined for any other mode. */
export function keyOf(tonic: NoteName, mode: string): Key | undefined {
  const notes = knownModes().notes.get(mode);
  return notes && { tonic, mode, scale: notes.map((note) => transposeName(tonic, note.letters, note.semitones)) };
}

/**
 * Reads `G major`, `E minor`, `D dorian`, `A minor pentatonic`, and what people write instead: `d major`, `Gmaj`, `Am`,
 * `B flat minor`. A tonic alone is major. Undefined where the tonic or the mode is none.
 */
export function parseKey(text: string): Key | undefined {
  const match = /^([A-Ga-g])(.*)$/su.exec(text.trim());
  if (!match) return undefined;
  const letter = match[1].toUpperCase();
  // `C flat six pentatonic` is a scale on C: the word is a sign only where the rest is no mode with it.
  const signed = match[2].replace(/^[\s-]?(sharp|flat)\b/i, (_, word: string) => (/flat/i.test(word) ? 'b' : '#'));
  return signedKey(letter, match[2]) ?? signedKey(letter, signed);
}

/** The longest sign that leaves a mode is meant: `bb minor` is B flat, `Bblues` is B. */
function signedKey(letter: string, rest: string): Key | undefined {
  const signs = /^(?:#{1,2}|♯{1,2}|b{1,2}|♭{1,2}|♮)?/u.exec(rest)![0];
  for (let length = signs.length; length >= 0; length--) {
    const tonic = parseNoteName(letter + rest.slice(0, length));
    const mode = modeOf(rest.slice(length));
    if (tonic && mode !== undefined) return keyOf(tonic, mode);
  }
  return undefined;
}

/** `G major`, `D minor pentatonic`: what {@link parseKey} reads back to the same key. */
export function formatKey(key: Key): string {
  return `${formatNoteName(key.tonic)} ${key.mode}`;
}

/** Whether the scale's third is minor; where both thirds or none belong to it, whether its name says minor. */
export function isMinor(key: Key): boolean {
  const thirds = key.scale.map((note) => (semitone(note) - semitone(key.tonic) + 12) % 12);
  if (thirds.includes(3) === thirds.includes(4)) return key.mode.includes('minor');
  return thirds.includes(3);
}

/**
 * The seven notes, one a letter, that numerals and unnamed degrees count in: the key's own where it has them, the natural
 * minor for harmonic and melodic minor, and for pentatonics, blues and the like the major or natural minor scale.
 */
export function countingScale(key: Key): readonly NoteName[] {
  const own =
    key.scale.length === 7 && key.scale.every((note, place) => note.letter === (key.tonic.letter + place) % 7);
  if (own && !/^(harmonic|melodic) minor$/.test(key.mode)) return key.scale;
  return keyOf(key.tonic, isMinor(key) ? 'minor' : 'major')!.scale;
}

/** Fifths from C of the major scale on each letter, for key signatures. */
const LETTER_FIFTHS: readonly number[] = [0, 2, 4, -1, 1, 3, 5];

/** How far a mode's signature lies from the major key's on the same tonic, in fifths. */
const MODE_FIFTHS: Readonly<Record<string, number>> = {
  lydian: 1,
  mixolydian: -1,
  dorian: -2,
  minor: -3,
  aeolian: -3,
  phrygian: -4,
  locrian: -5,
};

/** The key signature: sharps above 0, flats below. Scales without a signature of their own take major or minor. */
export function keySignature(key: Key): number {
  const major = LETTER_FIFTHS[key.tonic.letter] + 7 * key.tonic.accidental;
  return major + (MODE_FIFTHS[key.mode] ?? (isMinor(key) ? -3 : 0));
}

const above = (tonic: NoteName, note: NoteName): number => (semitone(note) - semitone(tonic) + 12) % 12;

/**
 * `from` moved by `steps` of a scale that rises from its first note; negative steps go down, 0 stays. A start outside the
 * scale counts from its letter's place: in C major one step above F# is G, one below is E. Where the scale has no
 * such letter, as in a pentatonic, the next note in that direction is the first step.
 */
export function scaleStep(scale: readonly NoteName[], from: Pitch, steps: number): Pitch {
  if (steps === 0 || scale.length === 0) return from;
  const tonic = scale[0];
  const heights = scale.map((note) => above(tonic, note));
  let place = scale.findIndex((note) => sameSound(note, from));
  if (place < 0) place = nearestOnLetter(scale, from);
  let height = midi(from);
  let left = steps;
  if (place >= 0) {
    // The letter's own note in the same octave is where the counting starts.
    height += closest(semitone(scale[place]) - semitone(from));
  } else {
    const start = above(tonic, from);
    const higher = heights.findIndex((each) => each > start);
    place = steps > 0 ? (higher < 0 ? 0 : higher) : (higher < 0 ? scale.length : higher) - 1;
    const distance = heights[place] - start;
    height += steps > 0 ? (distance + 12) % 12 : -((12 - distance) % 12);
    left -= Math.sign(steps);
  }
  const target = place + left;
  const octaves = Math.floor(target / scale.length);
  const index = target - octaves * scale.length;
  return pitchFromMidi(height + heights[index] - heights[place] + 12 * octaves, scale[index]);
}

const closest = (semitones: number): number => ((((semitones + 6) % 12) + 12) % 12) - 6;

function nearestOnLetter(scale: readonly NoteName[], from: NoteName): number {
  let best = -1;
  scale.forEach((note, place) => {
    if (note.letter !== from.letter) return;
    const nearer =
      Math.abs(note.accidental - from.accidental) < Math.abs((scale[best]?.accidental ?? 99) - from.accidental);
    if (best < 0 || nearer) best = place;
  });
  return best;
}

/**
 * The key's scale with the chord's own tones in place of the scale's notes of the same letter, rising from the tonic: over
 * E7 in A minor it has G#. Chord tones on letters that the scale lacks are not added; no pitch class occurs twice.
 */
export function scaleOver(key: Key, chord: Chord): readonly NoteName[] {
  const notes = [...key.scale];
  const taken: NoteName[] = [];
  for (const { name } of chord.tones) {
    taken.push(name);
    if (notes.some((note) => note.letter === name.letter && sameSound(note, name))) continue;
    const place = nearestOnLetter(notes, name);
    if (place < 0) continue;
    // A flat and a sharp ninth share a letter: neither may push out the other.
    if (taken.includes(notes[place])) notes.push(name);
    else notes[place] = name;
    const twin = notes.findIndex((note) => note !== name && sameSound(note, name));
    if (twin >= 0) notes.splice(twin, 1);
  }
  return notes.sort((a, b) => above(key.tonic, a) - above(key.tonic, b));
}
