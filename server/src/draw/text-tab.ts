/** A lesson's tab as plain text: for terminals, for files, for whoever reads with a screen reader line by line. */
import { stringCount } from '../fretboard/instrument.ts';
import type { Instrument } from '../fretboard/instrument.ts';
import type { Lesson, Section, Settings } from '../lesson/lesson.ts';
import type { BarScore, NoteEvent, Score, SectionScore } from '../realise/score.ts';
import { formatNoteName } from '../theory/note.ts';
import { toNumber } from '../util/fraction.ts';
import type { Finding } from '../util/finding.ts';
import { chordLabel } from './chord-labels.ts';
import { countWord } from './count.ts';
import { factsOf, sectionFacts } from './facts.ts';
import { columns } from './graphemes.ts';
import type { Moment } from './moments.ts';
import { isAccented, momentsOf, pluckingFingers, strokeOf } from './moments.ts';
import { printable } from './printable.ts';
import { textShapes } from './text-diagram.ts';

export const USUAL_WIDTH = 80;

const STROKE_SIGNS = { down: '↓', up: '↑', roll: '~', mute: 'x' } as const;

/** The rows of one bar, all of one width in columns; the bar line at its right included. */
interface TextBar {
  readonly width: number;
  readonly rows: readonly string[];
  /** Which rows hold anything but blanks. */
  readonly filled: readonly boolean[];
}

/** Rows above the strings: bar number, chord, what sounds. Below them: letters, accents, count. */
const ABOVE = 3;

/** Bars of a section, as tab or as the shapes that they use. */
export interface TextMusic {
  /** Index in the lesson's sections. */
  readonly section: number;
  /** Undefined: all of it. */
  readonly bars?: { readonly first: number; readonly last: number };
  readonly as: 'tab' | 'shapes';
}

/** What stands below the head, from top to bottom: words that are written already, and music. */
export type TextPart = string | TextMusic;

/**
 * The whole lesson: head, then every section, or the parts that are asked for. `width` in columns; a bar that needs more gets a
 * line of its own.
 */
export function textTab(
  lesson: Lesson,
  score: Score,
  findings: readonly Finding[],
  width = USUAL_WIDTH,
  wanted: readonly TextPart[] = lesson.sections.map((_, section): TextMusic => ({ section, as: 'tab' })),
): string {
  const parts = [headOf(lesson, score, findings, width)];
  for (const part of wanted) {
    const written = typeof part === 'string' ? part : musicText(part, lesson, score, width);
    if (written !== '') parts.push(written);
  }
  const signs = legend(score);
  if (signs.length > 0) parts.push(joinedWithin(signs, width));
  return `${parts.join('\n\n')}\n`;
}

function headOf(lesson: Lesson, score: Score, findings: readonly Finding[], width: number): string {
  const facts = factsOf(lesson, score, findings).map((fact) => fact.text);
  return `${printable(lesson.title ?? 'Untitled lesson')}\n${joinedWithin(facts, width)}`;
}

/** The parts with dots between them, broken so that no line is longer than `width` columns where that is possible. */
function joinedWithin(parts: readonly string[], width: number): string {
  const lines: string[] = [];
  for (const part of parts) {
    const longer = lines.length === 0 ? undefined : `${lines[lines.length - 1]} · ${part}`;
    if (longer === undefined || columns(longer) > width) lines.push(part);
    else lines[lines.length - 1] = longer;
  }
  return lines.join('\n');
}

function musicText({ section: index, bars, as }: TextMusic, lesson: Lesson, score: Score, width: number): string {
  const section = lesson.sections[index];
  const whole = score.sections[index];
  if (!whole || whole.bars.length === 0) return '';
  const played = bars
    ? { ...whole, bars: whole.bars.filter(({ number }) => bars.first <= number && number <= bars.last) }
    : whole;
  const said = bars ? [bars.first === bars.last ? `bar ${bars.first}` : `bars ${bars.first} to ${bars.last}`] : [];
  const title = printable(section.title ?? section.name);
  const heading = [title, ...said, ...sectionFacts(section.plan, lesson.settings)].join(' · ');
  if (as === 'tab') return sectionText(heading, section, played, lesson.settings, width);
  return `${heading}\n\n${textShapes(played, lesson.settings.instrument, width)}`.trimEnd();
}

