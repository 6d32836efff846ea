/** The lines of a text on their way to the canonical layout: what each is, what becomes of it, and the edit that does it. */
import type { Edit } from '../util/finding.ts';

/** Two blanks before each line of a body. */
export const INDENT = '  ';

/** A line of the text, and what becomes of it. */
export interface OutLine {
  readonly start: number;
  /** Offset before the line end. */
  readonly end: number;
  /** Offset behind the line end. */
  readonly next: number;
  /** A letter is what is never touched: prose, and what belongs to no statement. */
  role: 'blank' | 'comment' | 'words' | 'letter';
  /** Whether a statement begins here. */
  begins: boolean;
  /** The line as it will be, without its line end. */
  output: string;
  removed: boolean;
}

/** The lines from offset `from` up to `to`, which is the end of the text or the start of a line. */
export function linesOf(text: string, from = text.startsWith('\ufeff') ? 1 : 0, to = text.length): OutLine[] {
  const lines: OutLine[] = [];
  for (let start = from; start < to;) {
    const end = endOfLine(text, start);
    const next = Math.min(text.length, end + (text[end] === '\r' && text[end + 1] === '\n' ? 2 : 1));
    lines.push({ start, end, next, role: 'letter', begins: false, output: text.slice(start, end), removed: false });
    start = next;
  }
  return lines;
}

/** Where the line that holds `offset` begins. */
export function startOfLine(text: string, offset: number): number {
  let start = offset;
  // Between the two halves of one line end there is no line.
  if (text[start] === '\n' && text[start - 1] === '\r') start--;
  while (start > 0 && text[start - 1] !== '\n' && text[start - 1] !== '\r') start--;
  return start === 0 && text.startsWith('\ufeff') ? 1 : start;
}

/** Where the line that holds `offset` ends, before its line end. */
export function endOfLine(text: string, offset: number): number {
  let end = offset;
  while (end < text.length && text[end] !== '\n' && text[end] !== '\r') end++;
  return end;
}

/** The line that covers an offset; the lines are in order. */
export function lineAt(lines: readonly OutLine[], offset: number): OutLine {
  let low = 0;
  let high = lines.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (lines[middle].start <= offset) low = middle;
    else high = middle - 1;
  }
  return lines[low];
}

/** The smallest edit that turns the line into its output; none where nothing changes. */
export function editOf(line: OutLine, text: string): readonly Edit[] {
  if (line.removed) return [{ span: { start: line.start, end: line.next }, text: '' }];
  const before = text.slice(line.start, line.end);
  if (before === line.output) return [];
  const shorter = Math.min(before.length, line.output.length);
  let head = 0;
  while (head < shorter && before[head] === line.output[head]) head++;
  let tail = 0;
  while (tail < shorter - head && before.at(-1 - tail) === line.output.at(-1 - tail)) tail++;
  const span = { start: line.start + head, end: line.end - tail };
  return [{ span, text: line.output.slice(head, line.output.length - tail) }];
}
