/** Draws one system of a section: strings, numbers, names above, rhythm and the plucking hand's letters below. */
import { stringCount } from '../fretboard/instrument.ts';
import type { Instrument } from '../fretboard/instrument.ts';
import type { NoteEvent } from '../realise/score.ts';
import { formatNoteName } from '../theory/note.ts';
import { besideSymbol, fittedRuns, soundingRuns } from './chord-labels.ts';
import { drawBarLines, drawEndings } from './draw-frames.ts';
import { drawJoins, type Neighbours } from './draw-joins.ts';
import { drawNotes } from './draw-notes.ts';
import { drawRhythm } from './draw-rhythm.ts';
import { drawJoinedWords, drawSyllables } from './draw-words.ts';
import type { Drawing, Group, Shape } from './drawing.ts';
import { box, label, line, path } from './drawing.ts';
import type { PlacedBar } from './layout.ts';
import { MOST_LETTERS_BESIDE } from './layout.ts';
import type { Reading } from './look.ts';
import { middleOf, STAFF, TYPE } from './metrics.ts';
import { pluckingFingers, strokeOf } from './moments.ts';
import { labelsWithRoom, LETTER_STEP, rowsOf, type Rows } from './rows.ts';
import { spokenBar } from './spoken.ts';
import { textWidth } from './text-width.ts';

export interface SystemToDraw extends Neighbours {
  readonly bars: readonly PlacedBar[];
  readonly instrument: Instrument;
  /** The whole width, left margin included. */
  readonly width: number;
  /** The section's name, for the bars' ids: `verse.2`. */
  readonly name: string;
  /** Whether the section ends here. */
  readonly ends: boolean;
  readonly reading: Reading;
}

const MARGIN_AIR = 14;

/** The room that the strings' names take at the left of a system. */
export const marginOf = (instrument: Instrument): number =>
  Math.ceil(
    MARGIN_AIR + Math.max(...instrument.tuning.strings.map((note) => textWidth(formatNoteName(note), TYPE.small))),
  );

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
    ...drawOver(system, rows),
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

/** What goes over bar lines lies above all bars, and leaves clicks to the bar below it. */
function drawOver({ bars, before, after, reading }: SystemToDraw, rows: Rows): readonly Group[] {
  const shapes = [
    ...drawEndings(bars, rows),
    ...drawJoins(bars, rows, { before, after }, reading),
    ...drawJoinedWords(bars, rows, after),
  ];
  return shapes.length === 0 ? [] : [{ kind: 'group', x: 0, y: 0, quiet: true, shapes }];
}

function drawBar(system: SystemToDraw, placed: PlacedBar, rows: Rows, final: boolean): Group {
  const { bar, frame, moments } = placed.measure;
  const { width } = placed;
  const strings = stringCount(system.instrument);
  const shapes: Shape[] = [
    { ...box('here', 1, 2, width - 1, rows.height - 4), rounding: 4 },
    { ...box('hit', 0, 0, width, rows.height), clear: true },
    ...drawNames(placed, rows),
    label('small', 3, rows.numbers, bar.number === 0 ? '' : `${bar.number}`),
    ...drawNotes(placed, rows, strings, system.reading),
    ...drawRhythm(placed, rows.base),
    ...drawHand(placed, rows),
    ...drawSyllables(placed, rows),
    ...drawBarLines(placed, rows, strings, final),
  ];
  if (bar.broken) shapes.push(...drawBroken(placed, rows));
  return {
    kind: 'group',
    x: placed.x,
    y: 0,
    style: 'bar',
    bar: `${system.name}.${bar.number}`,
    says: spokenBar(bar, moments, frame),
    shapes: shapes.filter((shape) => shape.kind !== 'label' || shape.runs.some((run) => run.text !== '')),
  };
}

function drawNames(placed: PlacedBar, rows: Rows): readonly Shape[] {
  return labelsWithRoom(placed).flatMap(({ label: each, index, room }): Shape[] => {
    const x = placed.middles[index] - STAFF.nameBefore;
    const symbol = fittedRuns([{ text: each.symbol }], room, TYPE.symbol, true);
    const shapes: Shape[] = [{ kind: 'label', style: 'symbol', align: 'start', x, y: rows.symbols, ...symbol }];
    const runs = soundingRuns(each, rows.wording);
    if (runs.length > 0) {
      const right = rows.beside ? besideSymbol(each) : 0;
      const said = fittedRuns(runs, room - right, TYPE.sounds);
      shapes.push({ kind: 'label', style: 'sounds', align: 'start', x: x + right, y: rows.sounds, ...said });
    }
    return shapes;
  });
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
