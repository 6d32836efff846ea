/** Tunings by their trade names and by their notes. Knows nothing of capos, necks or hands. */
import { formatPitch, midi, parsePitch } from '../theory/note.ts';
import type { Pitch } from '../theory/note.ts';

export interface Tuning {
  /** A name of the table below, or else the notes joined by spaces: `D2 A2 D3 G3 A3 D4`. */
  readonly name: string;
  /** In the order of the strings on the neck, from the bass side: index 0 is the string with the highest number. */
  readonly strings: readonly Pitch[];
  /** A later string sounds lower than an earlier one, as on a ukulele. */
  readonly reentrant: boolean;
  /** The usual length of the sounding open string on such an instrument, in mm. */
  readonly scaleLength: number;
}

export interface TuningName {
  readonly name: string;
  /** The notes from the bass side to the treble side, joined by spaces. */
  readonly notes: string;
  /** What it is, for a list to choose from. */
  readonly says: string;
}

export const FEWEST_STRINGS = 3;
export const MOST_STRINGS = 12;

/** Usual scale lengths in mm, as makers build them; a lesson may state its own. */
const GUITAR = 648;
const LONG_GUITAR = 686;
const BASS = 864;
const TENOR_GUITAR = 584;
const CONCERT_UKULELE = 381;
const BARITONE_UKULELE = 483;

const NAMED: readonly (TuningName & { readonly scaleLength: number })[] = [
  { name: 'standard', notes: 'E2 A2 D3 G3 B3 E4', says: 'the usual six strings', scaleLength: GUITAR },
  { name: 'drop-d', notes: 'D2 A2 D3 G3 B3 E4', says: 'the sixth string a whole step down', scaleLength: GUITAR },
  {
    name: 'double-drop-d',
    notes: 'D2 A2 D3 G3 B3 D4',
    says: 'both outer strings a whole step down',
    scaleLength: GUITAR,
  },
  { name: 'dadgad', notes: 'D2 A2 D3 G3 A3 D4', says: 'the open strings make Dsus4', scaleLength: GUITAR },
  { name: 'open-d', notes: 'D2 A2 D3 F#3 A3 D4', says: 'the open strings make D', scaleLength: GUITAR },
  { name: 'open-d-minor', notes: 'D2 A2 D3 F3 A3 D4', says: 'the open strings make Dm', scaleLength: GUITAR },
  { name: 'open-g', notes: 'D2 G2 D3 G3 B3 D4', says: 'the open strings make G', scaleLength: GUITAR },
  { name: 'open-g-minor', notes: 'D2 G2 D3 G3 Bb3 D4', says: 'the open strings make Gm', scaleLength: GUITAR },
  { name: 'open-e', notes: 'E2 B2 E3 G#3 B3 E4', says: 'the open strings make E', scaleLength: GUITAR },
  { name: 'open-e-minor', notes: 'E2 B2 E3 G3 B3 E4', says: 'the open strings make Em', scaleLength: GUITAR },
  { name: 'open-a', notes: 'E2 A2 E3 A3 C#4 E4', says: 'the open strings make A', scaleLength: GUITAR },
  { name: 'open-c', notes: 'C2 G2 C3 G3 C4 E4', says: 'the open strings make C', scaleLength: GUITAR },
  {
    name: 'half-step-down',
    notes: 'Eb2 Ab2 Db3 Gb3 Bb3 Eb4',
    says: 'every string a half step down',
    scaleLength: GUITAR,
  },
  { name: 'whole-step-down', notes: 'D2 G2 C3 F3 A3 D4', says: 'every string a whole step down', scaleLength: GUITAR },
  { name: 'drop-c-sharp', notes: 'C#2 G#2 C#3 F#3 A#3 D#4', says: 'drop-d, a half step lower', scaleLength: GUITAR },
  { name: 'drop-c', notes: 'C2 G2 C3 F3 A3 D4', says: 'drop-d, a whole step lower', scaleLength: GUITAR },
  { name: 'drop-b', notes: 'B1 F#2 B2 E3 G#3 C#4', says: 'drop-d, three half steps lower', scaleLength: GUITAR },
  {
    name: 'all-fourths',
    notes: 'E2 A2 D3 G3 C4 F4',
    says: 'a fourth from every string to the next',
    scaleLength: GUITAR,
  },
  { name: 'high-strung', notes: 'E3 A3 D4 G4 B3 E4', says: 'the four lower strings an octave up', scaleLength: GUITAR },
  { name: 'seven-string', notes: 'B1 E2 A2 D3 G3 B3 E4', says: 'standard with a low B', scaleLength: GUITAR },
  {
    name: 'eight-string',
    notes: 'F#1 B1 E2 A2 D3 G3 B3 E4',
    says: 'standard with a low B and F#',
    scaleLength: LONG_GUITAR,
  },
  {
    name: 'baritone',
    notes: 'B1 E2 A2 D3 F#3 B3',
    says: 'a baritone guitar, a fourth below standard',
    scaleLength: LONG_GUITAR,
  },
  { name: 'tenor', notes: 'C3 G3 D4 A4', says: 'a tenor guitar in fifths', scaleLength: TENOR_GUITAR },
  { name: 'bass', notes: 'E1 A1 D2 G2', says: 'a bass of four strings', scaleLength: BASS },
  { name: 'five-string-bass', notes: 'B0 E1 A1 D2 G2', says: 'a bass with a low B', scaleLength: BASS },
  { name: 'six-string-bass', notes: 'B0 E1 A1 D2 G2 C3', says: 'a bass with a low B and a high C', scaleLength: BASS },
  {
    name: 'ukulele',
    notes: 'G4 C4 E4 A4',
    says: 'a ukulele with its high fourth string',
    scaleLength: CONCERT_UKULELE,
  },
  {
    name: 'low-g-ukulele',
    notes: 'G3 C4 E4 A4',
    says: 'a ukulele with a low fourth string',
    scaleLength: CONCERT_UKULELE,
  },
  { name: 'baritone-ukulele', notes: 'D3 G3 B3 E4', says: 'a baritone ukulele', scaleLength: BARITONE_UKULELE },
];

