/** What a shape rule asks over one chord, in numbers: which frets each string may have, and what must be true of them together. */
import type { Chord } from '../theory/chord.ts';
import { toneOf } from '../theory/chord.ts';
import type { Key } from '../theory/key.ts';
import { semitone } from '../theory/note.ts';
import type { ShapeRule, Tone } from '../lesson/lesson.ts';
import { indexOfString, stringAtIndex } from '../fretboard/frets.ts';
import type { Neck } from './neck.ts';

/** What can stand in a voicing's way: the lines of a shape rule, a pin, the hand. */
export type Line =
  | 'strings'
  | 'tones'
  | 'spacing'
  | 'bass'
  | 'top'
  | 'open'
  | 'avoid'
  | 'colour'
  | 'frets'
  | 'reach'
  | 'barre'
  | 'hand'
  | 'at';

export interface Asked {
  readonly chord: Chord;
  readonly rule: ShapeRule;
  /** Tones that the chord does not name come from it. */
  readonly key: Key;
  readonly neck: Neck;
  /** The lowest fret pressed, as written: `at 8`. */
  readonly at?: number;
}

/** Stands among the frets of a string for leaving it silent. */
export const SILENT = -1;

/** Pitch classes are sets of bits, 1 << pitch class. */
export interface Demands {
  /** By index into a fret list: written frets in rising order, `SILENT` first where it may be. */
  readonly options: readonly (readonly number[])[];
  /** Those that must sound on some string, and how many of them at least. */
  readonly required: number;
  readonly requiredCount: number;
  /** Undefined where no line says it. */
  readonly bass?: number;
  readonly top?: number;
  /** The bass that the symbol asks for: preferred wherever the rule leaves the choice. */
  readonly symbolBass?: number;
  /** A tone that only the lowest string may have. */
  readonly onlyLowest?: number;
  readonly spacing?: 'close' | 'spread';
  /** With `spacing`: the strings, by index, that carry the chord. What rings open beside them is not measured. */
  readonly spaced?: ReadonlySet<number>;
  readonly sequence?: readonly number[];
  readonly neighbours: boolean;
  readonly mostSilent: number;
  readonly bassAtLowestFret: boolean;
  readonly reach?: number;
  readonly at?: number;
  /** Whether the hand's own width limits the search. */
  readonly hand: boolean;
}

/** The demands without those of the lines in `left`; the first line that cannot even be asked where there is one. */
export function demandsOf(asked: Asked, left: ReadonlySet<Line>): Demands | Line {
  const { chord, rule, neck, at } = asked;
  const bit = (tone: Tone): number | undefined => {
    const name = toneOf(chord, tone.degree, tone.absolute, asked.key);
    return name && 1 << semitone(name);
  };
  const bits = (tones: readonly Tone[]): number => tones.reduce((all, tone) => all | (bit(tone) ?? 0), 0);
  const avoided = left.has('avoid') ? 0 : bits(rule.avoid);
  const own = chord.tones.reduce((all, tone) => all | (1 << semitone(tone.name)), 0);
  const coloured = rule.colour && !left.has('colour') ? own | bits(rule.colour) : undefined;
  const slash = chord.bass && 1 << semitone(chord.bass);
  const sequence = rule.sequence?.map(bit);
  if (sequence?.includes(undefined)) return 'tones';

  const listed = listedStrings(rule, neck);
  if (typeof listed === 'string') return left.has('strings') ? emptyDemands(neck) : listed;
  const spaced = rule.spacing && !left.has('tones') ? spacedTones(chord, listed.length) : undefined;
  const wanted: (number | 'any' | undefined)[] = listed.map(({ place }) => {
    if (spaced !== undefined) return spaced;
    const tone = left.has('tones') ? 'any' : (rule.tones?.[place] ?? 'any');
    return tone === 'any' ? 'any' : bit(tone);
  });
  if (wanted.includes(undefined)) return 'tones';

  // A rule without fixed tones can put the symbol's bass under the chord, be it a tone of the chord or not.
  const foreignBass = slash !== undefined && !(own & slash) ? slash : 0;
  const anything = sequence
    ? sequence.reduce((all: number, tone) => all | tone!, 0)
    : ((own | (rule.colour ? (coloured ?? own) : 0)) & ~avoided) | foreignBass;
  const options: number[][] = Array.from({ length: neck.strings }, () => [SILENT]);
  listed.forEach(({ index }, i) => {
    const allowed = wanted[i] === 'any' ? anything : (wanted[i] as number);
    options[index] = fretsOf(asked, index, allowed, left.has('frets'));
    if (rule.sparse) options[index].unshift(SILENT);
  });
  const isListed = new Set(listed.map(({ index }) => index));
  const mayRing = (index: number): boolean => {
    const sounding = 1 << (((neck.open[index] % 12) + 12) % 12);
    return (sounding & avoided) === 0 && (coloured === undefined || (sounding & coloured) !== 0);
  };
  for (let index = 0; index < neck.strings; index++) {
    if (isListed.has(index)) continue;
    const forced = rule.open !== 'any' && rule.open.includes(stringAtIndex(index, neck.strings));
    if (!forced && rule.open !== 'any') continue;
    const ringing = mayRing(index) ? [0] : [];
    options[index] = forced && !left.has('open') ? ringing : [SILENT, ...ringing];
  }

  const free = !sequence && (spaced !== undefined || wanted.includes('any'));
  const must = free ? requiredTones(chord, spaced) : 0;
  const fixed = wanted.reduce((all: number, tone) => (typeof tone === 'number' ? all | tone : all), 0);
  const room =
    spaced === undefined ? wanted.filter((tone) => tone === 'any').length + count(must & fixed) : listed.length;
  const bass = rule.bass && !left.has('bass') ? bit(rule.bass) : undefined;
  if (rule.bass && !left.has('bass') && bass === undefined) return 'bass';
  const top = rule.top && !left.has('top') ? bit(rule.top) : undefined;
  if (rule.top && !left.has('top') && top === undefined) return 'top';
  const reentrant = neck.instrument.tuning.reentrant;
  const symbolBass = reentrant ? undefined : (slash ?? (rule.sparse ? 1 << semitone(chord.root) : undefined));
  return {
    options,
    required: must,
    requiredCount: Math.min(count(must), room),
    bass,
    top,
    symbolBass,
    onlyLowest: foreignBass || undefined,
    spacing: left.has('spacing') ? undefined : rule.spacing,
    spaced: spaced === undefined ? undefined : isListed,
    sequence: sequence as readonly number[] | undefined,
    neighbours: rule.sparse === true,
    mostSilent: rule.mostSilent ?? neck.strings,
    // Where the first string is not the lowest, a barre can have its lowest fret anywhere.
    bassAtLowestFret: rule.bassAtLowestFret === true && !reentrant,
    reach: left.has('reach') ? undefined : rule.reach,
    at: left.has('at') ? undefined : at,
    hand: !left.has('hand'),
  };
}

