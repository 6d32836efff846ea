/** From a lesson and its score to what is heard, in seconds: repeats played out, swung, strings in turn, and each note's place. */
import type { WorkedOut } from './worked-out.ts';
import { stringCount } from '../fretboard/instrument.ts';
import type { Section } from '../lesson/lesson.ts';
import { playedOrder } from '../lesson/played-order.ts';
import type { BarScore, NoteEvent } from '../realise/score.ts';
import { swungAt } from '../realise/swing.ts';
import { secondsOfWhole } from '../realise/timeline.ts';
import type { SoundBar, SoundBeat, SoundNote, SoundTimeline } from '../sound/timeline.ts';
import { midi } from '../theory/note.ts';
import { compare, dividedBy, fraction, minus, plus, times, toNumber, ZERO, type Fraction } from '../util/fraction.ts';
import { soundNote, writtenAt } from './sounding-note.ts';

export interface SoundingOptions {
  /** Index of the one section that is played; undefined: all of them, in the order of the form. */
  readonly section?: number;
  /** The bars of that section that are played, each once, in the order written; undefined: all, with their repeats. */
  readonly bars?: { readonly first: number; readonly last: number };
  /** The tempo of what is played first, in its own beats a minute; what comes later keeps its proportion to that. */
  readonly perMinute?: number;
}

export interface Sounding extends SoundTimeline {
  /** True where it would have been longer than {@link MOST_SECONDS} or had more notes than {@link MOST_NOTES}: the rest is left out. */
  readonly isCut: boolean;
}

/** What nobody would listen to in one go; it keeps a lesson of endless repeats within bounds. */
export const MOST_SECONDS = 3600;
export const MOST_NOTES = 100_000;

/** Before a first note that grace notes lead to, in seconds. */
const GRACE_ROOM = 0.25;
/** Fewer beats than these are too few to find the tempo in. */
const FEWEST_COUNTED = 3;

/** A bar where it is played. */
interface Placed {
  readonly section: number;
  readonly bar: number;
  /** In seconds from the start, and how long a whole note lasts in it. */
  readonly at: number;
  readonly whole: number;
  /** In whole notes from the start of the section as written. */
  readonly written: Fraction;
  readonly length: Fraction;
}

/** Equal lessons give equal timelines, on every machine. Sections that could not be read are silent. */
export function soundingOf({ lesson, score }: Pick<WorkedOut, 'lesson' | 'score'>, options: SoundingOptions): Sounding {
  const { sections, settings } = lesson;
  const barOf = ({ section, bar }: Pick<Placed, 'section' | 'bar'>): BarScore => score.sections[section].bars[bar];
  const order = orderOf(lesson, options).filter(({ section, bar }) => score.sections[section]?.bars[bar] !== undefined);
  const { placed, seconds, isCut } = placedBars(order, sections, barOf, options.perMinute);
  const notes: SoundNote[] = [];
  const pressed = new Map<number, number>();
  let isFull = false;
  placed.forEach((place, index) => {
    const { section, bar, at } = place;
    const score = barOf(place);
    const before = index === 0 ? pushedBefore(sections[section], bar, (one) => barOf({ section, bar: one })) : [];
    for (const [position, event] of [...before, ...score.events].entries()) {
      if (notes.length >= MOST_NOTES) {
        isFull = true;
        return;
      }
      const isBefore = position < before.length;
      const moment = isBefore ? ZERO : moments(event, score, settings.swing);
      const note = soundNote(event, isBefore ? before : score.events, settings.instrument, place.whole);
      const end = isBefore
        ? { until: at + toNumber(event.ringing) * place.whole, rings: false }
        : endOf(event, index, placed, barOf, settings.swing, seconds);
      notes.push({
        ...note,
        at: at + toNumber(moment) * place.whole,
        ...end,
        ...(note.touch === 'slide' && pressed.has(event.string) && { from: pressed.get(event.string)! }),
        place: {
          section,
          bar,
          chord: event.chord,
          event: isBefore ? -1 : position - before.length,
          ...writtenAt(event, sections[section], isBefore ? bar - 1 : bar),
        },
      });
      pressed.set(event.string, note.midi);
    }
  });
  const { strings } = settings.instrument.tuning;
  const open = strings.map((_, index) => midi(strings[stringCount(settings.instrument) - 1 - index]));
  const sorted = notes
    .map((note, index) => ({ note, index }))
    .sort((a, b) => a.note.at - b.note.at || a.index - b.index)
    .map(({ note }) => note);
  return {
    open,
    seconds,
    notes: sorted,
    beats: placed.flatMap((place) => beatsOf(place, sections[place.section], barOf(place).number)),
    bars: placed.map((place) => soundBar(place, sections[place.section], barOf(place).number)),
    isCut: isCut || isFull,
  };
}

function orderOf(
  { sections, form }: WorkedOut['lesson'],
  { section, bars }: SoundingOptions,
): readonly Pick<Placed, 'section' | 'bar'>[] {
  const played = (index: number): readonly Pick<Placed, 'section' | 'bar'>[] =>
    sections[index] === undefined ? [] : playedOrder(sections[index].plan).map((bar) => ({ section: index, bar }));
  if (section === undefined) return form.flatMap(played);
  if (!bars) return played(section);
  return (sections[section]?.plan.bars ?? []).flatMap(({ number }, bar) =>
    number >= bars.first && number <= bars.last ? { section, bar } : [],
  );
}

