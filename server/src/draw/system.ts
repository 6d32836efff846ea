/** Draws one system of a section: strings, numbers, names above, rhythm and the plucking hand's letters below. */
import { stringCount } from '../fretboard/instrument.ts';
import type { Instrument } from '../fretboard/instrument.ts';
import type { NoteEvent } from '../realise/score.ts';
import { formatNoteName } from '../theory/note.ts';
import type { Wording } from './chord-labels.ts';
import { besideSymbol, chooseWording, fittedRuns, soundingRuns } from './chord-labels.ts';
import { drawRhythm, RHYTHM } from './draw-rhythm.ts';
import type { Drawing, Group, Shape } from './drawing.ts';
import { box, label, line, path } from './drawing.ts';
import type { PlacedBar } from './layout.ts';
import { eventText, halfNumber, MOST_LETTERS_BESIDE } from './layout.ts';
import { middleOf, STAFF, TYPE } from './metrics.ts';
import { isAccented, pluckingFingers, strokeOf } from './moments.ts';
import type { Moment } from './moments.ts';
import { spokenBar } from './spoken.ts';
import { textWidth } from './text-width.ts';

export interface SystemToDraw {
  readonly bars: readonly PlacedBar[];
  readonly instrument: Instrument;
  /** The whole width, left margin included. */
  readonly width: number;
  /** The section's name, for the bars' ids: `verse.2`. */
  readonly name: string;
  /** Whether the section ends here. */
  readonly ends: boolean;
}

const SYMBOL_BASE = 20;
const SECOND_ROW_BASE = 34;
/** From the lowest base line of the names to the highest string, with room for bar numbers and accents. */
const NAMES_TO_STRINGS = 28.5;
const LETTERS_BELOW_RHYTHM = 14;
const LETTER_STEP = 11;
const FOOT = 8;
const MARGIN_AIR = 14;

/** The room that the strings' names take at the left of a system. */
export const marginOf = (instrument: Instrument): number =>
  Math.ceil(
    MARGIN_AIR + Math.max(...instrument.tuning.strings.map((note) => textWidth(formatNoteName(note), TYPE.small))),
  );

/** Heights in a system, which depend on what its bars hold. */
interface Rows {
  readonly wording: Wording;
  readonly beside: boolean;
  /** Of the highest and the lowest string. */
  readonly top: number;
  readonly base: number;
  /** Base line of the first row of letters. */
  readonly letters: number;
  readonly height: number;
}

export function drawSystem(system: SystemToDraw): Drawing {
  const { bars, instrument } = system;
  const rows = rowsOf(bars, stringCount(instrument));
  const first = bars[0].measure.bar.number;
  const last = bars[bars.length - 1].measure.bar.number;
  const names = [...instrument.tuning.strings]
    .reverse()
    .map((note, index) => label('small', 8, rows.top + STAFF.gap * index + middleOf(TYPE.small), formatNoteName(note)));
  const shapes: Shape[] = [
    ...names,
    line('barline', bars[0].x + 0.5, rows.top, bars[0].x + 0.5, rows.base),
    ...bars.map((bar, index) => drawBar(system, bar, rows, system.ends && index === bars.length - 1)),
  ];
  const end = bars[bars.length - 1];
  return {
    width: Math.max(system.width, end.x + end.width + 1),
    height: rows.height,
    says: first === last ? `bar ${first}` : `bars ${first} to ${last}`,
    reads: 'parts',
    shapes,
  };
}

