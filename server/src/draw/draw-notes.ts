/** Draws what stands on the strings of one bar: the strings themselves, numbers, bends, vibrato, and the marks above them. */
import type { NoteEvent } from '../realise/score.ts';
import type { Label, Shape } from './drawing.ts';
import { box, label, path } from './drawing.ts';
import { bentRight, graceBefore, NOTE, shaftClear, type PlacedBar } from './layout.ts';
import { isJoined } from './links.ts';
import type { Reading } from './look.ts';
import { middleOf, STAFF, TYPE } from './metrics.ts';
import type { Moment } from './moments.ts';
import { isAccented, strikeLetter } from './moments.ts';
import { bendAmount, halfGrace, shownNote } from './note-text.ts';
import { heightOf, LETTER_STEP, namedIn, type Rows } from './rows.ts';

/** The longest wave of a vibrato. */
const MOST_WAVE = 34;
const WAVE = { long: 6, high: 2.6 } as const;
const ARROW = { long: 4.5, half: 2.6 } as const;

export function drawNotes(placed: PlacedBar, rows: Rows, strings: number, reading: Reading): readonly Shape[] {
  const { moments, bar } = placed.measure;
  const indexes = new Map(bar.events.map((event, index) => [event, index]));
  return [
    stringLines(placed, rows, strings, reading),
    ...moments.flatMap((moment, index) => [
      ...moment.events.flatMap((event) =>
        drawNumber(event, placed.middles[index], heightOf(rows, event.string), reading, indexes.get(event)),
      ),
      ...moment.graces.map((event) => ({
        ...drawGrace(event, placed.middles[index] - graceBefore(moment), rows, reading),
        event: indexes.get(event),
      })),
      ...drawBends(moment, placed.middles[index], rows, reading),
      ...moment.events.flatMap((event) => drawVibrato(event, placed, index, rows, reading)),
      ...marksAbove(placed, moment, placed.middles[index], rows),
    ]),
  ];
}

/** The strings stop short of whatever stands on them, so that no ground need be painted behind it. */
function stringLines(placed: PlacedBar, rows: Rows, strings: number, reading: Reading): Shape {
  const { moments } = placed.measure;
  const steps: (string | number)[] = [];
  for (let string = 1; string <= strings; string++) {
    const y = heightOf(rows, string);
    const gaps: (readonly [number, number])[] = [];
    let before: { readonly event: NoteEvent; readonly right: number } | undefined;
    moments.forEach((moment, index) => {
      const x = placed.middles[index];
      const grace = moment.graces.find((each) => each.string === string);
      if (grace) gaps.push(around(x - graceBefore(moment), halfGrace(grace) - 1));
      const event = moment.events.find((each) => each.string === string);
      if (!event) return;
      const half = shownNote(event, reading).half - 1;
      const slid = event.technique?.attack === 'slide' && before && !grace;
      gaps.push([slid ? Math.max(before!.right, x - half - NOTE.longestSlide) : x - half, x + half]);
      const wave = waveOf(event, placed, index, reading);
      if (wave) gaps.push([wave[0] - 1, wave[1] + 1]);
      before = { event, right: x + (wave ? wave[1] - x + 1 : half) };
    });
    steps.push('M', 1, y);
    for (const [from, to] of gaps) steps.push('H', from, 'M', to, y);
    steps.push('H', placed.width);
  }
  return path('string', ...steps);
}

const around = (x: number, half: number): readonly [number, number] => [x - half, x + half];

function drawNumber(
  event: NoteEvent,
  x: number,
  y: number,
  reading: Reading,
  index: number | undefined,
): readonly Shape[] {
  const shown = shownNote(event, reading);
  const melody = event.voice === 'melody';
  // A damped stroke sounds no string, open or stopped.
  const plain = event.stroke === 'mute' || event.technique?.dead || event.technique?.harmonic !== undefined;
  const open = event.fret === 0 && !plain;
  const style = ['fret', open ? 'open' : '', melody ? 'melody' : '', shown.smaller]
    .filter((one) => one !== '')
    .join(' ');
  const number = { ...label(style, x, y + middleOf(shown.size), shown.text, 'middle'), event: index };
  if (!melody) return [number];
  const half = shown.half - 1;
  return [{ ...box('ring', x - half, y - 8, 2 * half, 16), rounding: 8, clear: true }, number];
}

const drawGrace = (event: NoteEvent, x: number, rows: Rows, reading: Reading): Label =>
  label('grace', x, heightOf(rows, event.string) + middleOf(TYPE.grace), shownNote(event, reading).text, 'middle');

interface Shaft {
  readonly event: NoteEvent;
  readonly x: number;
  /** Where it comes down again. */
  readonly down?: number;
}