function placedBars(
  order: readonly Pick<Placed, 'section' | 'bar'>[],
  sections: readonly Section[],
  barOf: (place: Pick<Placed, 'section' | 'bar'>) => BarScore,
  perMinute: number | undefined,
): { readonly placed: readonly Placed[]; readonly seconds: number; readonly isCut: boolean } {
  const [first] = order;
  const factor = first && perMinute !== undefined ? sections[first.section].plan.tempo.perMinute / perMinute : 1;
  const hasGrace = first !== undefined && barOf(first).events.some(isGraceAtStart);
  const starts = sections.map(({ plan }) => startsOf(plan.bars.map(({ length }) => length)));
  const placed: Placed[] = [];
  let at = hasGrace ? GRACE_ROOM : 0;
  for (const { section, bar } of order) {
    const { plan } = sections[section];
    const { length } = plan.bars[bar];
    const whole = toNumber(secondsOfWhole(plan.tempo)) * factor;
    const next = at + toNumber(length) * whole;
    if (next > MOST_SECONDS) return { placed, seconds: at, isCut: true };
    placed.push({ section, bar, at, whole, written: starts[section][bar], length });
    at = next;
  }
  return { placed, seconds: at, isCut: false };
}

const isGraceAtStart = ({ start, technique }: NoteEvent): boolean => start.over === 0 && technique?.grace === true;

function startsOf(lengths: readonly Fraction[]): readonly Fraction[] {
  let at = ZERO;
  return lengths.map((length) => {
    const start = at;
    at = plus(at, length);
    return start;
  });
}

/** Triplets are played as they are written; see swing.ts for all else. */
const moments = ({ start, triplet }: NoteEvent, { length }: BarScore, swing: Fraction | undefined): Fraction =>
  triplet ? start : swungAt(start, swing, length);

/** What the bar before strikes early of the first bar that is played: struck at its start, since nobody hears the bar before. */
function pushedBefore(
  { plan }: Section,
  bar: number,
  barOf: (bar: number) => BarScore | undefined,
): readonly NoteEvent[] {
  if (bar === 0 || !plan.bars[bar].chords[0]?.pushed) return [];
  const last = plan.bars[bar - 1].chords.length - 1;
  return barOf(bar - 1)?.events.filter(({ pushed, chord }) => pushed && chord === Math.max(0, last)) ?? [];
}

/** Until when a note sounds. Where what is played next is not what is written next, a string rings on only if it is held there too. */
function endOf(
  event: NoteEvent,
  index: number,
  placed: readonly Placed[],
  barOf: (place: Placed) => BarScore,
  swing: Fraction | undefined,
  seconds: number,
): Pick<SoundNote, 'until' | 'rings'> {
  const end = plus(placed[index].written, plus(event.start, event.ringing));
  for (let at = index; ; at++) {
    const here = placed[at];
    const next = placed[at + 1];
    const barEnd = plus(here.written, here.length);
    if (compare(end, barEnd) < 0) {
      const moment = minus(end, here.written);
      const swung = event.triplet ? moment : swungAt(moment, swing, here.length);
      return { until: here.at + toNumber(swung) * here.whole, rings: false };
    }
    if (!next) return { until: seconds, rings: true };
    if (next.section === here.section && next.bar === here.bar + 1) {
      if (compare(end, barEnd) === 0) return { until: next.at, rings: false };
      continue;
    }
    const [chord] = barOf(next).chords;
    const there = chord?.voicing?.strings.find(({ string }) => string === event.string);
    const holds = there !== undefined && there.fret === event.fret;
    return { until: holds ? next.at + toNumber(chord.length) * next.whole : next.at, rings: false };
  }
}

/** The beats of the meter; those of a pick-up lead to the bar line. They are never swung. */
function beatsOf({ at, whole, length }: Placed, { plan }: Section, number: number): readonly SoundBeat[] {
  const { beat } = plan.meter;
  const beats: SoundBeat[] = [];
  const over = dividedBy(length, beat);
  const count = Math.floor(over.over / over.under);
  let moment = number === 0 ? minus(length, times(beat, fraction(count, 1))) : ZERO;
  for (; compare(moment, length) < 0; moment = plus(moment, beat)) {
    beats.push({ at: at + toNumber(moment) * whole, first: number !== 0 && moment.over === 0 });
  }
  return beats;
}

function soundBar(
  { section, bar, at, whole, length }: Placed,
  { plan, places, span }: Section,
  number: number,
): SoundBar {
  const { meter } = plan;
  const seconds = toNumber(length) * whole;
  const beat = toNumber(meter.beat) * whole;
  const perBar = Math.max(1, Math.round(toNumber(meter.bar) / toNumber(meter.beat)));
  const bars = Math.ceil(FEWEST_COUNTED / perBar);
  const countIn: SoundBeat[] = [];
  // Before a pick-up one bar more is counted, which the pick-up ends.
  const line = number === 0 ? at + seconds : at;
  const count = (number === 0 ? bars + 1 : bars) * perBar;
  for (let left = count; left > 0; left--) {
    const when = line - left * beat;
    if (when < at - beat / 1000) countIn.push({ at: when, first: left % perBar === 0 });
  }
  const written = places[bar]?.span ?? span;
  return { at, seconds, section, bar, number, countIn, start: written.start, end: written.end };
}
