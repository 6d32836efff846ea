/**
 * Chords that were read before, by their symbols: a lesson says the same few again and again, and what is the same object is
 * also known again further on. Belongs to a session; pure but for being quicker the second time.
 */
import { parseChord, type Chord } from '../theory/chord.ts';
import { formatKey, scaleOver, type Key } from '../theory/key.ts';
import type { NoteName } from '../theory/note.ts';
import { looksLikeNumeral, parseNumeral } from '../theory/numeral.ts';

const MOST_REMEMBERED = 2000;

export class ChordBook {
  private readonly symbols = new Map<string, Chord | undefined>();
  private readonly numerals = new Map<string, Chord | undefined>();
  private readonly scales = new Map<string, readonly NoteName[]>();

  /** A symbol or, counted in `key`, a numeral; undefined for what is neither. */
  chord(written: string, key: Key): Chord | undefined {
    if (!looksLikeNumeral(written)) return remember(this.symbols, written, () => parseChord(written));
    return remember(this.numerals, `${formatKey(key)} ${written}`, () => parseNumeral(written, key));
  }

  scaleOver(key: Key, chord: Chord): readonly NoteName[] {
    return remember(this.scales, `${formatKey(key)} ${chord.symbol}`, () => scaleOver(key, chord));
  }
}

function remember<T>(map: Map<string, T>, key: string, compute: () => T): T {
  const known = map.get(key);
  if (known !== undefined || map.has(key)) return known as T;
  if (map.size >= MOST_REMEMBERED) map.clear();
  const value = compute();
  map.set(key, value);
  return value;
}