function sectionText(
  heading: string,
  section: Section,
  score: SectionScore,
  settings: Settings,
  width: number,
): string {
  const unit = shortestUsual(score.bars);
  const labels = rowLabels(settings.instrument);
  const room = width - columns(labels[0]) - 1;
  const bars = score.bars.map((bar) => {
    const steps = STEPS.map((step) => () => textBar(bar, section, settings.instrument, step / unit));
    return steps.map((make) => make()).find((made) => made.width <= room) ?? steps[steps.length - 1]();
  });
  const systems = inSystems(bars, room).map((system) => systemText(system, labels));
  return [heading, ...systems].join('\n\n');
}

/** Columns for the usual short note; the first that lets a bar fit its line is taken. */
const STEPS = [3, 2, 0] as const;

/** Bars by the line: where not all fit on one, in eights, fours and twos, as music is read, or in threes that come out even. */
function inSystems(bars: readonly TextBar[], room: number): readonly (readonly TextBar[])[] {
  const systems: TextBar[][] = [];
  for (let from = 0; from < bars.length;) {
    let fitting = 0;
    let used = 0;
    while (from + fitting < bars.length && used + bars[from + fitting].width <= room) {
      used += bars[from + fitting].width;
      fitting++;
    }
    const left = bars.length - from;
    if (fitting < left && !(fitting === 3 && left % 3 === 0))
      fitting = [8, 4, 2].find((count) => count <= fitting) ?? 1;
    systems.push(bars.slice(from, from + fitting));
    from += fitting;
  }
  return systems;
}

/** The names of the rows, padded to one width, strings by their notes. */
function rowLabels(instrument: Instrument): readonly string[] {
  const strings = [...instrument.tuning.strings].reverse().map(formatNoteName);
  const labels = ['', '', '', ...strings, '', '', ''];
  const width = Math.max(...labels.map(columns));
  return labels.map((label) => `${label.padEnd(width)} `);
}

function systemText(bars: readonly TextBar[], labels: readonly string[]): string {
  const strings = labels.length - 2 * ABOVE;
  const lines = labels.flatMap((label, row) => {
    const onString = row >= ABOVE && row < ABOVE + strings;
    if (!onString && !bars.some((bar) => bar.filled[row])) return [];
    return [`${label}${onString ? '|' : ' '}${bars.map((bar) => bar.rows[row]).join('')}`.trimEnd()];
  });
  return lines.join('\n');
}

/** The length of the usual short note: the shortest that a good part of the notes have. In whole notes. */
function shortestUsual(bars: readonly BarScore[]): number {
  const lengths = bars
    .flatMap((bar) => momentsOf(bar).filter((moment) => moment.events.length > 0))
    .map((moment) => toNumber(moment.length))
    .sort((a, b) => a - b);
  return Math.min(lengths[Math.floor(lengths.length * 0.2)] ?? 0.25, 0.25);
}

/** A long note in a section of short ones gets no more columns than this. */
const MOST_COLUMNS = 24;

