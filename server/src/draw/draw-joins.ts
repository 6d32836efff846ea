/** Draws what joins notes of a system, over its bar lines and edges too: slurs, slides, ties, and the muting palm. */
import type { BarScore, NoteEvent } from '../realise/score.ts';
import type { Shape } from './drawing.ts';
import { label, path } from './drawing.ts';
import type { PlacedBar } from './layout.ts';
import { graceBefore, NOTE, rightOf } from './layout.ts';
import { isJoined, isSlur, joinedFrom } from './links.ts';
import type { Reading } from './look.ts';
import { TYPE } from './metrics.ts';
import { isPalmMuted } from './moments.ts';
import { halfGrace, shownNote } from './note-text.ts';
import { heightOf, type Rows } from './rows.ts';
import { shaftsOf } from './draw-notes.ts';
import { marksX, RHYTHM } from './draw-rhythm.ts';
import { textWidth } from './text-width.ts';

/** The bars before and after a system, where the section goes on there. */
export interface Neighbours {
  readonly before?: BarScore;
  readonly after?: BarScore;
}

/** Whether a bar has signs that begin in the bar before it: ties, slurs and slides, a palm that stays, a syllable held on. */
export function reachesBack({ tied, events }: BarScore): boolean {
  if (tied && tied.length > 0) return true;
  if (events[0]?.technique?.palmMuted || events.find((event) => event.syllable)?.syllable?.text === '') return true;
  const struck = new Set<number>();
  return events.some((event) => {
    const first = !struck.has(event.string);
    struck.add(event.string);
    return first && isJoined(event);
  });
}

/** Where a note stands, from the system's left edge. */
interface Place {
  readonly left: number;
  readonly right: number;
  readonly bar: number;
}

type Places = ReadonlyMap<NoteEvent, Place>;

export function drawJoins(
  bars: readonly PlacedBar[],
  rows: Rows,
  { before, after }: Neighbours,
  reading: Reading,
): readonly Shape[] {
  const places = placesOf(bars, reading);
  const scores = bars.map((bar) => bar.measure.bar);
  const from = joinedFrom([...(before ? [before] : []), ...scores, ...(after ? [after] : [])]);
  const shafts = shaftsIn(bars);
  const shapes: Shape[] = [];
  for (const { measure, x } of bars) {
    for (const moment of measure.moments) {
      for (const event of [...moment.graces, ...moment.events]) {
        if (!isJoined(event)) continue;
        const origin = from.get(event);
        shapes.push(...drawJoin(event, origin, places, rows, x, shafts));
      }
    }
  }
  const end = bars[bars.length - 1];
  // What goes on in the next system leaves this one at its edge.
  for (const event of after?.events ?? []) {
    const origin = from.get(event);
    const place = origin && places.get(origin);
    if (!place) continue;
    const y = heightOf(rows, event.string);
    const edge = end.x + end.width - 2;
    if (place.bar !== bars.length - 1) continue;
    if (isSlur(event))
      shapes.push(path('stem', ...arc(place.right, Math.min(edge, place.right + FARTHEST), y, 'left')));
    else {
      const way = event.fret >= origin.fret ? 1 : -1;
      shapes.push(path('stem', 'M', place.right, y + 3 * way, 'L', Math.min(edge, place.right + STUB), y - 2 * way));
    }
  }
  return [...shapes, ...drawTies(bars, places, rows, after), ...drawPalm(bars, rows, after)];
}

/** An upright line from a string to above all of them. */
interface Shaft {
  readonly string: number;
  readonly x: number;
}

const shaftsIn = (bars: readonly PlacedBar[]): readonly Shaft[] =>
  bars.flatMap(({ measure, middles, x }) =>
    measure.moments.flatMap((moment, index) =>
      shaftsOf(moment, x + middles[index]).flatMap(({ event: { string }, x: up, down }) =>
        down === undefined
          ? [{ string, x: up }]
          : [
              { string, x: up },
              { string, x: down },
            ],
      ),
    ),
  );