function rowsOf(bars: readonly PlacedBar[], strings: number): Rows {
  const labelled = bars.flatMap(labelsWithRoom);
  const { wording, beside } = chooseWording(labelled);
  const secondRow = !beside && labelled.some(({ label: each }) => each.sounding !== undefined);
  const top = (secondRow ? SECOND_ROW_BASE : SYMBOL_BASE) + NAMES_TO_STRINGS;
  const base = top + STAFF.gap * (strings - 1);
  const measures = bars.map((bar) => bar.measure);
  const anyRhythm = measures.some(({ rhythm }) => rhythm.marks.length > 0);
  const triplets = measures.some(({ rhythm }) => rhythm.triplets.length > 0);
  const rhythm = !anyRhythm ? 0 : triplets ? RHYTHM.heightWithTriplets : RHYTHM.height;
  const letterRows = Math.max(0, ...measures.flatMap(({ moments }) => moments.map(letterRowsOf)));
  const letters = base + rhythm + LETTERS_BELOW_RHYTHM;
  return { wording, beside, top, base, letters, height: letters + LETTER_STEP * (letterRows - 1) + FOOT };
}

function letterRowsOf(moment: Moment): number {
  const fingers = pluckingFingers(moment).length;
  if (fingers > MOST_LETTERS_BESIDE) return fingers;
  return fingers > 0 || strokeOf(moment) !== undefined ? 1 : 0;
}

function labelsWithRoom({ measure, middles, width }: PlacedBar) {
  return measure.labels.flatMap((each, index) => {
    if (!each) return [];
    const next = measure.labels.findIndex((other, place) => place > index && other);
    const end = next < 0 ? width + STAFF.nameBefore : middles[next];
    return [{ label: each, index, room: end - middles[index] - STAFF.betweenNames }];
  });
}

function drawBar(system: SystemToDraw, placed: PlacedBar, rows: Rows, final: boolean): Group {
  const { bar } = placed.measure;
  const { top, base } = rows;
  const { width } = placed;
  const shapes: Shape[] = [
    { ...box('here', 1, 2, width - 1, rows.height - 4), rounding: 4 },
    { ...box('hit', 0, 0, width, rows.height), clear: true },
    stringLines(placed, rows, stringCount(system.instrument)),
    ...drawNames(placed, rows),
    label('small', 3, top - 11, bar.number === 0 ? '' : `${bar.number}`),
    ...placed.measure.moments.flatMap((moment, index) => drawMoment(moment, placed.middles[index], rows)),
    ...drawRhythm(placed, base),
    ...drawHand(placed, rows),
  ];
  if (bar.broken) shapes.push(...drawBroken(placed, rows));
  if (final) {
    shapes.push(line('barline', width - 4.5, top, width - 4.5, base));
    shapes.push(box('beam', width - 2, top - 0.5, 3, base - top + 1));
  } else shapes.push(line('barline', width + 0.5, top, width + 0.5, base));
  return {
    kind: 'group',
    x: placed.x,
    y: 0,
    style: 'bar',
    bar: `${system.name}.${bar.number}`,
    says: spokenBar(bar, placed.measure.moments),
    shapes: shapes.filter((shape) => shape.kind !== 'label' || shape.runs.some((run) => run.text !== '')),
  };
}

const heightOf = (rows: Rows, string: number): number => rows.top + STAFF.gap * (string - 1);

/** The strings stop short of each number, so that no ground need be painted behind it. */
function stringLines(placed: PlacedBar, rows: Rows, strings: number): Shape {
  const steps: (string | number)[] = [];
  for (let string = 1; string <= strings; string++) {
    const y = heightOf(rows, string);
    steps.push('M', 1, y);
    placed.measure.moments.forEach((moment, index) => {
      const event = moment.events.find((each) => each.string === string);
      if (!event) return;
      const half = halfNumber(event) - 1;
      steps.push('H', placed.middles[index] - half, 'M', placed.middles[index] + half, y);
    });
    steps.push('H', placed.width);
  }
  return path('string', ...steps);
}

