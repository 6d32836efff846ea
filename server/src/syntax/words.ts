/** Cuts one line into words. Knows quotes, brackets and comments; what a word means is decided by its place, elsewhere. */
import type { Span } from '../util/span.ts';

export type WordKind = 'word' | 'quoted' | 'comma' | 'colon' | 'bar';

export interface Word extends Span {
  readonly kind: WordKind;
  /** As written; a quoted word without its quotes and with its escapes undone. */
  readonly text: string;
  /** A quoted word whose closing quote is missing. */
  readonly unclosed?: boolean;
}

export interface CutLine {
  readonly words: readonly Word[];
  /** The comment that ends the line, from its `;` on. */
  readonly comment?: Span;
}

/** White space as teachers' editors produce it: blanks, tabs, no-break spaces, a byte-order mark in mid text. */
export const isBlank = (character: string): boolean => /[\s\u00a0\u2007\u202f\u200b\ufeff]/.test(character);

const OPENING_QUOTES = '"\u201c\u201d\u201e';
const CLOSING_QUOTES = '"\u201c\u201d';

/** `text` is one line without its end; offsets of the result are moved by `offset`. */
export function cutWords(text: string, offset: number): CutLine {
  const words: Word[] = [];
  let at = 0;
  let insideTriplet = false;

  const push = (kind: WordKind, start: number, end: number): void => {
    words.push({ kind, text: text.slice(start, end), start: offset + start, end: offset + end });
  };

  while (at < text.length) {
    const character = text[at];
    if (isBlank(character)) {
      at++;
    } else if (character === ';' && (at === 0 || isBlank(text[at - 1]))) {
      return { words, comment: { start: offset + at, end: offset + text.trimEnd().length } };
    } else if (OPENING_QUOTES.includes(character)) {
      const quoted = readQuoted(text, at);
      words.push({ ...quoted.word, start: offset + at, end: offset + quoted.end });
      at = quoted.end;
    } else if (character === '|') {
      push('bar', at, at + 1);
      at++;
    } else if (character === ',') {
      push('comma', at, at + 1);
      at++;
    } else if (character === ':') {
      push('colon', at, at + 1);
      at++;
    } else if (character === ')' && insideTriplet) {
      push('word', at, at + 1);
      insideTriplet = false;
      at++;
    } else {
      const end = endOfWord(text, at, insideTriplet);
      push('word', at, end);
      if (text.slice(at, end) === 'triplet(') insideTriplet = true;
      at = end;
    }
  }
  return { words };
}

function readQuoted(text: string, start: number): { word: Omit<Word, 'start' | 'end'>; end: number } {
  let value = '';
  for (let at = start + 1; at < text.length; at++) {
    const character = text[at];
    if (character === '\\' && at + 1 < text.length && (text[at + 1] === '"' || text[at + 1] === '\\')) {
      value += text[++at];
    } else if (CLOSING_QUOTES.includes(character)) {
      return { word: { kind: 'quoted', text: value }, end: at + 1 };
    } else {
      value += character;
    }
  }
  return { word: { kind: 'quoted', text: value.trimEnd(), unclosed: true }, end: text.trimEnd().length };
}

/**
 * A word runs to white space, a bar line, a comma or a colon. Brackets that open inside a word are closed inside it, blanks
 * and commas and all, so that `C7(b9, #11)` and `down(4 to 1)` are one word; `triplet(` alone ends at its bracket, since
 * what it holds are words of the line.
 */
function endOfWord(text: string, start: number, insideTriplet: boolean): number {
  let at = start;
  while (at < text.length) {
    const character = text[at];
    if (isBlank(character) || character === '|' || character === ',' || character === ':') break;
    if (character === ')' && insideTriplet) break;
    if (character === '(') {
      if (text.slice(start, at) === 'triplet') return at + 1;
      const close = text.indexOf(')', at);
      const bar = text.indexOf('|', at);
      if (close >= 0 && (bar < 0 || close < bar)) {
        at = close + 1;
        continue;
      }
    }
    at++;
  }
  return at;
}
