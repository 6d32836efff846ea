/** Where the bars of a section go: how wide each must be, which of them share a system, and where in it every moment lies. */
import type { Meter } from '../lesson/lesson.ts';
import type { BarScore, NoteEvent } from '../realise/score.ts';
import { compare, minus, toNumber, ZERO } from '../util/fraction.ts';
import type { ChordLabel } from './chord-labels.ts';
import { chordLabel, leastWidth } from './chord-labels.ts';
import { STAFF, TYPE } from './metrics.ts';
import type { Moment } from './moments.ts';
import { isAccented, momentsOf, pluckingFingers } from './moments.ts';
import type { Rhythm } from './rhythm.ts';
import { rhythmOf } from './rhythm.ts';
import { textWidth } from './text-width.ts';

/** A bar before it has a place. Slot i reaches from the middle of moment i to the next moment's, or to the bar line. */
export interface BarMeasure {
  readonly bar: BarScore;
  readonly moments: readonly Moment[];
  readonly rhythm: Rhythm;
  readonly labels: readonly (ChordLabel | undefined)[];
  /** From the bar line to the middle of the first moment. */
  readonly lead: number;
  readonly leasts: readonly number[];
  /** In whole notes. */
  readonly times: readonly number[];
}

/** A bar with the width, in pixels, that each slot has by its time before systems are stretched. */
export interface SpacedBar extends BarMeasure {
  readonly easy: readonly number[];
}

export interface PlacedBar {
  readonly measure: SpacedBar;
  /** From the system's left edge. */
  readonly x: number;
  readonly width: number;
  /** The middle of each moment, from the bar's left edge. */
  readonly middles: readonly number[];
}

export const eventText = (event: NoteEvent): string => (event.stroke === 'mute' ? '×' : `${event.fret}`);

/** Half the width that a number takes on its string, with its ring. */
export const halfNumber = (event: NoteEvent): number =>
  (eventText(event).length * STAFF.letter + STAFF.numberAir + (event.voice === 'melody' ? STAFF.ring : 0)) / 2;

/** Two letters of a pinch stand side by side, more of them one above the other. */
export const MOST_LETTERS_BESIDE = 2;

function halfMoment(moment: Moment): number {
  const fingers = pluckingFingers(moment);
  const letters = fingers.length > MOST_LETTERS_BESIDE ? 'm' : fingers.join('·');
  return Math.max(STAFF.letter, textWidth(letters, TYPE.pluck) / 2, ...moment.events.map(halfNumber));
}

export function measureBar(bar: BarScore, meter: Meter): BarMeasure {
  const moments = momentsOf(bar);
  const upbeat = bar.number === 0 && compare(bar.length, meter.bar) < 0 ? minus(meter.bar, bar.length) : ZERO;
  const halves = moments.map(halfMoment);
  const leasts = halves.map((half, index) =>
    index + 1 < halves.length ? half + halves[index + 1] + STAFF.between : half + STAFF.after,
  );
  const labels = moments.map((moment) => moment.chord && chordLabel(moment.chord));
  const number = isAccented(moments[0]) ? textWidth(`${bar.number}`, TYPE.small) + STAFF.accent : 0;
  const lead = Math.max(STAFF.before + halves[0], number);
  for (let from = 0; from < moments.length; from++) {
    const label = labels[from];
    if (!label) continue;
    const next = labels.findIndex((other, index) => index > from && other);
    widen(leasts, from, next < 0 ? moments.length : next, leastWidth(label) + STAFF.betweenNames);
  }
  widen(leasts, 0, leasts.length, STAFF.emptyBar - lead);
  return {
    bar,
    moments,
    rhythm: rhythmOf(moments, meter, upbeat),
    labels,
    lead,
    leasts,
    times: moments.map((moment) => toNumber(moment.length)),
  };
}

/** Shares out evenly what the slots of a stretch lack of its least width. */
function widen(leasts: number[], from: number, to: number, width: number): void {
  let sum = 0;
  for (let index = from; index < to; index++) sum += leasts[index];
  if (sum >= width) return;
  for (let index = from; index < to; index++) leasts[index] += (width - sum) / (to - from);
}

/** Pixels that the usual short note gets, and the most that a whole note gets, before systems are stretched. */
const SHORT_NOTE = 23;
const MOST_A_WHOLE = 400;
/** Which of the notes, by length, is taken for the usual short one: few shorter ones may be cramped. */
const SHORT_RANK = 0.2;
const LONGEST_SHORT = 1 / 4;
/** How much the whole section has to say in the spacing of one bar; the rest is the bar's own. */
const SECTION_PART = 1 / 3;

/** Pixels for a whole note at which these bars read easily. */
function easyScale(measures: readonly BarMeasure[]): number {
  const times = measures
    .flatMap((measure) => measure.times.filter((_, index) => measure.moments[index].events.length > 0))
    .sort((a, b) => a - b);
  const short = Math.min(times[Math.floor(times.length * SHORT_RANK)] ?? LONGEST_SHORT, LONGEST_SHORT);
  return Math.min(SHORT_NOTE / short, MOST_A_WHOLE);
}