function placesOf(bars: readonly PlacedBar[], reading: Reading): Places {
  const places = new Map<NoteEvent, Place>();
  bars.forEach(({ measure, middles, x }, bar) => {
    measure.moments.forEach((moment, index) => {
      const middle = x + middles[index];
      for (const event of moment.events) {
        const { half } = shownNote(event, reading);
        const right = Math.max(rightOf(event, moment), half);
        places.set(event, { left: middle - half, right: middle + right, bar });
      }
      for (const event of moment.graces) {
        const at = middle - graceBefore(moment);
        places.set(event, { left: at - halfGrace(event), right: at + halfGrace(event), bar });
      }
    });
  });
  return places;
}

/** What comes from a note that is not in this system, or long past, begins this far before the note that it leads to. */
const STUB = 14;
/** A slur to another system goes this far at the most. */
const FARTHEST = 48;
/** Half the room that a slur leaves for its letter. */
const LETTER = 4.5;

function drawJoin(
  event: NoteEvent,
  origin: NoteEvent | undefined,
  places: Places,
  rows: Rows,
  barX: number,
  shafts: readonly Shaft[],
): readonly Shape[] {
  const to = places.get(event);
  // Of two notes on one string at one moment only one is drawn.
  if (!to) return [];
  const y = heightOf(rows, event.string);
  const found = origin && places.get(origin);
  const start = found && to.bar - found.bar <= 1 ? found : undefined;
  if (!isSlur(event)) {
    const up = !origin || event.fret >= origin.fret;
    const left = start ? Math.max(start.right, to.left - NOTE.longestSlide) : Math.max(barX + 3, to.left - STUB);
    return [path('stem', 'M', left, up ? y + 4 : y - 4, 'L', to.left, up ? y - 4 : y + 4)];
  }
  const letter = event.technique?.attack === 'hammer-on' ? 'h' : 'p';
  const left = start?.right ?? to.left - STUB;
  // A letter on a bar line could not be read: it stands by the note that it is about.
  const over = start !== undefined && start.bar !== to.bar;
  const middle = letterPlace(left, to.left, over, event, shafts);
  return [
    path(
      'stem',
      ...arc(left, middle - LETTER, y, start ? 'left' : 'none'),
      ...arc(middle + LETTER, to.left, y, 'right'),
    ),
    label('small', middle, y - SLUR.letter, letter, 'middle'),
  ];
}

/** The middle of the slur, or near its end, or wherever no arrow of a lower string's bend goes through. */
function letterPlace(left: number, right: number, over: boolean, event: NoteEvent, shafts: readonly Shaft[]): number {
  const near = right - STUB / 2;
  const middle = (left + right) / 2;
  const places = [...(over ? [] : [middle]), near, left + STUB / 2, (middle + near) / 2];
  const isFree = (place: number): boolean =>
    shafts.every(({ string, x }) => string <= event.string || Math.abs(x - place) > LETTER);
  return places.find((place) => place > left && isFree(place)) ?? places[0];
}

/** Heights above the string: where a slur begins, how high it lies, and the base line of its letter. */
const SLUR = { foot: 5, crown: 8.5, letter: 4.7, bow: 10 } as const;

/** A flat arc that comes down to the string at the ends that are named. */
function arc(
  from: number,
  to: number,
  y: number,
  ends: 'left' | 'right' | 'both' | 'none',
): readonly (string | number)[] {
  const bow = Math.min(SLUR.bow, (to - from) / (ends === 'both' ? 2 : 1));
  if (bow <= 0) return [];
  const crown = y - SLUR.crown;
  const steps: (string | number)[] = [];
  if (ends === 'left' || ends === 'both') {
    steps.push('M', from, y - SLUR.foot, 'Q', from + bow / 2, crown, from + bow, crown);
  } else steps.push('M', from, crown);
  if (ends === 'right' || ends === 'both') {
    steps.push('H', to - bow, 'Q', to - bow / 2, crown, to, y - SLUR.foot);
  } else steps.push('H', to);
  return steps;
}

/** How far beyond the bar line a tie on a string reaches. */
const TIE_END = 12;

