/** Names for what sounds: every sensible chord symbol of a set of notes, the best first. */
import type { Chord } from './chord.ts';
import { chordOf, chordWithBass, toneAt } from './chord.ts';
import { degreeOver } from './colour.ts';
import type { Degree } from './interval.ts';
import { degreeSemitones } from './interval.ts';
import type { Key } from './key.ts';
import type { NoteName } from './note.ts';
import { formatNoteName, nameOnLetter, sameName, semitone, transposeName, usualName } from './note.ts';
import { degreeOf } from './quality.ts';
import type { Preference, Reading } from './readings.ts';
import { readingOn, readingsOf } from './readings.ts';

export interface VoicingName {
  readonly name: string;
  /** Whether it names every note that sounds and no other, apart from tones that the trade leaves out (the fifth). */
  readonly strict: boolean;
}

export interface NamingContext {
  /** The chord that the author asked for: the names from its root come first. */
  readonly intended?: Chord;
  /** Decides between names of equal weight, and how roots are spelled. */
  readonly key?: Key;
  /** In a re-entrant tuning, such as a ukulele's, no slash is named unless the intended chord has one. */
  readonly reentrant?: boolean;
  /** Whether roots are flats rather than sharps where neither key nor chord decides: Gb on a guitar tuned in flats. */
  readonly flats?: boolean;
}

/** Names further from the simplest than this say more about arithmetic than about music. Set by judgement. */
const FARTHEST = 20;
const MOST_READINGS = 5;

interface Sounding {
  /** A bit for each pitch class. */
  readonly mask: number;
  readonly bass: number;
  /** Whether the bass's pitch class sounds higher up as well. */
  readonly doubled: boolean;
}

function soundingOf(midis: readonly number[]): Sounding {
  let mask = 0;
  let lowest = Infinity;
  for (const each of midis) {
    mask |= 1 << (((each % 12) + 12) % 12);
    if (each < lowest) lowest = each;
  }
  const bass = ((lowest % 12) + 12) % 12;
  return { mask, bass, doubled: midis.some((each) => each > lowest && (each - lowest) % 12 === 0) };
}

/**
 * The names of what sounds, the best first. `midis` are the sounding MIDI numbers in any order. With an intended chord the
 * names from its root come first, whatever else the notes could be; otherwise the simplest complete reading, then the one
 * with its root in the bass, then the one that lies in the key. A single note is named as a note. No name for silence.
 */
export function nameVoicing(midis: readonly number[], context: NamingContext): readonly VoicingName[] {
  if (midis.length === 0) return [];
  const { mask, bass, doubled } = soundingOf(midis);
  if ((mask & (mask - 1)) === 0) return [{ name: formatNoteName(noteAt(bass, context)), strict: true }];
  const { intended } = context;
  const named = context.reentrant && !intended?.bass ? undefined : bass;
  const readings = ordered(readingsOf(mask, named, doubled), context.key, bass);
  const names = new Map<string, boolean>();
  if (intended && (bit(mask, semitone(intended.root)) || soundsRootless(intended, mask))) {
    const reading = readingOn(semitone(intended.root), mask, named, doubled, preferenceOf(intended));
    addNames(names, reading, mask, doubled, context);
  }
  for (const reading of readings.slice(0, MOST_READINGS)) {
    if (reading.cost <= readings[0].cost + FARTHEST) addNames(names, reading, mask, doubled, context);
  }
  // The other ways of writing a name stay behind all that are exact.
  const list = [...names].map(([name, strict]) => ({ name, strict }));
  return [...list.filter((each) => each.strict), ...list.filter((each) => !each.strict)];
}

const bit = (mask: number, pitchClass: number): boolean => ((mask >> pitchClass) & 1) === 1;

/** Without its root a chord is heard only through three of its tones, the third among them. */
function soundsRootless(chord: Chord, mask: number): boolean {
  const sounding = chord.tones.filter(({ name }) => bit(mask, semitone(name)));
  return sounding.length >= 3 && sounding.some(({ degree }) => degree.number === 3);
}

