/** What may follow in a line: the ways of saying it that fit what is typed so far, and the word that the cursor is at. */
import type { Analysis } from '../analyze.ts';
import { match, slotsOf, wordsOf, type Match, type Pattern } from '../syntax/patterns.ts';
import { everyWay, writtenWay, type Way } from '../syntax/signature.ts';
import { slotKinds, type SlotForm } from '../syntax/slots.ts';
import type { Word } from '../syntax/words.ts';
import type { Span } from '../util/span.ts';
import { lineAt, typedAt } from './typed.ts';

export interface SignatureHelp {
  /** Those that fit, in the order of the table; never empty. */
  readonly signatures: readonly Signature[];
  /** What the line is for. */
  readonly says: string;
}

export interface Signature {
  readonly text: string;
  /** What stands behind one another in it, in order. */
  readonly parameters: readonly Parameter[];
  /** The parameter that the cursor is at. */
  readonly active: number;
}

export interface Parameter {
  /** Its place in the signature's text. */
  readonly span: Span;
  /** What its words in capitals stand for; empty for a word of the language. */
  readonly says: string;
}

/**
 * `asked` is false where an editor asks by itself: then there is help only while something must follow, and none in rows of signs,
 * which would be hidden by it. Undefined where nothing may follow, and where the line has a slip.
 */
export function signatureAt(analysis: Analysis, offset: number, asked = true): SignatureHelp | undefined {
  const typed = typedAt(analysis, offset);
  const known = typed && lineAt(analysis, typed);
  if (!typed || !known) return undefined;
  const { form, line, from } = known;
  const { words, open } = typed;
  const pattern = line?.pattern ?? form.head;
  const keyword = line ? line.keyword : form.keyword;
  const bars = line?.bars ?? false;
  const chord = bars ? chordAt(pattern, words, from) : undefined;
  if (!asked && !chord && (bars || mayEnd(pattern, words, from))) return undefined;
  if (!asked && chord && mayEnd(chord.pattern, words, chord.from)) return undefined;
  const signatures = chord
    ? fitting(everyWay(chord.pattern), undefined, words, chord.from, open)
    : fitting(everyWay(pattern), keyword, words, from, open);
  return signatures.length === 0 ? undefined : { signatures, says: (line ?? form).says };
}

const mayEnd = (pattern: Pattern, words: readonly Word[], from: number): boolean => {
  const { matched, read } = match(pattern, words, from);
  return matched && read === words.length;
};

/** The chord, or the `%`, with what belongs to it that the words end in, where such may follow it. */
function chordAt(
  pattern: Pattern,
  words: readonly Word[],
  from: number,
): { readonly pattern: Pattern; readonly from: number } | undefined {
  const bearers = pattern.is === 'repeat' && pattern.of.is === 'either' ? pattern.of.of.filter(hasAnyOrder) : [];
  if (bearers.length === 0) return undefined;
  let start = words.reduce((behind, { kind }, i) => (i >= from && kind === 'bar' ? i + 1 : behind), from);
  for (let at = start; at < words.length;) {
    start = at;
    const { matched, read, furthest } = match(pattern.is === 'repeat' ? pattern.of : pattern, words, at);
    if (furthest === words.length || !matched || read === at) break;
    at = read;
  }
  if (start === words.length) return undefined;
  const bearer = bearers.find((one) => match(one, words, start).furthest === words.length);
  return bearer && { pattern: bearer, from: start };
}

const hasAnyOrder = (pattern: Pattern): boolean =>
  pattern.is === 'anyOrder' ||
  (pattern.is === 'group' && hasAnyOrder(pattern.of)) ||
  (pattern.is === 'sequence' && pattern.of.some(hasAnyOrder));

function fitting(
  ways: readonly Way[],
  keyword: string | undefined,
  words: readonly Word[],
  from: number,
  open: Word | undefined,
): readonly Signature[] {
  const found = ways.flatMap((way): readonly Found[] => {
    const pieces = piecesOf(way);
    const next = nextPieces(pieces, words, from);
    if (next.length === 0) return [];
    // The word at hand tells which of several is meant.
    const taken = open && next.find(({ piece, at }) => takes(pieces[piece].pattern, words, open, at));
    const written = writtenWay(
      keyword,
      pieces.map(({ pattern }) => pattern),
    );
    const parameters = written.pieces.map((span, i) => ({ span, says: saysOf(pieces[i].pattern) }));
    const { piece } = taken ?? next[0];
    const known = pieces.slice(0, piece).flatMap(({ pattern }) => wordsOf(pattern));
    const named = words.slice(from).filter(({ text }) => known.includes(text)).length;
    return [{ signature: { text: written.text, parameters, active: piece }, takes: taken !== undefined, named }];
  });
  // A section may be called `reach`; where a way has that word itself, the way is meant.
  const most = Math.max(...found.map(({ named }) => named));
  const likely = found.filter(({ named }) => named === most);
  // A whole word would narrow the ways down, half a word only where it fits some of them.
  const taking = likely.filter((one) => one.takes);
  return (taking.length > 0 ? taking : likely).map(({ signature }) => signature);
}

interface Found {
  readonly signature: Signature;
  /** Whether the word at hand fits. */
  readonly takes: boolean;
  /** How many of the words are the way's own. */
  readonly named: number;
}

/** A piece of a way; those of one `order` stand in any order, each at most once. */
interface PieceOfWay {
  readonly pattern: Pattern;
  readonly order?: number;
}

const piecesOf = (way: Way): readonly PieceOfWay[] =>
  way.flatMap((pattern, order): readonly PieceOfWay[] =>
    pattern.is === 'anyOrder'
      ? pattern.of.map((one) => ({ pattern: { is: 'optional', of: one }, order }))
      : [{ pattern }],
  );

/** The pieces that the word behind the last one may belong to, and the word with which each begins; none for a way that doesn't fit. */
function nextPieces(
  pieces: readonly PieceOfWay[],
  words: readonly Word[],
  from: number,
): readonly { readonly piece: number; readonly at: number }[] {
  const next: { readonly piece: number; readonly at: number }[] = [];
  const left = new Set(pieces.keys());
  let at = from;
  for (const piece of pieces.keys()) {
    const { order } = pieces[piece];
    const among = order === undefined ? [piece] : [...left].filter((one) => pieces[one].order === order);
    // In any order: whichever takes the words goes first.
    const first = among.find((one) => goesOn(match(pieces[one].pattern, words, at), at)) ?? among[0];
    if (first === undefined) continue;
    const { matched, read, furthest, expected } = match(pieces[first].pattern, words, at);
    if (furthest === words.length && expected.length > 0) {
      next.push({ piece: first, at });
      // A word that only this piece could go on from is no other's.
      if (at < words.length && read < words.length) return next;
    }
    if (!matched) return furthest === words.length ? next : [];
    left.delete(first);
    at = read;
  }
  return at === words.length ? next : [];
}

const goesOn = ({ read, furthest }: Match, at: number): boolean => read > at || furthest > at;

/** Whether the word at hand, as far as it is written, is what the piece goes on with. */
function takes(pattern: Pattern, words: readonly Word[], open: Word, at: number): boolean {
  const { read, furthest } = match(pattern, [...words, open], at);
  return read > words.length || furthest > words.length;
}

function saysOf(pattern: Pattern): string {
  const kinds = [...new Set(slotsOf(pattern).map(({ kind }) => kind))];
  return kinds
    .map((kind) => {
      const { says, example }: SlotForm = slotKinds[kind];
      return `${says}, ${example}`;
    })
    .join('; ');
}