/** The rule's strings by their place in the rule and in a fret list. */
function listedStrings(rule: ShapeRule, neck: Neck): readonly { place: number; index: number }[] | 'strings' {
  const listed: { place: number; index: number }[] = [];
  for (let place = 0; place < rule.strings.length; place++) {
    const index = indexOfString(rule.strings[place], neck.strings);
    const exists = index >= 0 && index < neck.strings;
    if (!exists && rule.sparse) continue;
    if (!exists || listed.some((each) => each.index === index)) return 'strings';
    listed.push({ place, index });
  }
  return listed.length > 0 ? listed : 'strings';
}

const emptyDemands = (neck: Neck): Demands => ({
  options: Array.from({ length: neck.strings }, () => [SILENT]),
  required: 0,
  requiredCount: 0,
  neighbours: false,
  mostSilent: neck.strings,
  bassAtLowestFret: false,
  hand: true,
});

/** The triad on three strings; on more, as many of the chord's notes as there are strings for. */
function spacedTones(chord: Chord, strings: number): number {
  const triad = chord.tones.filter(({ degree }) => degree.number <= 5);
  const beyond = chord.tones.filter(({ degree }) => degree.number > 5);
  const tones = [...triad, ...beyond].slice(0, Math.max(strings, 1));
  return tones.reduce((all, tone) => all | (1 << semitone(tone.name)), 0);
}

/** What a voicing must sound where the rule leaves tones free: all that the trade never leaves out. */
function requiredTones(chord: Chord, spaced: number | undefined): number {
  if (spaced !== undefined) return spaced;
  return chord.tones.reduce((all, tone) => (tone.optional ? all : all | (1 << semitone(tone.name))), 0);
}

/** Bits set: the number of different tones. */
export function count(tones: number): number {
  let number = 0;
  for (let left = tones; left !== 0; left &= left - 1) number++;
  return number;
}

function fretsOf({ rule, neck }: Asked, index: number, allowed: number, anywhere: boolean): number[] {
  const frets: number[] = [];
  const highest = anywhere ? neck.top[index] : Math.min(rule.highestFret, neck.top[index]);
  for (let fret = anywhere ? Math.min(rule.lowestFret, 1) : rule.lowestFret; fret <= highest; fret++) {
    if (fret > 0 && fret < neck.lowest[index]) continue;
    if ((allowed >> ((((neck.open[index] + fret) % 12) + 12) % 12)) & 1) frets.push(fret);
  }
  return frets;
}
