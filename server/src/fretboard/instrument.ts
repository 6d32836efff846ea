/** One instrument as it is set up to be played: tuning, capo and neck, with pitches in semitones and places in millimetres. */
import { midi } from '../theory/note.ts';
import { HIGHEST_FRET, fingertipPart, wirePart } from './fret-positions.ts';
import type { Tuning } from './tuning.ts';

export interface Capo {
  /** The fret behind which it lies, from 1. */
  readonly fret: number;
  /** The strings that it covers in the player's numbers, 1 the highest; absent where it covers all. */
  readonly strings?: readonly number[];
}

export interface Instrument {
  readonly tuning: Tuning;
  readonly capo?: Capo;
  /** How many frets the neck has. */
  readonly frets: number;
  /** From nut to bridge in mm. */
  readonly scaleLength: number;
}

/** Usual necks. A ukulele's is known by its length: nothing longer than half a metre is one. Set by judgement. */
const USUAL_FRETS = 20;
const UKULELE_FRETS = 15;
const LONGEST_UKULELE = 500;

/** Between neighbouring strings, middle to middle, in mm: at the nut and at the bridge. Set by judgement, for a guitar. */
const SPACING_AT_NUT = 7.2;
const SPACING_AT_BRIDGE = 10.4;

/** An instrument in this tuning with the usual neck, where nothing else is said of it. */
export function instrumentWith(tuning: Tuning, said: Partial<Omit<Instrument, 'tuning'>> = {}): Instrument {
  const scaleLength = said.scaleLength ?? tuning.scaleLength;
  const frets = said.frets ?? (tuning.scaleLength < LONGEST_UKULELE ? UKULELE_FRETS : USUAL_FRETS);
  return said.capo ? { tuning, capo: said.capo, frets, scaleLength } : { tuning, frets, scaleLength };
}

export const stringCount = (instrument: Instrument): number => instrument.tuning.strings.length;

/** The fret at which the capo stops this string (player's number); 0 where none lies on it. */
export function capoOn(instrument: Instrument, string: number): number {
  const { capo } = instrument;
  if (!capo || (capo.strings && !capo.strings.includes(string))) return 0;
  return capo.fret;
}

/** The fret of a capo that lies on every string and so is a nut for the hand; 0 for none and for one that leaves a string free. */
export function nutFret(instrument: Instrument): number {
  const count = stringCount(instrument);
  for (let string = 1; string <= count; string++) if (capoOn(instrument, string) === 0) return 0;
  return instrument.capo?.fret ?? 0;
}

/** The fret counted from the nut that `fret`, as written, lies at: written frets count from the capo on the strings it covers. */
export const neckFret = (instrument: Instrument, string: number, fret: number): number =>
  capoOn(instrument, string) + fret;

/** What the string (player's number, 1 the highest) sounds at its written fret 0, as a MIDI number. */
export const openMidi = (instrument: Instrument, string: number): number => midiAt(instrument, string, 0);

/** What the string sounds at a written fret, as a MIDI number; NaN for a string that the instrument does not have. */
export function midiAt(instrument: Instrument, string: number, fret: number): number {
  const open = instrument.tuning.strings[stringCount(instrument) - string];
  return open ? midi(open) + neckFret(instrument, string, fret) : NaN;
}

/** The highest written fret on this string; 0 where the capo leaves none. */
export const topFret = (instrument: Instrument, string: number): number =>
  Math.max(0, Math.min(instrument.frets, HIGHEST_FRET) - capoOn(instrument, string));

/** Where the fingertip lies that stops a written fret, in mm from the nut; for fret 0 the place of the nut or the capo's wire. */
export function millimetresAt(instrument: Instrument, string: number, fret: number): number {
  const onNeck = neckFret(instrument, string, fret);
  return instrument.scaleLength * (fret <= 0 ? wirePart(onNeck) : fingertipPart(onNeck));
}

/** From one string to its neighbour, in mm, at a place given in mm from the nut. */
export const stringSpacingAt = (instrument: Instrument, millimetres: number): number =>
  SPACING_AT_NUT + (SPACING_AT_BRIDGE - SPACING_AT_NUT) * (millimetres / instrument.scaleLength);
