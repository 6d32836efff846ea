/** One bar of a tab as rows of plain text: names above, strings, and what belongs to them below. */
import { stringCount } from '../fretboard/instrument.ts';
import type { Instrument } from '../fretboard/instrument.ts';
import type { Meter } from '../lesson/lesson.ts';
import type { BarScore, NoteEvent } from '../realise/score.ts';
import { toNumber } from '../util/fraction.ts';
import { chordLabel } from './chord-labels.ts';
import { countWord } from './count.ts';
import { namedFinger, type BarFrame } from './frames.ts';
import { columns } from './graphemes.ts';
import type { Moment } from './moments.ts';
import { momentsOf } from './moments.ts';
import { printable } from './printable.ts';
import { accentSign, HELD_ON, handWord, palmSign, signOf, type TextSign } from './text-sign.ts';

/** The rows of one bar, all of one width in columns; the bar line at its right included. */
export interface TextBar {
  readonly width: number;
  readonly rows: readonly string[];
  /** Which rows hold anything but blanks. */
  readonly filled: readonly boolean[];
}

/** Rows above the strings: ending, bar number, chord, what sounds, fretting fingers. */
export const ABOVE = 5;
/** Rows below them: plucking hand, accents, palm, count, words. */
export const BELOW = 5;

export interface BarToWrite {
  readonly bar: BarScore;
  readonly frame: BarFrame;
  readonly meter: Meter;
  readonly instrument: Instrument;
  /** For each joined note the one that it comes from. */
  readonly from: ReadonlyMap<NoteEvent, NoteEvent>;
}

/** A long note in a section of short ones gets no more columns than this. */
const MOST_COLUMNS = 24;
const LEAD = 1;

/** `scale` is columns for a whole note; no moment gets less than its signs need. */
export function textBar({ bar, frame, meter, instrument, from }: BarToWrite, scale: number): TextBar {
  const strings = stringCount(instrument);
  const moments = momentsOf(bar);
  const signs = moments.map((moment) => signsOf(moment, from));
  // What stands before a fret moves the others of its column, and what belongs to them below, so that first digits line up.
  const befores = signs.map((some) => Math.max(0, ...[...some.values()].map(({ before }) => before.length)));
  const labels = moments.map((moment) => moment.chord && chordLabel(moment.chord));
  const names = labels.map((label) =>
    label ? [printable(label.symbol), label.sounding === undefined ? '' : `sounds ${label.sounding}`] : ['', ''],
  );
  const counts = moments.map((moment) => (moment.events.length > 0 ? countWord(moment.start, bar, meter) : ''));
  const letters = moments.map(handWord);
  // On the string it is a line, as all that rings on.
  if (letters[0] === '' && (bar.tied ?? []).length > 0) letters[0] = HELD_ON;
  const fingers = moments.map((moment) => moment.events.map((event) => namedFinger(frame, event) ?? '').join(''));
  const syllables = moments.map((moment) => moment.events.find((event) => event.syllable)?.syllable);
  const sung = syllables.map((syllable) =>
    syllable?.text ? printable(syllable.text) + (syllable.joined ? '-' : '') : '',
  );
  const widths = moments.map((moment, index) => {
    const tokens = [...signs[index].values()].map(({ rest }) => befores[index] + rest.length);
    const below = befores[index] + Math.max(...[letters, counts, fingers, sung].map((words) => columns(words[index])));
    const least = Math.max(1, below, ...tokens) + 1;
    return Math.max(least, Math.min(MOST_COLUMNS, Math.round(toNumber(moment.length) * scale)));
  });
  // A chord's names must end before the next chord's begin.
  for (let at = 0; at < moments.length; at++) {
    if (!labels[at]) continue;
    const next = labels.findIndex((label, index) => index > at && label);
    const to = next < 0 ? moments.length : next;
    const needed = Math.max(...names[at].map(columns)) + 2;
    const sum = widths.slice(at, to).reduce((a, b) => a + b, 0);
    if (sum < needed) widths[to - 1] += needed - sum;
  }
  const cells = (fill: string, word: (index: number) => string): string =>
    fill.repeat(LEAD) + moments.map((_, index) => padded(word(index), widths[index], fill)).join('');
  // A name may reach over the columns of the moments behind it.
  const overlaid = (word: (index: number) => string): string => {
    let row = '';
    let at = LEAD;
    moments.forEach((_, index) => {
      if (word(index) !== '') row = padded(row, at, ' ') + word(index);
      at += widths[index];
    });
    return row;
  };
  const indented = (words: readonly string[]): string =>
    cells(' ', (index) => (words[index] === '' ? '' : ' '.repeat(befores[index]) + words[index]));
  const onString = (string: number): string =>
    cells(bar.broken && bar.events.length === 0 ? '.' : '-', (index) => {
      const sign = signs[index].get(string);
      return sign ? '-'.repeat(befores[index] - sign.before.length) + sign.before + sign.rest : '';
    });
  const full = LEAD + widths.reduce((a, b) => a + b, 0);
  return framed(
    [
      frame.ending ? `ending ${frame.ending.join(', ')}` : '',
      padded(bar.broken ? `${bar.number} not read` : `${bar.number}`, full, ' '),
      overlaid((index) => names[index][0]),
      overlaid((index) => names[index][1]),
      indented(fingers),
    ],
    Array.from({ length: strings }, (_, place) => onString(place + 1)),
    [
      indented(letters),
      indented(moments.map(accentSign)),
      indented(moments.map(palmSign)),
      indented(counts),
      wordsRow(
        syllables.map((syllable, index) => ({ syllable, word: sung[index] })),
        befores,
        widths,
      ),
    ],
    frame,
  );
}

