/** When the right hand does something: cells laid over bars and chords, chords struck whole, and what a push moves ahead. */
import type { Cell, CellNote, SectionPlan } from '../lesson/lesson.ts';
import {
  compare,
  dividedBy,
  equal,
  fraction,
  least,
  minus,
  plus,
  times,
  ZERO,
  type Fraction,
} from '../util/fraction.ts';
import type { ChordPlace, Timeline } from './timeline.ts';

/** More than anybody plucks in one chord; what lies beyond is left out. */
export const MOST_ONSETS = 512;

/**
 * The longest up-stroke that is played with the fretting hand already lifted, in whole notes: an eighth of open strings passes for
 * part of the strum, anything longer is heard as another chord. (set)
 */
const LONGEST_LIFTED = fraction(1, 8);

/** One moment of the right hand. */
export interface Onset {
  /** In whole notes from the start of the section. */
  readonly start: Fraction;
  readonly length: Fraction;
  /** Undefined where the whole chord is struck once. */
  readonly note?: CellNote;
  /** Index of the cell in the plan, and of the note in the cell; -1 where the whole chord is struck. */
  readonly cell: number;
  readonly index: number;
}

/** What the hand does over each chord of the timeline, in the order of time. */
export function onsetsOf(plan: SectionPlan, timeline: Timeline): readonly (readonly Onset[])[] {
  const onsets = timeline.chords.map((place, at) => onsetsOver(plan, timeline, place, at));
  timeline.chords.forEach((place, at) => {
    if (at > 0 && compare(place.sounds, place.start) < 0) push(onsets, at, place);
  });
  return onsets;
}

/**
 * How many of a chord's onsets the fretting hand stays for. Players leave a shape before the last up-stroke and let it ring on the
 * open strings, so as to be in time for the next one; a stroke with an accent, and one by itself, is meant to sound the chord.
 */
export function heldThrough(onsets: readonly Onset[]): number {
  const last = onsets.at(-1);
  const isStroke = last?.note?.stroke?.kind === 'up' && last.note.plucks.length === 0 && !last.note.accent;
  const isLifted = isStroke && onsets.length > 1 && compare(last.length, LONGEST_LIFTED) <= 0;
  return isLifted ? onsets.length - 1 : onsets.length;
}

/** The cell that is played over a chord; undefined where the chord is struck once. */
export function cellOver(plan: SectionPlan, place: ChordPlace): number | undefined {
  if (place.plan.held || place.plan.silent) return undefined;
  return place.plan.cell ?? plan.bars[place.bar].cell;
}

function onsetsOver(plan: SectionPlan, timeline: Timeline, place: ChordPlace, at: number): Onset[] {
  if (place.plan.silent) return [];
  const length = minus(place.end, place.start);
  const cell = cellOver(plan, place);
  if (cell === undefined) return [{ start: place.start, length, cell: -1, index: -1 }];
  const own = place.plan.cell !== undefined;
  const phase = own ? ZERO : phaseAt(plan, timeline, place, plan.cells[cell]);
  // What a running cell begins before a chord changes, it finishes, unless the next chord has a rhythm of its own.
  const next = timeline.chords[at + 1];
  const runsOn = !own && next?.bar === place.bar && next.plan.cell === undefined && cellOver(plan, next) === cell;
  const bar = plus(timeline.bars[place.bar], plan.bars[place.bar].length);
  return slice(plan.cells[cell], cell, phase, place, runsOn ? bar : place.end);
}

/** How far into its running cell the section is where a chord starts. */
function phaseAt(plan: SectionPlan, timeline: Timeline, place: ChordPlace, cell: Cell): Fraction {
  const bar = plan.bars[place.bar];
  const barStart = timeline.bars[place.bar];
  const first = plan.bars.findIndex((each) => each.number === bar.cellFrom);
  // A cell that does not go into the bars is at least the same in each of them.
  const from = first < 0 || !fits(cell.length, bar.length) ? barStart : timeline.bars[Math.min(first, place.bar)];
  return modulo(minus(place.start, from), cell.length);
}

function modulo(value: Fraction, by: Fraction): Fraction {
  const { over, under } = dividedBy(value, by);
  return minus(value, times(by, fraction(Math.floor(over / under))));
}

/** Whether one length goes into the other a whole number of times. */
export function fits(cell: Fraction, room: Fraction): boolean {
  if (cell.over <= 0) return true;
  const ratio = dividedBy(room, cell);
  return ratio.under === 1 || ratio.over === 1;
}

/** The cell's notes from `phase` on, over and over, as long as the chord lasts; none goes on beyond `limit`. */
function slice(cell: Cell, cellIndex: number, phase: Fraction, place: ChordPlace, limit: Fraction): Onset[] {
  const onsets: Onset[] = [];
  if (cell.notes.length === 0 || cell.length.over <= 0) return onsets;
  for (let round = minus(place.start, phase); compare(round, place.end) < 0; round = plus(round, cell.length)) {
    for (let index = 0; index < cell.notes.length; index++) {
      const note = cell.notes[index];
      const start = plus(round, note.start);
      if (compare(start, place.start) < 0) continue;
      if (compare(start, place.end) >= 0) return onsets;
      if (onsets.length >= MOST_ONSETS) return onsets;
      const length = minus(least(plus(start, note.length), limit), start);
      const before = onsets.at(-1);
      if (!isNothingNew(note)) onsets.push({ start, length, note, cell: cellIndex, index });
      else if (before) onsets[onsets.length - 1] = { ...before, length: minus(plus(start, length), before.start) };
    }
  }
  return onsets;
}

const isNothingNew = (note: CellNote): boolean => note.plucks.length === 0 && !note.stroke && !note.rest;

/**
 * What begins with a pushed chord begins an eighth early, and what the chord before would still have done in that eighth gives
 * way. Where nothing begins with the chord, what is done in that eighth sounds the new chord already.
 */
function push(onsets: Onset[][], at: number, { start, sounds }: ChordPlace): void {
  const [first, ...rest] = onsets[at];
  const before = onsets[at - 1];
  if (first && equal(first.start, start) && !first.note?.rest) {
    const early = { ...first, start: sounds, length: plus(first.length, minus(start, sounds)) };
    onsets[at] = [early, ...rest];
    onsets[at - 1] = before.filter((onset) => compare(onset.start, sounds) < 0);
  } else {
    onsets[at] = [...before.filter((onset) => compare(onset.start, sounds) >= 0), ...onsets[at]];
    onsets[at - 1] = before.filter((onset) => compare(onset.start, sounds) < 0);
  }
  onsets[at - 1] = onsets[at - 1].map((onset) => ({
    ...onset,
    length: minus(least(plus(onset.start, onset.length), sounds), onset.start),
  }));
}

/** Whether the cells of a bar, its own and those of its chords, go into the time that they have. */
export function hasMisfit(plan: SectionPlan, timeline: Timeline, bar: number): boolean {
  return timeline.chords.some((place) => {
    if (place.bar !== bar) return false;
    const cell = cellOver(plan, place);
    if (cell === undefined) return false;
    const { length } = plan.cells[cell];
    const barLength = plan.bars[bar].length;
    if (place.plan.cell === undefined) return !fits(length, barLength);
    return !fits(length, minus(place.end, place.start)) && !fits(length, barLength);
  });
}