/** Where the arrows of a moment's bends rise: the highest string's nearest, so that none crosses another. */
export function shaftsOf(moment: Moment, middle: number): readonly Shaft[] {
  const clear = middle + shaftClear(moment);
  let before = -Infinity;
  const bent = moment.events.filter((event) => event.technique?.bend).reverse();
  return bent.map((event) => {
    const bend = event.technique!.bend!;
    const lone = moment.events.every((other) => other.string >= event.string);
    const own = bend.before ? (lone && !bend.release ? middle : clear) : clear + NOTE.bend;
    const x = Math.max(own, before + NOTE.secondBend);
    const down = bend.release ? x + NOTE.release : undefined;
    before = down ?? x;
    return { event, x, ...(down !== undefined && { down }) };
  });
}

/** An arrow from each bent note to above the strings, with how far it goes; let down again, a second one comes back. */
function drawBends(moment: Moment, middle: number, rows: Rows, reading: Reading): readonly Shape[] {
  const tip = rows.bends + 2;
  return shaftsOf(moment, middle).flatMap(({ event, x, down }): readonly Shape[] => {
    const bend = event.technique!.bend!;
    const y = heightOf(rows, event.string);
    const from = middle + shownNote(event, reading).half - 1;
    const steps: (string | number)[] = [];
    if (!bend.before) steps.push('M', from, y - 1, 'C', x - 3, y - 1, x, y - 5, x, Math.max(tip + ARROW.long, y - 16));
    else if (x === middle) steps.push('M', x, y - 7);
    else steps.push('M', from, y - 1, 'H', x);
    steps.push('V', tip + ARROW.long);
    const shapes: Shape[] = [path('stem', ...steps), arrowHead(x, tip, -1)];
    if (down !== undefined) {
      const foot = y - 3;
      shapes.push(
        path('stem', 'M', x + 1, tip + 1, 'C', x + 7, tip + 1, down, tip + 3, down, tip + 9, 'V', foot - ARROW.long),
        arrowHead(down, foot, 1),
      );
    }
    return [...shapes, label('small', x, tip - 3, bendAmount(bend), 'middle')];
  });
}

/** `way` is -1 for an arrow that points up, 1 for one that points down. */
const arrowHead = (x: number, y: number, way: 1 | -1): Shape => ({
  ...path('beam', 'M', x, y, 'L', x - ARROW.half, y - way * ARROW.long, 'H', x + ARROW.half, 'Z'),
  filled: true,
});

/** From where to where the string ripples behind a note. */
function waveOf(
  event: NoteEvent,
  placed: PlacedBar,
  index: number,
  reading: Reading,
): readonly [number, number] | undefined {
  if (!event.technique?.vibrato) return undefined;
  const { moments } = placed.measure;
  let next = index + 1;
  while (next < moments.length && moments[next].events.every(({ string }) => string !== event.string)) next++;
  const right = Math.max(bentRight(event, moments[index]), shownNote(event, reading).half);
  const from = placed.middles[index] + right;
  const there = moments[next]?.events.find(({ string }) => string === event.string);
  const air = there && isJoined(there) ? NOTE.joined : STAFF.between;
  const end = there ? placed.middles[next] - shownNote(there, reading).half - air : placed.width - STAFF.after;
  const room = Math.min(MOST_WAVE, end - from);
  const waves = Math.max(2, Math.floor(room / WAVE.long));
  return [from, from + waves * WAVE.long];
}

function drawVibrato(
  event: NoteEvent,
  placed: PlacedBar,
  index: number,
  rows: Rows,
  reading: Reading,
): readonly Shape[] {
  const wave = waveOf(event, placed, index, reading);
  if (!wave) return [];
  const y = heightOf(rows, event.string);
  const steps: (string | number)[] = ['M', wave[0], y];
  for (let x = wave[0]; x < wave[1] - 1; x += WAVE.long) {
    steps.push('Q', x + WAVE.long / 4, y - 2 * WAVE.high, x + WAVE.long / 2, y);
    steps.push('Q', x + (3 * WAVE.long) / 4, y + 2 * WAVE.high, x + WAVE.long, y);
  }
  return [path('stem', ...steps)];
}

/** Accents, the letters of slaps and taps, and the fretting fingers that the author names. */
function marksAbove(placed: PlacedBar, moment: Moment, x: number, rows: Rows): readonly Shape[] {
  const shapes: Shape[] = [];
  if (isAccented(moment)) {
    const y = rows.top - (rows.accents.get(moment) ?? 0);
    shapes.push(path('stem', 'M', x - 5, y - 3, 'L', x + 5, y, 'L', x - 5, y + 3));
  }
  const strikes = new Set(moment.events.flatMap((event) => strikeLetter(event) ?? []));
  if (strikes.size > 0) shapes.push(label('small', x, rows.strikes, [...strikes].join('·'), 'middle'));
  const named = namedIn(placed, moment);
  named.forEach((event, row) => {
    const y = rows.fingers - (named.length - 1 - row) * LETTER_STEP;
    shapes.push(label('pluck', x, y, `${event.finger}`, 'middle'));
  });
  return shapes;
}