/** By string. */
function signsOf(moment: Moment, from: ReadonlyMap<NoteEvent, NoteEvent>): ReadonlyMap<number, TextSign> {
  const signs = new Map<number, TextSign>();
  const graces = new Map(moment.graces.map((grace) => [grace.string, grace]));
  for (const event of moment.events) signs.set(event.string, signOf(event, graces.get(event.string), from));
  for (const [string, grace] of graces) {
    if (signs.has(string)) continue;
    const { before, rest } = signOf(grace, undefined, from);
    signs.set(string, { before: `g${before}`, rest });
  }
  return signs;
}

interface Sung {
  readonly syllable: NoteEvent['syllable'];
  readonly word: string;
}

/** Syllables under their notes; a line under the notes that one is held over, or a hyphen where it goes on. */
function wordsRow(sung: readonly Sung[], befores: readonly number[], widths: readonly number[]): string {
  let row = '';
  let at = LEAD;
  sung.forEach(({ syllable, word }, index) => {
    const place = at + befores[index];
    if (syllable?.text === '') row = padded(row, place, syllable.joined ? ' ' : '_') + (syllable.joined ? '-' : '_');
    else if (word !== '') row = padded(row, place, ' ') + word;
    at += widths[index];
  });
  return row;
}

/** All rows made one width, with the signs of repeats around them. */
function framed(
  above: readonly string[],
  strings: readonly string[],
  below: readonly string[],
  { repeatBegins, repeatEnds, times }: BarFrame,
): TextBar {
  const count = times === undefined ? '' : `×${times}`;
  const rows = [...above, ...strings, ...below];
  const [opening, closing] = [repeatBegins ? 1 : 0, repeatEnds ? 1 : 0];
  const names = above.map((row, index) =>
    index === NUMBERS && count !== '' ? columns(row.trimEnd()) + 1 + columns(count) : 0,
  );
  const width = Math.max(...names, ...rows.map(columns));
  const written = rows.map((row, index) => {
    const onString = index >= above.length && index < above.length + strings.length;
    if (onString) return `${':'.repeat(opening)}${padded(row, width, '-')}${':'.repeat(closing)}|`;
    const counted =
      index === NUMBERS && count !== '' ? padded(row.trimEnd(), width - columns(count), ' ') + count : row;
    return `${' '.repeat(opening)}${padded(counted, width + closing, ' ')} `;
  });
  return { width: width + opening + closing + 1, filled: written.map((row) => row.trim() !== ''), rows: written };
}

/** Which of the rows above the strings. */
const NUMBERS = 1;

const padded = (word: string, width: number, fill: string): string =>
  word + fill.repeat(Math.max(0, width - columns(word)));
