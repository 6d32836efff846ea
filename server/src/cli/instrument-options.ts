/** The options that name an instrument, a hand and a key, for the commands that need no lesson. */
import { instrumentWith, type Instrument } from '../fretboard/instrument.ts';
import { tuningNamed, tuningOf, type Tuning } from '../fretboard/tuning.ts';
import type { HandSize } from '../hand/fingering.ts';
import { parseKey, type Key } from '../theory/key.ts';
import { parsePitch, type Pitch } from '../theory/note.ts';
import { oneOf, wholeNumber, WrongUse } from './wrong-use.ts';

export const instrumentOptions = {
  tuning: { type: 'string', default: 'standard' },
  capo: { type: 'string' },
  hand: { type: 'string', default: 'medium' },
  key: { type: 'string' },
} as const;

export const INSTRUMENT_HELP = `  --tuning     a tuning's name (drop-d) or its notes from low to high ("D2 A2 D3 G3 A3 D4")
  --capo       the fret it lies at; frets count from it
  --hand       small, medium or large: the hand that stretches are judged for
  --key        decides between names that are equally right, and spells them ("E minor")`;

/** A neck may have this many; the engine's table of frets goes on. */
const HIGHEST_CAPO = 12;

export function readInstrument(tuning: string, capo: string | undefined): Instrument {
  const fret = capo === undefined ? 0 : wholeNumber(capo, '--capo', 0, HIGHEST_CAPO);
  return instrumentWith(readTuning(tuning), fret > 0 ? { capo: { fret } } : {});
}

export const readHand = (text: string): HandSize => oneOf(text, '--hand', ['small', 'medium', 'large']);

export function readKey(text: string | undefined): Key | undefined {
  if (text === undefined) return undefined;
  const key = parseKey(text);
  if (!key) throw new WrongUse(`--key takes a key such as "E minor", not "${text}".`);
  return key;
}

function readTuning(text: string): Tuning {
  const named = tuningNamed(text.trim().toLowerCase());
  if (named) return named;
  const notes = text
    .trim()
    .split(/[\s,]+/)
    .map(parsePitch);
  const tuning = notes.every((note): note is Pitch => note !== undefined) ? tuningOf(notes) : undefined;
  if (tuning) return tuning;
  throw new WrongUse(
    `--tuning takes a name such as drop-d or 3 to 12 notes such as "D2 A2 D3 G3 A3 D4", not "${text}".`,
  );
}