function drawNames(placed: PlacedBar, rows: Rows): readonly Shape[] {
  return labelsWithRoom(placed).flatMap(({ label: each, index, room }): Shape[] => {
    const x = placed.middles[index] - STAFF.nameBefore;
    const y = SYMBOL_BASE;
    const symbol = fittedRuns([{ text: each.symbol }], room, TYPE.symbol, true);
    const shapes: Shape[] = [{ kind: 'label', style: 'symbol', align: 'start', x, y, ...symbol }];
    const runs = soundingRuns(each, rows.wording);
    if (runs.length > 0) {
      const right = rows.beside ? besideSymbol(each) : 0;
      const said = fittedRuns(runs, room - right, TYPE.sounds);
      const place = { x: x + right, y: rows.beside ? SYMBOL_BASE : SECOND_ROW_BASE };
      shapes.push({ kind: 'label', style: 'sounds', align: 'start', ...place, ...said });
    }
    return shapes;
  });
}

function drawMoment(moment: Moment, x: number, rows: Rows): readonly Shape[] {
  const shapes = moment.events.flatMap((event) => drawNumber(event, x, heightOf(rows, event.string)));
  if (isAccented(moment)) {
    const y = rows.top - 15;
    shapes.push(path('stem', 'M', x - 5, y - 3, 'L', x + 5, y, 'L', x - 5, y + 3));
  }
  return shapes;
}

function drawNumber(event: NoteEvent, x: number, y: number): readonly Shape[] {
  const melody = event.voice === 'melody';
  const style = ['fret', event.fret === 0 ? 'open' : '', melody ? 'melody' : ''].filter((one) => one !== '').join(' ');
  const number = label(style, x, y + middleOf(TYPE.fret), eventText(event), 'middle');
  if (!melody) return [number];
  const half = halfNumber(event) - 1;
  return [{ ...box('ring', x - half, y - 8, 2 * half, 16), rounding: 8, clear: true }, number];
}

/** Letters of the plucking fingers; for strokes the way that the hand goes. */
function drawHand(placed: PlacedBar, rows: Rows): readonly Shape[] {
  return placed.measure.moments.flatMap((moment, index): Shape[] => {
    const x = placed.middles[index];
    const stroke = strokeOf(moment);
    const fingers = pluckingFingers(moment);
    if (stroke !== undefined) return [strokeSign(stroke, x, rows.letters)];
    if (fingers.length <= MOST_LETTERS_BESIDE)
      return fingers.length === 0 ? [] : [label('pluck', x, rows.letters, fingers.join('·'), 'middle')];
    // The finger on the highest string stands on top, as on the strings.
    return [...fingers]
      .reverse()
      .map((finger, row) => label('pluck', x, rows.letters + row * LETTER_STEP, finger, 'middle'));
  });
}

function strokeSign(stroke: NonNullable<NoteEvent['stroke']>, x: number, y: number): Shape {
  const top = y - 10;
  const foot = y + 1;
  if (stroke === 'down')
    return path('stem', 'M', x, top, 'V', foot, 'M', x - 3.5, foot - 4.5, 'L', x, foot, 'L', x + 3.5, foot - 4.5);
  if (stroke === 'up')
    return path('stem', 'M', x, foot, 'V', top, 'M', x - 3.5, top + 4.5, 'L', x, top, 'L', x + 3.5, top + 4.5);
  if (stroke === 'mute') return path('stem', 'M', x - 4, y - 8, 'L', x + 4, y, 'M', x - 4, y, 'L', x + 4, y - 8);
  return path(
    'stem',
    'M',
    x,
    foot,
    'Q',
    x + 5,
    y - 2,
    x,
    y - 4.5,
    'Q',
    x - 5,
    y - 7,
    x,
    top,
    'M',
    x - 3,
    top + 3,
    'L',
    x,
    top,
    'L',
    x + 4,
    top + 2,
  );
}

function drawBroken(placed: PlacedBar, rows: Rows): readonly Shape[] {
  const frame = {
    ...box('broken', 4, rows.top - 4, placed.width - 8, rows.base - rows.top + 8),
    rounding: 4,
    clear: true,
  };
  if (placed.measure.moments.some((moment) => moment.events.length > 0)) return [frame];
  const y = (rows.top + rows.base) / 2 + STAFF.gap / 2 + middleOf(TYPE.small);
  return [frame, label('small', placed.width / 2, y, 'not read', 'middle')];
}
