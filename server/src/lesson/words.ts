/** Sets the words of a section under its melody: a syllable a note, bar by bar. */
import { compare, dividedBy, equal, plus, toNumber, ZERO } from '../util/fraction.ts';
import type { Leaf } from '../syntax/tree.ts';
import type { BarPlan, Cell, Contour } from './lesson.ts';
import type { Source } from './reader.ts';
import type { Syllable, WrittenBar } from './written.ts';

/** Indexes of the notes that take a syllable: every note of a melody but grace and dead notes, and of a tab the top line. */
export function sungNotes(bar: WrittenBar, kind: 'melody' | 'tab'): readonly number[] {
  const sung: number[] = [];
  bar.notes.forEach((note, index) => {
    if (note.grace || note.dead) return;
    if (kind === 'tab') {
      // The thumb has the bass. From the lowest string up, so that the last at one moment is the highest.
      if (note.pluck === 'p') return;
      const before = sung[sung.length - 1];
      if (before !== undefined && equal(bar.notes[before].start, note.start)) sung.pop();
    }
    sung.push(index);
  });
  return sung;
}

/** A syllable, a bar line, or the end of a line, as written. */
type Token =
  | { readonly is: 'syllable'; readonly syllable: Syllable; readonly word: Leaf; readonly barred: boolean }
  | { readonly is: 'bar' }
  | { readonly is: 'line' };

/** The bars with their syllables; what does not fit is said. */
export function setWords(
  source: Source,
  bars: readonly BarPlan[],
  contours: readonly Contour[],
  cells: readonly Cell[],
): readonly BarPlan[] {
  const lines = source.lines('words');
  const tokens = readTokens(source);
  const syllables = tokens.filter((token) => token.is === 'syllable').length;
  if (syllables === 0) return bars;
  const rooms = bars.map((bar) => roomIn(bar, contours, cells));
  const notes = rooms.reduce((sum, room) => sum + room.notes, 0);
  const exact = rooms.every((room) => room.exact);
  const set = bars.map((): Syllable[] => []);
  let at = 0;
  let over: { readonly word: Leaf; readonly bar?: number } | undefined;
  const isFull = (): boolean => at < bars.length && set[at].length >= rooms[at].notes;
  for (const token of tokens) {
    if (token.is === 'bar') {
      at++;
    } else if (token.is === 'line') {
      // A line that bar lines cut begins with a bar of its own.
      while (isFull() && set[at].length > 0) at++;
    } else {
      if (!token.barred) while (isFull()) at++;
      if (at < bars.length && (set[at].length < rooms[at].notes || !rooms[at].exact)) set[at].push(token.syllable);
      else over ??= { word: token.word, ...(token.barred && at < bars.length && { bar: at }) };
    }
  }
  const placed = set.reduce((sum, one) => sum + one.length, 0);
  if (over) {
    const [bar] = over.bar === undefined ? [] : [bars[over.bar]];
    source.report('words-miscounted', source.at(over.word), {
      syllables: `${syllables}`,
      notes: `${over.bar === undefined ? notes : rooms[over.bar].notes}`,
      ...(bar && { bar: `${bar.number}` }),
    });
  } else if (exact && placed < notes) {
    const word = lines[lines.length - 1].keyword;
    source.report('words-miscounted', source.at(word), { syllables: `${syllables}`, notes: `${notes}` });
  }
  return bars.map((bar, i) => (set[i].length > 0 ? { ...bar, words: set[i] } : bar));
}

function readTokens(source: Source): readonly Token[] {
  const tokens: Token[] = [];
  for (const line of source.lines('words')) {
    const barred = line.parts.some((part) => part.label === 'bar-line');
    if (tokens.length > 0) tokens.push({ is: 'line' });
    line.parts.forEach((part, i) => {
      const word = part as Leaf;
      if (part.label === 'bar-line') {
        // The outer ones are there for looks.
        if (i > 0 && i < line.parts.length - 1) tokens.push({ is: 'bar' });
      } else if (part.label === 'comma' || part.label === 'colon') {
        const last = tokens[tokens.length - 1];
        if (last?.is !== 'syllable') return;
        const text = last.syllable.text + word.text;
        tokens[tokens.length - 1] = { ...last, syllable: { ...last.syllable, text } };
      } else if (part.label === 'syllable') {
        for (const syllable of syllablesOf(word.text, tokens)) tokens.push({ is: 'syllable', syllable, word, barred });
      }
    });
    if (barred) tokens.push({ is: 'bar' });
  }
  return tokens;
}

/** `low-tide` is two syllables, joined; `-` alone holds the one before, and keeps it joined to the next. */
function syllablesOf(text: string, before: readonly Token[]): readonly Syllable[] {
  const last = before.filter((token) => token.is === 'syllable').at(-1);
  const parts = text.split(/[-\u2010\u2011]/);
  if (parts.every((part) => part === ''))
    return [{ text: '', joined: last?.is === 'syllable' && last.syllable.joined }];
  return parts.flatMap((part, i) => (part === '' ? [] : [{ text: part, joined: i < parts.length - 1 }]));
}

interface Room {
  readonly notes: number;
  /** False where only the sounding bar knows, and the number is the most there can be. */
  readonly exact: boolean;
}

function roomIn(bar: BarPlan, contours: readonly Contour[], cells: readonly Cell[]): Room {
  if (bar.melody) return { notes: sungNotes(bar.melody, 'melody').length, exact: true };
  if (bar.tab) return { notes: sungNotes(bar.tab, 'tab').length, exact: true };
  const contour = bar.contour === undefined ? undefined : contours[bar.contour];
  if (!contour) return { notes: strokesIn(bar, cells), exact: false };
  let notes = 0;
  for (const chord of bar.chords) {
    if (!chord.chord) continue;
    let start = ZERO;
    for (const { kind, length } of contour.notes) {
      if (compare(start, chord.length) >= 0) break;
      if (kind === 'step' || kind === 'tone') notes++;
      if (length) start = plus(start, length);
    }
  }
  return { notes, exact: contour.notes.every((note) => note.length !== undefined) };
}

/** Where nothing is sung on the guitar itself, the syllables fall on what the right hand does: how often it strikes in a bar. */
function strokesIn({ cell: index, chords, length }: BarPlan, cells: readonly Cell[]): number {
  const cell = index === undefined ? undefined : cells[index];
  if (!cell || cell.length.over === 0) return chords.filter(({ silent }) => !silent).length;
  const times = Math.max(1, Math.round(toNumber(dividedBy(length, cell.length))));
  return times * cell.notes.filter(({ plucks, stroke }) => plucks.length > 0 || stroke !== undefined).length;
}
