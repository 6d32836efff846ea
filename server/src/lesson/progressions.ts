/** Reads `progression` into bars of chords as written; a section gives them key, meter and time. */
import type { Key } from '../theory/key.ts';
import { looksLikeNumeral } from '../theory/numeral.ts';
import { formatKey } from '../theory/key.ts';
import { spanning, type Span } from '../util/span.ts';
import { group, isGroup, leaf, type Group, type Line, type Part } from '../syntax/tree.ts';
import type { ChordBook } from './chord-book.ts';
import type { BarPlace, ChordPlace, ProgressionDefinition } from './lesson.ts';
import { readKey } from './settings.ts';
import type { Source } from './reader.ts';

/** Beyond these a text is no progression for players. */
export const MOST_BARS = 400;
const MOST_CHORDS_IN_BAR = 16;

/** One chord as written; `beats` counts it and the strokes behind it, where the bar has any. */
export interface WrittenChord {
  readonly symbol: string;
  readonly silent: boolean;
  readonly beats: number;
  /** The chord's words, for its modifiers; undefined for `N.C.`. */
  readonly words?: Group;
  readonly place: ChordPlace;
}

/** A bar of chords. */
export interface ChordBar {
  readonly chords: readonly WrittenChord[];
  /** Whether strokes count the beats; otherwise the chords share the bar evenly. */
  readonly counted: boolean;
  readonly broken: boolean;
  readonly span: Span;
}

export interface Progression extends ProgressionDefinition {
  readonly written: readonly ChordBar[];
  /** `in KEY`: what its numerals count from. */
  readonly key?: Key;
  readonly source: Source;
}

export function readProgression(source: Source, lessonKey: Key, book: ChordBook): Progression | undefined {
  const name = leaf(source.tree.head, 'name');
  if (!name) return undefined;
  const definition = source.definition('progression', name);
  const key = readKey(source.tree.head, (span) => source.at(span), source.report);
  const written: ChordBar[] = [];
  for (const line of source.lines('bars')) readChordBars(line, written, source);
  if (written.length > MOST_BARS) {
    source.report('too-much', written[MOST_BARS].span, { what: 'bars', limit: `${MOST_BARS}` });
    written.length = MOST_BARS;
  }
  if (written.length === 0 && !definition.broken) {
    source.report('empty-part', definition.span, { kind: 'progression', name: definition.name });
  }
  for (const bar of written) for (const chord of bar.chords) checkSymbol(chord, key ?? lessonKey, source, book);
  const bars = written.map((bar): BarPlace => ({ span: bar.span, chords: bar.chords.map((chord) => chord.place) }));
  return { ...definition, kind: 'progression', bars, written, ...(key && { key }), source };
}

/** Adds the bars of a line to those that are written before it: `%` and `/` may go on from there. */
export function readChordBars(line: Line, written: ChordBar[], source: Source): void {
  let bar: Part[] = [];
  for (const part of [...line.parts, undefined]) {
    if (part && part.label !== 'bar-line') bar.push(part);
    else if (bar.length > 0) {
      written.push(readBar(bar, written, source));
      bar = [];
    }
  }
}

function readBar(parts: readonly Part[], before: readonly ChordBar[], source: Source): ChordBar {
  const span = source.at(spanning(parts));
  const broken = parts.some((part) => part.label === 'broken');
  const last = before[before.length - 1];
  const repeat = parts.find(({ label }) => label === 'again' || label === 'repeat');
  if (repeat) {
    if (parts.length > 1) {
      source.report('unexpected-word', source.at(parts[1]), { found: '%', expected: 'a bar line', after: '%' });
    } else if (!last) {
      source.report('nothing-to-repeat', source.at(repeat));
    }
    if (!last || parts.length > 1) return { chords: [], counted: false, broken: true, span };
    const again = isGroup(repeat) ? repeat : { ...repeat, parts: [repeat] };
    const place = placeOf(again, again.parts[0], source);
    const chords = last.chords.map((chord) => ({ ...chord, ...playedAgain(chord, again), place }));
    return { ...last, chords, span };
  }
  const chords: WrittenChord[] = [];
  let counted = false;
  for (const part of parts) {
    if (part.label === 'beat') {
      counted = true;
      const held = chords[chords.length - 1] ?? last?.chords[last.chords.length - 1];
      if (!held) source.report('nothing-to-repeat', source.at(part));
      else if (chords.length > 0) chords[chords.length - 1] = { ...held, beats: held.beats + 1 };
      else
        chords.push({
          ...held,
          beats: 1,
          place: { span: source.at(part), symbolSpan: source.at(part), modifiers: {} },
        });
    } else if (part.label === 'no-chord') {
      const at = source.at(part);
      chords.push({ symbol: 'N.C.', silent: true, beats: 1, place: { span: at, symbolSpan: at, modifiers: {} } });
    } else if (part.label === 'chord') {
      // Over a tab a chord is its symbol alone.
      const words = isGroup(part) ? part : { ...part, parts: [part] };
      const symbol = leaf(words, 'chord')!;
      chords.push({ symbol: symbol.text, silent: false, beats: 1, words, place: placeOf(words, symbol, source) });
    }
  }
  if (chords.length > MOST_CHORDS_IN_BAR) {
    source.report('too-much', chords[MOST_CHORDS_IN_BAR].place.span, {
      what: 'chords in a bar',
      limit: `${MOST_CHORDS_IN_BAR}`,
    });
    chords.length = MOST_CHORDS_IN_BAR;
  }
  return { chords, counted, broken: broken || chords.length === 0, span };
}

/** A chord's words with what is said behind the `%` that plays it again. */
function playedAgain({ words }: WrittenChord, { parts: [, ...said] }: Group): Pick<WrittenChord, 'words'> {
  if (!words || said.length === 0) return {};
  const kept = words.parts.filter(({ label }) => !said.some((one) => one.label === label));
  return { words: { ...words, parts: [...kept, ...said] } };
}

function placeOf(part: Group, symbol: Part, source: Source): ChordPlace {
  const modifiers: Record<string, Span> = {};
  for (const one of part.parts) if (one !== symbol) modifiers[one.label] = source.at(one);
  return { span: source.at(part), symbolSpan: source.at(symbol), modifiers };
}

/** Says what is no chord; numerals are tried in the key that the progression or the lesson names. */
export function checkSymbol(chord: WrittenChord, key: Key, source: Source, book: ChordBook): void {
  if (chord.silent || !chord.words || book.chord(chord.symbol, key)) return;
  const at = chord.place.symbolSpan;
  if (looksLikeNumeral(chord.symbol))
    source.report('unknown-numeral', at, { found: chord.symbol, key: formatKey(key) });
  else source.report('unknown-chord', at, { found: chord.symbol });
}

/** The group of a modifier, as `at`, with the words in it. */
export const modifier = (chord: WrittenChord, label: string): Group | undefined => group(chord.words, label);
/** Whether a modifier of one word, `held` or `pushed`, stands behind the chord. */
export const says = (chord: WrittenChord, label: string): boolean => leaf(chord.words, label) !== undefined;