/** Bars of one section as they are spaced by themselves: where little happens, a bar is narrower than its neighbours. */
export function spaceEasily(measures: readonly BarMeasure[]): readonly SpacedBar[] {
  const section = easyScale(measures);
  return measures.map((measure) => {
    const scale = section * SECTION_PART + easyScale([measure]) * (1 - SECTION_PART);
    return { ...measure, easy: measure.times.map((time) => time * scale) };
  });
}

function widthAt(measure: SpacedBar, stretch: number): number {
  let width = measure.lead;
  measure.leasts.forEach((least, index) => (width += Math.max(least, measure.easy[index] * stretch)));
  return width;
}

const widthsAt = (measures: readonly SpacedBar[], stretch: number): number =>
  measures.reduce((sum, measure) => sum + widthAt(measure, stretch), 0);

/** Bars a system, the most wanted first; music is read in twos, fours and eights. */
const COUNTS = [8, 4, 2] as const;
const ALSO_WHERE_THEY_DIVIDE = [6, 3] as const;
/** A count will do if this part of the systems has room for it; the rest is cut again. */
const FITTING_PART = 0.66;

/** Cuts a section into systems that fit `room`; a bar wider than that has a system to itself. */
export function breakIntoSystems(measures: readonly SpacedBar[], room: number): readonly SpacedBar[][] {
  const fits = (bars: readonly SpacedBar[]): boolean => widthsAt(bars, 1) <= room;
  const cut = (count: number): SpacedBar[][] => {
    const systems: SpacedBar[][] = [];
    // A pick-up belongs to the first system and is not counted.
    let from = measures[0]?.bar.number === 0 ? 1 : 0;
    for (; from < measures.length; from += count) systems.push(measures.slice(from, from + count));
    if (measures[0]?.bar.number === 0) (systems[0] ??= []).unshift(measures[0]);
    return systems;
  };
  const dividing = ALSO_WHERE_THEY_DIVIDE.filter((count) => measures.length % count === 0);
  const counts = [...COUNTS, ...dividing].sort((a, b) => b - a);
  const count = counts.find((each) => {
    const systems = cut(each);
    return systems.filter(fits).length >= systems.length * FITTING_PART;
  });
  const halved = (bars: SpacedBar[]): SpacedBar[][] => {
    if (bars.length <= 1 || fits(bars)) return [bars];
    const middle = Math.ceil(bars.length / 2);
    return [...halved(bars.slice(0, middle)), ...halved(bars.slice(middle))];
  };
  return cut(count ?? 1).flatMap(halved);
}

/** A system is never stretched beyond this many times its easy width; a few bars by themselves less. */
const MOST_STRETCH = 1.75;
const LITTLE_STRETCH = 1.3;
const FEW_BARS = 4;

/**
 * Places the bars of each system from `left` on; systems end at one edge where their music fills them. A short last one is
 * spaced as the one above it.
 */
export function placeSystems(
  systems: readonly (readonly SpacedBar[])[],
  left: number,
  room: number,
): readonly (readonly PlacedBar[])[] {
  const full = Math.max(0, ...systems.map((bars) => bars.length));
  let above: number | undefined;
  return systems.map((bars, index) => {
    const most = systems.length === 1 && bars.length < FEW_BARS ? LITTLE_STRETCH : MOST_STRETCH;
    let own = stretchFor(bars, Math.min(room, widthsAt(bars, 1) * most));
    if (index === systems.length - 1 && bars.length < full && above !== undefined) own = Math.min(own, above);
    above = own;
    return placeBars(bars, left, own, room);
  });
}

/** The stretch at which the bars together are `width` wide; 0 where their least widths are wider already. */
function stretchFor(bars: readonly SpacedBar[], width: number): number {
  // Slots that need more than their time gives them are set aside until all the others have at least what they need.
  let free = bars.flatMap((bar) => bar.leasts.map((least, index) => ({ least, easy: bar.easy[index] })));
  let left = width - bars.reduce((sum, bar) => sum + bar.lead, 0);
  while (free.length > 0) {
    const stretch = Math.max(0, left / free.reduce((sum, slot) => sum + slot.easy, 0));
    const tight = free.filter((slot) => slot.easy * stretch < slot.least);
    if (tight.length === 0) return stretch;
    left -= tight.reduce((sum, slot) => sum + slot.least, 0);
    free = free.filter((slot) => slot.easy * stretch >= slot.least);
  }
  return 0;
}

/** Bar lines lie on whole pixels, so that they are sharp. */
function placeBars(bars: readonly SpacedBar[], left: number, stretch: number, room: number): readonly PlacedBar[] {
  let exact = left;
  // What could not be squeezed is drawn too wide by the least that it needs.
  const limit = Math.max(left + room, left + widthsAt(bars, 0));
  return bars.map((measure) => {
    const x = Math.round(exact);
    exact = Math.min(exact + widthAt(measure, stretch), limit);
    let middle = measure.lead;
    const middles = measure.moments.map((_, index) => {
      const here = middle;
      middle += Math.max(measure.leasts[index], measure.easy[index] * stretch);
      return here;
    });
    return { measure, x, width: Math.round(exact) - x, middles };
  });
}
