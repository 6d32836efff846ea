/** Where the bars of a section go: how wide each must be, which of them share a system, and where in it every moment lies. */
import type { Meter } from '../lesson/lesson.ts';
import type { Syllable } from '../lesson/written.ts';
import type { BarScore, NoteEvent } from '../realise/score.ts';
import { compare, minus, toNumber, ZERO } from '../util/fraction.ts';
import type { ChordLabel } from './chord-labels.ts';
import { chordLabel, leastWidth } from './chord-labels.ts';
import type { BarFrame } from './frames.ts';
import { PLAIN_FRAME } from './frames.ts';
import { isJoined, isSlur } from './links.ts';
import { STAFF, TYPE } from './metrics.ts';
import type { Moment } from './moments.ts';
import { momentsOf, pluckingFingers } from './moments.ts';
import { halfGrace, halfNumber } from './note-text.ts';
import type { Rhythm } from './rhythm.ts';
import { rhythmOf } from './rhythm.ts';
import { textWidth } from './text-width.ts';

/** A bar before it has a place. Slot i reaches from the middle of moment i to the next moment's, or to the bar line. */
export interface BarMeasure {
  readonly bar: BarScore;
  readonly frame: BarFrame;
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

/** Two letters of a pinch stand side by side, more of them one above the other. */
export const MOST_LETTERS_BESIDE = 2;

/** Between a number and the signs behind it, and between a grace note and the note that it leads to. */
export const NOTE = {
  air: 2,
  bend: 11,
  arrow: 4,
  release: 11,
  wave: 16,
  secondBend: 20,
  slurStub: 15,
  joined: 13,
  slid: 10,
  longestSlide: 44,
} as const;

/** How far from the middle of a moment the shaft of a bend stands clear of all its numbers. */
export const shaftClear = (moment: Moment): number => Math.max(...moment.events.map(halfNumber)) + NOTE.air - 1;

/** How far a note and its bend reach to the right of its middle. */
export function bentRight(event: NoteEvent, moment: Moment): number {
  const { bend } = event.technique ?? {};
  if (!bend) return halfNumber(event);
  return shaftClear(moment) + (bend.before ? 0 : NOTE.bend) + NOTE.arrow + (bend.release ? NOTE.release : 0);
}

/** The same with its vibrato. */
export const rightOf = (event: NoteEvent, moment: Moment): number =>
  bentRight(event, moment) + (event.technique?.vibrato ? NOTE.air + NOTE.wave : 0);

/** From the middle of a moment to the middle of its grace notes. */
export function graceBefore(moment: Moment): number {
  const half = Math.max(STAFF.letter, ...moment.events.map(halfNumber));
  const slurred = moment.events.some(isSlur);
  const slid = moment.events.some(isJoined);
  const air = slurred ? NOTE.joined : slid ? NOTE.slid : STAFF.graceAir;
  return half + air + Math.max(...moment.graces.map(halfGrace));
}

function leftOf(moment: Moment, fromOutside: boolean): number {
  let left = halfMoment(moment);
  if (moment.graces.length > 0) left = Math.max(left, graceBefore(moment) + Math.max(...moment.graces.map(halfGrace)));
  for (const event of fromOutside ? moment.events : []) {
    if (isJoined(event)) left = Math.max(left, halfNumber(event) + NOTE.slurStub);
  }
  return left;
}

function halfMoment(moment: Moment): number {
  const fingers = pluckingFingers(moment);
  const letters = fingers.length > MOST_LETTERS_BESIDE ? 'm' : fingers.join('·');
  return Math.max(STAFF.letter, textWidth(letters, TYPE.pluck) / 2, ...moment.events.map(halfNumber));
}

function rightOfMoment(moment: Moment): number {
  const bends = moment.events.filter((event) => event.technique?.bend).length;
  return (
    Math.max(halfMoment(moment), ...moment.events.map((event) => rightOf(event, moment))) +
    Math.max(0, bends - 1) * (NOTE.secondBend + NOTE.release)
  );
}

const SECTION_SIGNS = { repeat: 11, times: 26 } as const;

export function measureBar(bar: BarScore, meter: Meter, frame: BarFrame = PLAIN_FRAME): BarMeasure {
  const moments = momentsOf(bar);
  const upbeat = bar.number === 0 && compare(bar.length, meter.bar) < 0 ? minus(meter.bar, bar.length) : ZERO;
  const lefts = moments.map((moment, index) => leftOf(moment, index === 0));
  const rights = moments.map(rightOfMoment);
  const leasts = rights.map((right, index) =>
    index + 1 < rights.length ? right + lefts[index + 1] + STAFF.between : right + STAFF.after,
  );
  const labels = moments.map((moment) => moment.chord && chordLabel(moment.chord));
  const syllables = moments.map((moment) => moment.events.find((event) => event.syllable)?.syllable);
  const widths = syllables.map((syllable) => (syllable ? syllableWidth(syllable) : 0));
  const lead =
    Math.max(STAFF.before + lefts[0], widths[0] / 2 + STAFF.wordAir) + (frame.repeatBegins ? SECTION_SIGNS.repeat : 0);
  for (let from = 0; from < moments.length; from++) {
    const label = labels[from];
    const to = (later: (index: number) => boolean): number => {
      let index = from + 1;
      while (index < moments.length && !later(index)) index++;
      return index;
    };
    if (label) {
      widen(
        leasts,
        from,
        to((index) => labels[index] !== undefined),
        leastWidth(label) + STAFF.betweenNames,
      );
    }
    if (widths[from] > 0) {
      const next = to((index) => syllables[index] !== undefined);
      const joined = syllables[from]!.joined ? STAFF.hyphen : STAFF.betweenWords;
      widen(leasts, from, next, widths[from] / 2 + joined + (widths[next] ?? 0) / 2);
    }
    for (const event of moments[from].events) {
      // The letter of a slur, and the slant of a slide, need room between the two numbers.
      const next = to((index) => moments[index].events.some(({ string }) => string === event.string));
      const joined = moments[next]?.events.find(({ string }) => string === event.string);
      if (!joined || !isJoined(joined) || moments[next].graces.length > 0) continue;
      const air = isSlur(joined) ? NOTE.joined : NOTE.slid;
      widen(leasts, from, next, rightOf(event, moments[from]) + air + halfNumber(joined));
    }
  }
  if (frame.repeatEnds) leasts[leasts.length - 1] += SECTION_SIGNS.repeat;
  const head = textWidth(`${bar.number}`, TYPE.small) + (frame.times === undefined ? 0 : SECTION_SIGNS.times);
  widen(leasts, 0, leasts.length, Math.max(STAFF.emptyBar, head) - lead);
  const tied = (bar.tied?.length ?? 0) > 0;
  return {
    bar,
    frame,
    moments,
    rhythm: rhythmOf(moments, meter, upbeat, tied),
    labels,
    lead,
    leasts,
    times: moments.map((moment) => toNumber(moment.length)),
  };
}

/** Of its text; nought for one that is held. */
export const syllableWidth = ({ text }: Syllable): number => textWidth(text, TYPE.word);

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
const SHORT_RANK = 0.25;
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