/** What is held over a bar line: tied stems below, or, where others have the stems there, an arc on its own string. */
function drawTies(
  bars: readonly PlacedBar[],
  places: Places,
  rows: Rows,
  after: BarScore | undefined,
): readonly Shape[] {
  const shapes: Shape[] = [];
  bars.forEach((bar, index) => {
    const { tied } = bar.measure.bar;
    if (!tied || tied.length === 0) return;
    if (bar.measure.rhythm.marks[0]?.tied) {
      const before = bars[index - 1];
      const xs = before ? marksX(before) : [];
      const from = xs.length > 0 ? before.x + xs[xs.length - 1] : bar.x - 3;
      shapes.push(stemTie(from, bar.x + marksX(bar)[0], rows));
      return;
    }
    for (const { string } of tied) {
      const y = heightOf(rows, string);
      const start = lastOn(bars.slice(0, index), string, places);
      const end = bar.x + Math.min(TIE_END, bar.middles[0]);
      shapes.push(path('stem', ...arc(start ?? bar.x + 1, end, y, start === undefined ? 'right' : 'both')));
    }
  });
  const tied = after?.tied ?? [];
  if (tied.length === 0) return shapes;
  const end = bars[bars.length - 1];
  const edge = end.x + end.width;
  const xs = marksX(end);
  if (after!.events.every((event) => event.start.over > 0)) {
    if (xs.length > 0) shapes.push(stemTie(end.x + xs[xs.length - 1], edge + 2, rows));
    return shapes;
  }
  for (const { string } of tied) {
    const start = lastOn(bars, string, places);
    if (start !== undefined) shapes.push(path('stem', ...arc(start, edge - 2, heightOf(rows, string), 'left')));
  }
  return shapes;
}

function lastOn(bars: readonly PlacedBar[], string: number, places: Places): number | undefined {
  for (let index = bars.length - 1; index >= 0; index--) {
    const events = bars[index].measure.bar.events.filter((event) => event.string === string);
    const place = places.get(events[events.length - 1]);
    if (place) return place.right;
  }
  return undefined;
}

function stemTie(from: number, to: number, rows: Rows): Shape {
  const y = rows.base + RHYTHM.top - 2;
  return path('stem', 'M', from + 4, y, 'Q', (from + to) / 2, y - 5, to - 4, y);
}

/** Dots as far apart as this follow the letters as long as the palm lies on the strings. */
const DOT_STEP = 5;
const PALM_WORD = 'P.M.';

function drawPalm(bars: readonly PlacedBar[], rows: Rows, after: BarScore | undefined): readonly Shape[] {
  const shapes: Shape[] = [];
  let run: { from: number; to: number } | undefined;
  const end = (goesOn: boolean): void => {
    if (run) shapes.push(...palmSign(run.from, run.to, goesOn, rows.palm));
    run = undefined;
  };
  for (const { measure, middles, x } of bars) {
    measure.moments.forEach((moment, index) => {
      if (isPalmMuted(moment)) run = { from: run?.from ?? x + middles[index] - 6, to: x + middles[index] + 5 };
      else if (moment.events.length > 0 || moment.rest) end(false);
    });
  }
  const last = bars[bars.length - 1];
  const goesOn = after?.events[0]?.technique?.palmMuted === true;
  if (run && goesOn) run = { from: run.from, to: last.x + last.width - 2 };
  end(goesOn);
  return shapes;
}

function palmSign(from: number, to: number, goesOn: boolean, y: number): readonly Shape[] {
  const word = label('small', from, y, PALM_WORD);
  const steps: (string | number)[] = [];
  const middle = y - 3.5;
  for (let x = from + textWidth(PALM_WORD, TYPE.small) + 2; x < to - 1; x += DOT_STEP) {
    steps.push('M', x, middle, 'H', Math.min(x + 1.5, to));
  }
  if (steps.length > 0 && !goesOn) steps.push('M', to, middle - 2.5, 'V', y + 1);
  return steps.length > 0 ? [word, path('stem', ...steps)] : [word];
}
