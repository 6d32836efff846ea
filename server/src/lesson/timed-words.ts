/** Words of music with the lengths that `each`, fractions and triplets give them: what cells, contours and melodies have in common. */
import { compare, fraction, parseFraction, times, type Fraction } from '../util/fraction.ts';
import { isGroup, leaf, type Group, type Leaf, type Line } from '../syntax/tree.ts';
import type { Source } from './reader.ts';

export const USUAL_LENGTH = fraction(1, 8);
/** Three in the time of two. */
const TRIPLET = fraction(2, 3);
/** The shortest note there is a sign for; shorter ones are slips, and by the thousand a bar nothing keeps up with them. */
const SHORTEST_NOTE = fraction(1, 128);
/** More notes than any picking cell or melody over one chord has. */
const MOST_NOTES = 512;

/** A word of music with its length, before anyone asks what it means. */
export interface TimedWord {
  readonly word: Leaf;
  /** Undefined where neither the line nor the note says a length. */
  readonly length?: Fraction;
  /** The length behind it, as written. */
  readonly own?: Leaf;
  readonly triplet: boolean;
  /** How many bar lines stand before it. */
  readonly bar: number;
  /** The last string named before it, as in `2:`. */
  readonly string?: Leaf;
}

/** What an `each` line says; no length where there is none. */
export interface Each {
  readonly length?: Fraction;
  readonly triplet: boolean;
}

export interface Timing {
  /** How many words are read at most. */
  readonly most?: number;
  /** Whether a word takes time: a grace note counts for nothing in a triplet. */
  readonly takesTime?: (text: string) => boolean;
}

/** The words of the music lines in order; the end of a line ends a bar. */
export function timedWords(
  source: Source,
  lines: readonly Line[],
  each: Each,
  { most = MOST_NOTES, takesTime = () => true }: Timing = {},
): readonly TimedWord[] {
  const words: TimedWord[] = [];
  let bar = 0;
  let string: Leaf | undefined;
  const add = (note: Group, triplet: boolean, whole?: Fraction): void => {
    const word = leaf(note, 'sign');
    if (!word) return;
    const own = leaf(note, 'length');
    let length = own ? readLength(own, source) : each.length;
    if (length && (triplet || (each.triplet && !own))) length = times(length, TRIPLET);
    const inTriplet = triplet || (each.triplet && !own);
    words.push({ word, length: whole ?? length, own, triplet: inTriplet, bar, ...(string && { string }) });
  };
  lines.forEach((line, i) => {
    if (i > 0 && words.length > 0 && words[words.length - 1].bar === bar) bar++;
    for (const part of line.parts) {
      if (!isGroup(part)) {
        if (part.label === 'bar-line' && words.length > 0 && words[words.length - 1].bar === bar) bar++;
        if (part.label === 'string') string = part;
      } else if (part.label === 'note') {
        add(part, false);
      } else if (part.label === 'triplet') {
        const notes = part.parts.filter((one): one is Group => isGroup(one));
        const count = Math.max(1, notes.filter((note) => takesTime(leaf(note, 'sign')?.text ?? '')).length);
        const written = leaf(part, 'length');
        const total = written && readLength(written, source, fraction(count));
        for (const note of notes) add(note, true, total && times(total, fraction(1, count)));
      }
    }
  });
  if (words.length > most) {
    source.report('too-much', source.at(words[most].word), { what: 'notes', limit: `${most}` });
    words.length = most;
  }
  return words;
}

/** A written length, or undefined and a problem; `shares` is how many notes have it together. */
function readLength(word: Leaf, source: Source, shares = fraction(1)): Fraction | undefined {
  const length = parseFraction(word.text);
  if (length && compare(length, times(SHORTEST_NOTE, shares)) >= 0) return length;
  source.report('bad-length', source.at(word), { found: word.text });
  return undefined;
}

export function readEach(source: Source): Each {
  const line = source.line('each');
  const word = leaf(line, 'length');
  const length = word && readLength(word, source);
  return { length, triplet: leaf(line, 'triplet') !== undefined };
}