/** Every tuning that has a name, in the order in which a list should offer them. */
export const tuningNames: readonly TuningName[] = NAMED.map(({ name, notes, says }) => ({ name, notes, says }));

/** The tuning of that trade name; undefined where there is none. */
export function tuningNamed(name: string): Tuning | undefined {
  const found = NAMED.find((each) => each.name === name);
  if (!found) return undefined;
  const strings = found.notes.split(' ').flatMap((note) => parsePitch(note) ?? []);
  return { name, strings, reentrant: isReentrant(strings), scaleLength: found.scaleLength };
}

/**
 * The tuning of these open strings, given from the bass side to the treble side; undefined for fewer than 3 or more than 12.
 * Notes that spell a named tuning are that tuning, so that a ukulele written out has a ukulele's length.
 */
export function tuningOf(notes: readonly Pitch[]): Tuning | undefined {
  if (notes.length < FEWEST_STRINGS || notes.length > MOST_STRINGS) return undefined;
  const joined = notes.map(formatPitch).join(' ');
  const named = NAMED.find((each) => each.notes === joined);
  if (named) return tuningNamed(named.name);
  return { name: joined, strings: [...notes], reentrant: isReentrant(notes), scaleLength: usualLength(notes) };
}

const isReentrant = (strings: readonly Pitch[]): boolean =>
  strings.some((string, i) => i > 0 && midi(string) < midi(strings[i - 1]));

/** The lowest treble string of a guitar and the highest of a bass part at C3; four strings from G3 up are a ukulele's. */
const GUITARS_TREBLE = 48;
const UKULELES_BASS = 55;

function usualLength(strings: readonly Pitch[]): number {
  const sounding = strings.map(midi);
  if (strings.length <= 5 && Math.max(...sounding) < GUITARS_TREBLE) return BASS;
  if (strings.length === 4 && Math.min(...sounding) >= UKULELES_BASS) return CONCERT_UKULELE;
  return GUITAR;
}