function noteAt(pitchClass: number, { intended, key }: NamingContext): NoteName {
  if (intended) return degreeOver(intended, pitchClass, key).name;
  return key?.scale.find((note) => semitone(note) === pitchClass) ?? usualName(pitchClass);
}

function ordered(readings: Reading[], key: Key | undefined, bass: number): Reading[] {
  const outside = (reading: Reading): number =>
    key && !key.scale.some((note) => semitone(note) === reading.root) ? 1 : 0;
  const fromBass = (reading: Reading): number => (reading.root - bass + 12) % 12;
  return readings.sort(
    (a, b) =>
      a.cost - b.cost ||
      Number(a.bass !== 0) - Number(b.bass !== 0) ||
      outside(a) - outside(b) ||
      fromBass(a) - fromBass(b),
  );
}

function preferenceOf(intended: Chord): Preference {
  const has = (number: number, accidental: number): boolean =>
    intended.tones.some(({ degree }) => degree.number === number && degree.accidental === accidental);
  const anyOf = (...numbers: number[]): boolean => intended.tones.some(({ degree }) => numbers.includes(degree.number));
  return {
    sharpEleventh: has(11, 1),
    flatThirteenth: has(13, -1),
    thirdless: !anyOf(2, 3, 4) && anyOf(9, 11),
  };
}

/** Adds a reading's name, and the other ways in which players write the same notes. */
function addNames(
  names: Map<string, boolean>,
  reading: Reading,
  mask: number,
  doubled: boolean,
  context: NamingContext,
): void {
  const root = rootName(reading, context);
  const add = (degrees: readonly Degree[], strict: boolean): void => {
    const chord = chordOf(root, withFifth(degrees));
    const { symbol } = chordWithBass(chord, bassName(chord, reading, context));
    if (!names.has(symbol)) names.set(symbol, strict);
  };
  const { degrees, bass } = reading;
  // Players hear the ninth of a dominant thirteenth as optional and call every such chord a 13.
  if (isShellThirteenth(degrees)) add([...degrees, NINTH], true);
  add(degrees, true);
  const whole = readingOn(reading.root, mask, undefined, doubled).degrees;
  if (reading.outside && (bass === 2 || bass === 5)) add(whole, true);
  if (!doubled && (bass === 10 || bass === 11)) {
    const seventh = degrees.filter((degree) => degree.number === 7);
    const upper = degrees.filter((degree) => degree.number !== 7);
    if (seventh.length === 1 && upper.length >= 3 && upper.every((degree) => degree.number < 6)) add(upper, true);
  }
  if (degrees.includes(SECOND) && (degrees.includes(SIXTH) || degrees.some((degree) => degree.number === 7))) {
    add([...degrees.filter((degree) => degree !== SECOND), NINTH], true);
  }
  const looser = loosened(degrees);
  if (looser) add(looser, false);
}

const SECOND = degreeOf(2);
const THIRD = degreeOf(3);
const FOURTH = degreeOf(4);
const FIFTH = degreeOf(5);
const SIXTH = degreeOf(6);
const FLAT_SEVENTH = degreeOf(7, -1);
const NINTH = degreeOf(9);
const ELEVENTH = degreeOf(11);
const THIRTEENTH = degreeOf(13);

/** A missing fifth goes unsaid, except where neither third nor suspension nor seventh is left to make a chord. */
function withFifth(degrees: readonly Degree[]): readonly Degree[] {
  const chordal = degrees.some(({ number }) => number === 7 || (number >= 2 && number <= 4) || number === 6);
  return chordal && !degrees.some(({ number }) => number === 5) ? [...degrees, FIFTH] : degrees;
}

