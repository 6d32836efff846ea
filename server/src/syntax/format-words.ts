/** The words of a line in their one spelling and order, and the line that they make. */
import { slotsOf, type Pattern } from './patterns.ts';
import type { SlotKind } from './slots.ts';
import { LONGEST_LINE } from './statement-parser.ts';
import { chordModifiers } from './statements.ts';
import { isGroup, type Group, type Leaf, type Line, type Part } from './tree.ts';
import { cutWords, type Word } from './words.ts';

/** A word as it is to be written. */
export interface Piece {
  readonly kind: Word['kind'];
  readonly text: string;
  /** What the word says when it is read again: a title without its quotes. */
  readonly says: string;
}

/**
 * `source` is the statement, from whose start the words and the tree count their offsets; `meant` has the right form of the
 * words, by their offset, that are wrong in nothing but capitals.
 */
export function piecesOf(
  line: Line,
  pattern: Pattern,
  words: readonly Word[],
  source: string,
  meant: ReadonlyMap<number, string>,
): readonly Piece[] {
  const kinds = new Map(slotsOf(pattern).map((slot) => [slot.label, slot.kind]));
  const labels = new Map(leavesOf(line.parts).map((leaf) => [leaf.start, leaf.label]));
  return inOrder(line, words).map((word): Piece => {
    if (word.kind === 'quoted') return { kind: word.kind, text: quoted(word, source), says: word.text };
    const kind = kinds.get(labels.get(word.start) ?? '');
    const text = meant.get(word.start) ?? (kind ? inOneSpelling(word.text, kind) : word.text);
    return { kind: word.kind, text, says: text };
  });
}

const leavesOf = (parts: readonly Part[]): readonly Leaf[] =>
  parts.flatMap((part) => (isGroup(part) ? leavesOf(part.parts) : [part]));

/** The words of a line with the modifiers of each chord in the order of the table. */
function inOrder(line: Line, words: readonly Word[]): readonly Word[] {
  const result = [...words];
  const places = new Map(words.map((word, i) => [word.start, i]));
  for (const chord of line.parts.filter((part): part is Group => isGroup(part) && BEARERS.includes(part.label))) {
    const [symbol, ...modifiers] = chord.parts;
    const sorted = [...modifiers].sort((a, b) => MODIFIERS.indexOf(a.label) - MODIFIERS.indexOf(b.label));
    const written = [symbol, ...sorted].flatMap((part) => {
      const from = places.get(part.start)!;
      let to = from;
      while (to < words.length && words[to].start < part.end) to++;
      return words.slice(from, to);
    });
    result.splice(places.get(chord.start)!, written.length, ...written);
  }
  return result;
}

/** What bears modifiers: a chord, and a `%`. */
const BEARERS = ['chord', 'again'];
const MODIFIERS: readonly (string | undefined)[] =
  chordModifiers.is === 'anyOrder' ? chordModifiers.of.map((one) => ('label' in one ? one.label : undefined)) : [];

/** In straight quotes; what stands in them already stays as it is. */
function quoted(word: Word, source: string): string {
  const raw = source.slice(word.start, word.end);
  if (raw.startsWith('"') && raw.endsWith('"')) return raw;
  return `"${word.text.replace(/["\\]/g, '\\$&')}"`;
}

const MUSICAL: ReadonlySet<SlotKind> = new Set(['chord', 'tonic', 'note', 'bass', 'tone', 'tone or any']);

/**
 * Signs in the one spelling that they have: `♯` as `#`, `♭` as `b`, and hyphens in a list of frets only where a fret has two
 * digits. The words themselves stay the author's: `Gmaj` and `G` are the same chord, said in two ways.
 */
function inOneSpelling(text: string, kind: SlotKind): string {
  if (kind === 'frets') return withoutNeedlessHyphens(text);
  const certain =
    MUSICAL.has(kind) ||
    (kind === 'tuning' && /^\p{L}[#b♯♭]+\d?$/u.test(text)) ||
    (kind === 'step' && /^([+-]?\d+[♯♭]|[♯♭]+\d+)$/.test(text));
  return certain ? text.replaceAll('♯', '#').replaceAll('♭', 'b') : text;
}

/** `x-7-9-9-0-0` as `x79900`, and `X` as `x`. What can be no list, for want of strings, is left. */
function withoutNeedlessHyphens(text: string): string {
  const list = text.replaceAll('X', 'x');
  return /^[x\d](?:-[x\d]){2,11}$/.test(list) ? list.replaceAll('-', '') : list;
}

/** Words with one blank between them; commas, colons and a triplet's brackets stand close. */
export function spaced(pieces: readonly Piece[]): string {
  let written = '';
  let insideTriplet = false;
  for (const [i, { kind, text }] of pieces.entries()) {
    const opening = kind === 'word' && text === 'triplet(';
    const closing: boolean = kind === 'word' && text === ')' && insideTriplet;
    const close = i === 0 || kind === 'comma' || kind === 'colon' || closing || pieces[i - 1].text === 'triplet(';
    written += (close ? '' : ' ') + text;
    insideTriplet = opening || (insideTriplet && !closing);
  }
  return written;
}

/** The line as written, if it says what it is meant to say when it is read again; else the line as it was. */
export function asWritten(written: string, pieces: readonly Piece[], before: string): string {
  if (written.length > LONGEST_LINE) return before;
  const again = cutWords(written, 0).words;
  const same = again.every(({ kind, text }, i) => kind === pieces[i]?.kind && text === pieces[i].says);
  return same && again.length === pieces.length ? written : before;
}
