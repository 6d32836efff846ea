/** Symbols name shapes: what a string is to the symbols, as against what sounds under a capo or in a tuning lowered as a whole. */
import { midi } from '../theory/note.ts';
import type { Instrument } from './instrument.ts';
import { midiAt } from './instrument.ts';
import { tuningNamed } from './tuning.ts';

/** Tunings whose shapes every player knows, so that the same tuning a little lower is still thought of in those shapes. */
const WELL_KNOWN = ['standard', 'drop-d', 'seven-string', 'eight-string'];
/** Half steps by which a whole tuning may lie lower; what lies lower still, as a baritone does, is an instrument of its own. */
const LOWERED_AT_MOST = 3;

/**
 * Semitones from what a symbol names up to what sounds: the capo's fret, less the half steps by which the whole tuning lies below
 * one that everybody knows. It holds for every string: a string that a partial capo leaves free is to the shapes one that was
 * tuned down by the capo's fret. 0 where symbols name what sounds.
 */
export function shapeShift(instrument: Instrument): number {
  return (instrument.capo?.fret ?? 0) - loweredBy(instrument);
}

function loweredBy(instrument: Instrument): number {
  const { strings } = instrument.tuning;
  for (const name of WELL_KNOWN) {
    const known = tuningNamed(name)?.strings ?? [];
    if (known.length !== strings.length) continue;
    const lower = midi(known[0]) - midi(strings[0]);
    if (lower < 1 || lower > LOWERED_AT_MOST) continue;
    if (known.every((string, index) => midi(string) - midi(strings[index]) === lower)) return lower;
  }
  return 0;
}

/** What the string (player's number) is to the symbols at a written fret, as a MIDI number; NaN for a string that is not there. */
export const shapeMidiAt = (instrument: Instrument, string: number, fret: number): number =>
  midiAt(instrument, string, fret) - shapeShift(instrument);