function isShellThirteenth(degrees: readonly Degree[]): boolean {
  const ninth = degrees.some((degree) => degree.number === 9);
  return degrees.includes(THIRD) && degrees.includes(FLAT_SEVENTH) && degrees.includes(THIRTEENTH) && !ninth;
}

/** The shorter symbol that players also write, though it promises more: `11` for `9sus4`, `m11` for `m7add11`. */
function loosened(degrees: readonly Degree[]): readonly Degree[] | undefined {
  const seventh = degrees.some((degree) => degree.number === 7);
  if (degrees.includes(FOURTH) && degrees.includes(FLAT_SEVENTH) && degrees.includes(NINTH)) {
    return [...degrees.filter((degree) => degree !== FOURTH), THIRD, ELEVENTH];
  }
  const ninth = degrees.some((degree) => degree.number === 9);
  if (!seventh || ninth || !degrees.some((degree) => degree.number === 3)) return undefined;
  return degrees.includes(THIRTEENTH) || degrees.includes(ELEVENTH) ? [...degrees, NINTH] : undefined;
}

/** The spelling of a root: the intended chord's or, without one, the one that needs the fewest signs in this key. */
function rootName(reading: Reading, { intended, key, flats }: NamingContext): NoteName {
  if (intended) {
    const name = degreeOver(intended, reading.root, key).name;
    if (Math.abs(name.accidental) < 2 || semitone(intended.root) === reading.root) return name;
  }
  let best = usualName(reading.root);
  let least = spellingCost(best, reading.degrees, key, flats);
  for (let letter = 0; letter < 7; letter++) {
    const name = nameOnLetter(letter, reading.root);
    if (!name || Math.abs(name.accidental) > 1) continue;
    const cost = spellingCost(name, reading.degrees, key, flats);
    if (cost < least) {
      best = name;
      least = cost;
    }
  }
  return best;
}

/** What a note spelled otherwise than in the key costs, against one for a sharp or flat. Set by judgement. */
const AGAINST_KEY = 3;
const ROOT_AGAINST_KEY = 8;
/** What it costs to name a chord from Cb, E#, Fb or B#, or from A#, outside their keys. */
const ODD_ROOT = 6;
const RARE_ROOT = 2;
const SHARP_AMONG_FLATS = 2;

function spellingCost(root: NoteName, degrees: readonly Degree[], key: Key | undefined, flats = false): number {
  let cost = 0;
  for (const degree of degrees) {
    const name = transposeName(root, degree.number - 1, degreeSemitones(degree));
    cost += name.accidental * name.accidental;
    if (flats && name.accidental > 0) cost += SHARP_AMONG_FLATS;
    const own = key?.scale.find((note) => semitone(note) === semitone(name));
    if (own && own.letter !== name.letter) cost += name.letter === root.letter ? ROOT_AGAINST_KEY : AGAINST_KEY;
  }
  if (root.accidental === 0 || key?.scale.some((note) => sameName(note, root))) return cost;
  if ([0, 4, 5, 11].includes(semitone(root))) return cost + ODD_ROOT;
  return root.accidental > 0 && semitone(root) === 10 ? cost + RARE_ROOT : cost;
}

/** The bass as the chord spells it; one outside the chord as the key does, or on the letter that reads best. */
function bassName(chord: Chord, { root, bass }: Reading, { key }: NamingContext): NoteName | undefined {
  if (bass === undefined) return undefined;
  const pitchClass = (root + bass) % 12;
  const own = toneAt(chord, pitchClass);
  if (own) return own.name;
  const inKey = key?.scale.find((note) => semitone(note) === pitchClass);
  if (inKey) return inKey;
  // Under a chord the minor third is written as one, though above it would be a sharp ninth.
  const name = bass === 3 ? nameOnLetter(chord.root.letter + 2, pitchClass) : degreeOver(chord, pitchClass).name;
  return name && Math.abs(name.accidental) < 2 ? name : usualName(pitchClass);
}

export type { Misnaming } from './misnaming.ts';
export { misnames } from './misnaming.ts';
