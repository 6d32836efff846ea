/** Sets lines of bars under each other: the systems of a tab step by step, other music bar by bar. */
import { INDENT, type OutLine } from './format-lines.ts';
import { alignSystem, type TabRow } from './format-tab.ts';
import { asWritten, spaced, type Piece } from './format-words.ts';
import { LONGEST_LINE } from './statement-parser.ts';

/** More strings than any instrument has, with the rows for chords and fingers: lines of a tab that are aligned together. */
const MOST_ROWS = 20;

/** A line of music that can be read whole. */
export interface PlacedLine {
  /** The line's number in the statement. */
  readonly place: number;
  readonly line: OutLine;
  /** The label of the line's form in the table. */
  readonly form: string;
  readonly pieces: readonly Piece[];
  /** The blank and the comment that follow the words. */
  readonly trailing: string;
}

/** The bars of neighbouring lines in columns, where the lines have as many bars and the same outer bar lines. */
export function alignBars(placed: readonly PlacedLine[], lines: readonly OutLine[]): void {
  let run: PlacedLine[] = [];
  let shape = '';
  for (const one of placed) {
    const { cells, opening, closing } = framed(cellsOf(one.pieces));
    const own = `${one.form} ${cells.length} ${opening} ${closing}`;
    const last = run[run.length - 1];
    if (last && !(own === shape && areNeighbours(last, one, lines))) {
      alignRun(run);
      run = [];
    }
    run.push(one);
    shape = own;
  }
  alignRun(run);
}

/** Whether nothing but comments stands between the two. */
const areNeighbours = (above: PlacedLine, below: PlacedLine, lines: readonly OutLine[]): boolean =>
  lines.slice(above.place + 1, below.place).every((line) => line.role === 'comment');

function cellsOf(pieces: readonly Piece[]): readonly (readonly Piece[])[] {
  const cells: Piece[][] = [[]];
  for (const piece of pieces) {
    if (piece.kind === 'bar') cells.push([]);
    else cells[cells.length - 1].push(piece);
  }
  return cells;
}

/** The bars without what outer bar lines leave before and behind them. */
function framed<Bar extends { readonly length: number }>(
  cells: readonly Bar[],
): { readonly cells: readonly Bar[]; readonly opening: boolean; readonly closing: boolean } {
  const opening = cells.length > 1 && cells[0].length === 0;
  const behind = opening ? cells.slice(1) : cells;
  const closing = behind.length > 1 && behind[behind.length - 1].length === 0;
  return { cells: closing ? behind.slice(0, -1) : behind, opening, closing };
}

function alignRun(run: readonly PlacedLine[]): void {
  if (run.length < 2) return;
  const rows = run.map(({ pieces }) => framed(cellsOf(pieces).map(spaced)));
  const widths = rows[0].cells.map((_, bar) => Math.max(...rows.map(({ cells }) => cells[bar].length)));
  const written = rows.map(({ cells, opening, closing }) => {
    const padded = cells.map((cell, bar) => (bar === cells.length - 1 && !closing ? cell : cell.padEnd(widths[bar])));
    return `${opening ? '| ' : ''}${padded.join(' | ')}${closing ? ' |' : ''}`;
  });
  writeAll(run, written);
}

/** All of the lines, or none where one of them would become too long to be read. */
function writeAll(run: readonly PlacedLine[], written: readonly string[]): void {
  if (written.some((text, i) => INDENT.length + text.length + run[i].trailing.length > LONGEST_LINE)) return;
  for (const [i, { line, pieces, trailing }] of run.entries())
    line.output = asWritten(INDENT + written[i] + trailing, pieces, line.output);
}

/** The rows of a tab, each system by itself. */
export function alignSystems(placed: readonly PlacedLine[], lines: readonly OutLine[]): void {
  const rows = placed.map((one): PlacedRow => ({ ...one, row: rowOf(one) }));
  for (const system of systemsOf(rows, lines)) {
    writeAll(system, alignSystem(system.map(({ row }) => row)));
  }
}

interface PlacedRow extends PlacedLine {
  readonly row: TabRow;
}

/** A row of a tab, cut at its bar lines. */
function rowOf({ form, pieces }: PlacedLine): TabRow {
  const bars = cellsOf(pieces.slice(1)).map((cell) => cell.map(({ text }) => text));
  return { label: pieces[0].text, steps: form !== 'chords', bars };
}

/** Rows that stand together: up to a blank line, a line that is no row, or a label that comes again. */
function systemsOf(rows: readonly PlacedRow[], lines: readonly OutLine[]): readonly (readonly PlacedRow[])[] {
  const systems: PlacedRow[][] = [];
  for (const [i, one] of rows.entries()) {
    const system = systems[systems.length - 1];
    const together =
      system !== undefined &&
      system.length < MOST_ROWS &&
      areNeighbours(rows[i - 1], one, lines) &&
      !system.some(({ row }) => row.label === one.row.label) &&
      !(one.row.label === 'chords' && standsOver(system, rows.slice(i + 1)));
    if (together) system.push(one);
    else systems.push([one]);
  }
  return systems;
}

/** Whether chords that come behind a string's row stand over the strings below, which begin the next system. */
function standsOver(system: readonly PlacedRow[], below: readonly PlacedRow[]): boolean {
  const next = below.find(({ row }) => /^\d/.test(row.label));
  return next !== undefined && system.some(({ row }) => row.label === next.row.label);
}
