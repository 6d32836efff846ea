/** A lesson's tab as plain text: for terminals, for files, for whoever reads with a screen reader line by line. */
import type { Instrument } from '../fretboard/instrument.ts';
import type { Lesson, Section, Settings } from '../lesson/lesson.ts';
import type { BarScore, Score, SectionScore } from '../realise/score.ts';
import { formatNoteName } from '../theory/note.ts';
import { toNumber } from '../util/fraction.ts';
import type { Finding } from '../util/finding.ts';
import { factsOf, sectionFacts } from './facts.ts';
import { framesOf, PLAIN_FRAME } from './frames.ts';
import { columns } from './graphemes.ts';
import { joinedFrom } from './links.ts';
import { momentsOf } from './moments.ts';
import { printable } from './printable.ts';
import { ABOVE, BELOW, textBar, type TextBar } from './text-bar.ts';
import { textShapes } from './text-diagram.ts';
import { legend } from './text-sign.ts';
import { joinedWithin, wrapped } from './wrapped.ts';

export const USUAL_WIDTH = 80;

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
  const plans = lesson.sections.map((section) => section.plan);
  const signs = legend(score, {
    namedFingers: plans.some((plan) => framesOf(plan).some((frame) => frame.fingers.size > 0)),
    repeats: plans.some((plan) => plan.times > 1),
  });
  if (signs.length > 0) parts.push(joinedWithin(signs, width).join('\n'));
  return `${parts.join('\n\n')}\n`;
}

function headOf(lesson: Lesson, score: Score, findings: readonly Finding[], width: number): string {
  const facts = factsOf(lesson, score, findings).map((fact) => fact.text);
  const title = wrapped(printable(lesson.title ?? 'Untitled lesson'), width);
  return [...title, ...joinedWithin(facts, width)].join('\n');
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
  const heading = joinedWithin([title, ...said, ...sectionFacts(section.plan, lesson.settings)], width).join('\n');
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
  const { plan } = section;
  const frames = new Map(framesOf(plan).map((frame, index) => [plan.bars[index].number, frame]));
  const from = joinedFrom(score.bars);
  const bars = score.bars.map((bar) => {
    const frame = frames.get(bar.number) ?? PLAIN_FRAME;
    const written = { bar, frame, meter: plan.meter, instrument: settings.instrument, from };
    const steps = STEPS.map((step) => () => textBar(written, step / unit));
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
  const labels = [...Array<string>(ABOVE).fill(''), ...strings, ...Array<string>(BELOW).fill('')];
  const width = Math.max(...labels.map(columns));
  return labels.map((label) => `${label.padEnd(width)} `);
}

function systemText(bars: readonly TextBar[], labels: readonly string[]): string {
  const strings = labels.length - ABOVE - BELOW;
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