/** `scale` is columns for a whole note; no moment gets less than its signs need. */
function textBar(bar: BarScore, section: Section, instrument: Instrument, scale: number): TextBar {
  const strings = stringCount(instrument);
  const moments = momentsOf(bar);
  const meter = section.plan.meter;
  const sides = moments.map((moment) => moment.events.some((event) => event.voice === 'melody'));
  const labels = moments.map((moment) => moment.chord && chordLabel(moment.chord));
  const names = labels.map((label) =>
    label ? [printable(label.symbol), label.sounding === undefined ? '' : `sounds ${label.sounding}`] : ['', ''],
  );
  const counts = moments.map((moment) => (moment.events.length > 0 ? countWord(moment.start, bar, meter) : ''));
  const letters = moments.map(handWord);
  const widths = moments.map((moment, index) => {
    const tokens = moment.events.map((event) => fretWord(event, sides[index]).length);
    const below = Math.max(letters[index].length, counts[index].length) + (sides[index] ? 1 : 0);
    const least = Math.max(1, below, ...tokens) + 1;
    return Math.max(least, Math.min(MOST_COLUMNS, Math.round(toNumber(moment.length) * scale)));
  });
  // A chord's names must end before the next chord's begin.
  for (let from = 0; from < moments.length; from++) {
    if (!labels[from]) continue;
    const next = labels.findIndex((label, index) => index > from && label);
    const to = next < 0 ? moments.length : next;
    const needed = Math.max(...names[from].map(columns)) + 2;
    const sum = widths.slice(from, to).reduce((a, b) => a + b, 0);
    if (sum < needed) widths[to - 1] += needed - sum;
  }
  const lead = 1;
  const cells = (fill: string, word: (index: number) => string): string =>
    fill.repeat(lead) + moments.map((_, index) => padded(word(index), widths[index], fill)).join('');
  // A name may reach over the columns of the moments behind it.
  const overlaid = (word: (index: number) => string): string => {
    let row = '';
    let at = lead;
    moments.forEach((_, index) => {
      if (word(index) !== '') row = padded(row, at, ' ') + word(index);
      at += widths[index];
    });
    return row;
  };
  const indented = (index: number, word: string): string => (word === '' || !sides[index] ? word : ` ${word}`);
  const rows = [
    padded(bar.broken ? `${bar.number} not read` : `${bar.number}`, lead + widths.reduce((a, b) => a + b, 0), ' '),
    overlaid((index) => names[index][0]),
    overlaid((index) => names[index][1]),
    ...Array.from({ length: strings }, (_, place) =>
      cells(bar.broken && bar.events.length === 0 ? '.' : '-', (index) => {
        const event = moments[index].events.find((each) => each.string === place + 1);
        return event ? fretWord(event, sides[index]) : '';
      }),
    ),
    cells(' ', (index) => indented(index, letters[index])),
    cells(' ', (index) => indented(index, isAccented(moments[index]) ? '>' : '')),
    cells(' ', (index) => indented(index, counts[index])),
  ];
  const width = Math.max(...rows.map(columns));
  return {
    width: width + 1,
    filled: rows.map((row) => row.trim() !== ''),
    rows: rows.map((row, index) => {
      const onString = index >= ABOVE && index < ABOVE + strings;
      return padded(row, width, onString ? '-' : ' ') + (onString ? '|' : ' ');
    }),
  };
}

const padded = (word: string, width: number, fill: string): string =>
  word + fill.repeat(Math.max(0, width - columns(word)));

/** A melody's number stands in square brackets; the others of its column are moved by one so that first digits line up. */
function fretWord(event: NoteEvent, beside: boolean): string {
  const fret = event.stroke === 'mute' ? 'x' : `${event.fret}`;
  // Quotes, since brackets of every kind are signs for how a note is played.
  if (event.voice === 'melody') return `'${fret}'`;
  return beside ? `-${fret}` : fret;
}

function handWord(moment: Moment): string {
  if (moment.rest) return 'r';
  const stroke = strokeOf(moment);
  return stroke === undefined ? pluckingFingers(moment).join('') : STROKE_SIGNS[stroke];
}

/** Explains the signs that this lesson's tab uses, and no others. */
function legend(score: Score): readonly string[] {
  const events = score.sections.flatMap((section) => section.bars.flatMap((bar) => bar.events));
  const rests = score.sections.some((section) => section.bars.some((bar) => bar.rests.length > 0));
  const strokes = new Set(events.map((event) => event.stroke));
  const fingers = new Set(events.map((event) => event.pluck));
  return [
    events.some((event) => event.voice === 'melody') ? "'5' melody" : '',
    ...(['p thumb', 'i index', 'm middle', 'a ring finger', 'c little finger'] as const).map((word) =>
      fingers.has(word[0] as NoteEvent['pluck']) ? word : '',
    ),
    [...fingers].filter((finger) => finger).length > 1 ? 'letters together: plucked together' : '',
    strokes.has('down') ? '↓ strum down' : '',
    strokes.has('up') ? '↑ strum up' : '',
    strokes.has('roll') ? '~ roll' : '',
    strokes.has('mute') ? 'x muted stroke' : '',
    events.some((event) => event.accent) ? '> accent' : '',
    rests ? 'r rest' : '',
  ].filter((word) => word !== '');
}
