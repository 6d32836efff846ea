/**
 * Writes a lesson in its one canonical layout. What could not be read is left as it stands, prose is left to the letter, and
 * no word changes its meaning: each line that is written anew is cut into words again and must say the same.
 */
import type { Edit } from '../util/finding.ts';
import { applyEdits } from '../util/edits.ts';
import { LONGEST_TEXT, readDocument, type PlacedStatement } from './document.ts';
import { alignSystem, type TabRow } from './format-tab.ts';
import { slotsOf, type Pattern } from './patterns.ts';
import type { SlotKind } from './slots.ts';
import { LONGEST_LINE } from './statement-parser.ts';
import { chordModifiers, statementNamed, type StatementForm } from './statements.ts';
import { isGroup, type Group, type Leaf, type Line, type Part } from './tree.ts';
import { cutWords, isBlank, type CutLine, type Word } from './words.ts';

const INDENT = '  ';
/** More strings than any instrument has, with the rows for chords and fingers: lines of a tab that are aligned together. */
const MOST_ROWS = 20;

/** The text in canonical layout. Formatting that again changes nothing. */
export function formatText(text: string): string {
  return applyEdits(text, formatEdits(text));
}

/** What {@link formatText} changes: at most one edit a line, each as small as it can be, in the order of the text. */
export function formatEdits(text: string): Edit[] {
  const { statements, problems } = readDocument(text);
  if (problems.some((problem) => problem.kind === 'not-a-text' || problem.kind === 'lesson-too-long')) return [];
  const lines = linesOf(text);
  let from = 0;
  for (const [i, statement] of statements.entries()) {
    const end = statements[i + 1]?.start ?? text.length;
    let to = from;
    while (to < lines.length && lines[to].start < end) to++;
    layOut(statement, lines.slice(from, to));
    from = to;
  }
  settleBlankLines(lines, text);
  const edits = lines.flatMap((line) => editOf(line, text));
  const growth = edits.reduce((sum, { span, text: written }) => sum + written.length - (span.end - span.start), 0);
  // What would grow beyond the limit could not be read again.
  return text.length + growth > LONGEST_TEXT ? [] : edits;
}

/** A line of the text, and what becomes of it. */
interface OutLine {
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

function linesOf(text: string): OutLine[] {
  const lines: OutLine[] = [];
  for (let start = text.startsWith('\ufeff') ? 1 : 0; start < text.length;) {
    let end = start;
    while (end < text.length && text[end] !== '\n' && text[end] !== '\r') end++;
    const next = Math.min(text.length, end + (text[end] === '\r' && text[end + 1] === '\n' ? 2 : 1));
    lines.push({ start, end, next, role: 'letter', begins: false, output: text.slice(start, end), removed: false });
    start = next;
  }
  return lines;
}

/** Decides what each line of one statement becomes, but for blank lines between them. */
function layOut({ tree, start }: PlacedStatement, lines: readonly OutLine[]): void {
  const form = tree.keyword === undefined ? undefined : statementNamed(tree.keyword);
  const cuts = lines.map((line) => cutWords(line.output.slice(0, LONGEST_LINE), line.start - start));
  lines[0].begins = cuts[0].words.length > 0;
  const letters = lettersOf(tree.prose, lines, cuts, start, form);
  const read = new Map((form ? [tree.head, ...tree.body] : []).map((line) => [line.start, line]));
  const troubled = new Set(tree.problems.map((problem) => lineAt(lines, start + problem.span.start)));

  const rows: PlacedRow[] = [];
  for (const [i, line] of lines.entries()) {
    if (letters(i)) continue;
    const raw = line.output;
    const { words, comment } = cuts[i];
    const remark = comment ? tree.text.slice(comment.start, comment.end) : '';
    line.role = words.length > 0 ? 'words' : comment ? 'comment' : 'blank';
    if (words.length === 0) line.output = comment && isBlank(raw[0]) ? indentOfRemark(form) + remark : remark;
    const found = words.length > 0 ? read.get(words[0].start) : undefined;
    if (!found || !form || found.broken || raw.length > LONGEST_LINE || troubled.has(line)) continue;
    const pieces = piecesOf(found, patternOf(form, found), words, tree.text);
    const trailing = comment ? ` ${remark}` : '';
    line.output = asWritten((i === 0 ? '' : INDENT) + spaced(pieces) + trailing, pieces, raw);
    if (form.keyword === 'tab' && i > 0 && found.form !== 'each')
      rows.push({ place: i, line, pieces, trailing, row: rowOf(found, pieces) });
  }
  for (const system of systemsOf(rows, lines)) alignRows(system);
  indentRemarks(lines);
}

/** Which lines, by number, are left to the letter: prose, and a statement that nobody knows with all that is under it. */
function lettersOf(
  prose: { readonly end: number } | undefined,
  lines: readonly OutLine[],
  cuts: readonly CutLine[],
  start: number,
  form: StatementForm | undefined,
): (line: number) => boolean {
  if (prose) return (line) => line > 0 && lines[line].start - start < prose.end;
  if (form || !lines[0].begins) return () => false;
  let last = lines.length - 1;
  while (last > 0 && cuts[last].words.length === 0 && !/^[^\S\r\n]+;/.test(lines[last].output)) last--;
  return (line) => line <= last;
}

/** The line that covers an offset; the lines are in order. */
function lineAt(lines: readonly OutLine[], offset: number): OutLine {
  let low = 0;
  let high = lines.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (lines[middle].start <= offset) low = middle;
    else high = middle - 1;
  }
  return lines[low];
}

const indentOfRemark = (form: StatementForm | undefined): string => (form && form.body.length > 0 ? INDENT : '');

/** A comment in the first column above a line of the body stands with that line. */
function indentRemarks(lines: readonly OutLine[]): void {
  let below: OutLine | undefined;
  for (let i = lines.length - 1; i >= 0; i--) {
    const line = lines[i];
    if (line.role === 'words') below = line;
    if (line.role === 'comment' && line.output.startsWith(';') && below && isBlank(below.output[0]))
      line.output = INDENT + line.output;
  }
}

const patternOf = (form: StatementForm, line: Line): Pattern =>
  line.form === 'head' ? form.head : form.body.find((one) => one.label === line.form)!.pattern;

/** A word as it is to be written. */
interface Piece {
  readonly kind: Word['kind'];
  readonly text: string;
  /** What the word says when it is read again: a title without its quotes. */
  readonly says: string;
}

/** `source` is the statement, from whose start the words and the tree count their offsets. */
function piecesOf(line: Line, pattern: Pattern, words: readonly Word[], source: string): readonly Piece[] {
  const kinds = new Map(slotsOf(pattern).map((slot) => [slot.label, slot.kind]));
  const labels = new Map(leavesOf(line.parts).map((leaf) => [leaf.start, leaf.label]));
  return inOrder(line, words).map((word): Piece => {
    if (word.kind === 'quoted') return { kind: word.kind, text: quoted(word, source), says: word.text };
    const kind = kinds.get(labels.get(word.start) ?? '');
    const text = kind ? withPlainAccidentals(word.text, kind) : word.text;
    return { kind: word.kind, text, says: text };
  });
}

const leavesOf = (parts: readonly Part[]): readonly Leaf[] =>
  parts.flatMap((part) => (isGroup(part) ? leavesOf(part.parts) : [part]));

/** The words of a line with the modifiers of each chord in the order of the table. */
function inOrder(line: Line, words: readonly Word[]): readonly Word[] {
  const result = [...words];
  const places = new Map(words.map((word, i) => [word.start, i]));
  for (const chord of line.parts.filter((part): part is Group => isGroup(part) && part.label === 'chord')) {
    const [symbol, ...modifiers] = chord.parts;
    const sorted = [...modifiers].sort((a, b) => MODIFIERS.indexOf(a.label) - MODIFIERS.indexOf(b.label));
    const written = [symbol, ...sorted].flatMap((part) => {
      const from = places.get(part.start)!;
      let to = from;
      while (to < words.length && words[to].start < part.end) to++;
      return words.slice(from, to);
    });
    result.splice(places.get(chord.start)!, written.length, ...written);
  }
  return result;
}

const MODIFIERS: readonly (string | undefined)[] =
  chordModifiers.is === 'anyOrder' ? chordModifiers.of.map((one) => ('label' in one ? one.label : undefined)) : [];

/** In straight quotes; what stands in them already stays as it is. */
function quoted(word: Word, source: string): string {
  const raw = source.slice(word.start, word.end);
  if (raw.startsWith('"') && raw.endsWith('"')) return raw;
  return `"${word.text.replace(/["\\]/g, '\\$&')}"`;
}

const MUSICAL: ReadonlySet<SlotKind> = new Set(['chord', 'tonic', 'note', 'bass', 'tone', 'tone or any']);

/** `♯` as `#` and `♭` as `b`, where nothing else can be meant by them. */
function withPlainAccidentals(text: string, kind: SlotKind): string {
  const certain =
    MUSICAL.has(kind) ||
    (kind === 'tuning' && /^\p{L}[#b♯♭]+\d?$/u.test(text)) ||
    (kind === 'step' && /^([+-]?\d+[♯♭]|[♯♭]+\d+)$/.test(text));
  return certain ? text.replaceAll('♯', '#').replaceAll('♭', 'b') : text;
}

/** Words with one blank between them; commas, colons and a triplet's brackets stand close. */
function spaced(pieces: readonly Piece[]): string {
  let written = '';
  let insideTriplet = false;
  for (const [i, { kind, text }] of pieces.entries()) {
    const opening = kind === 'word' && text === 'triplet(';
    const closing: boolean = kind === 'word' && text === ')' && insideTriplet;
    const close = i === 0 || kind === 'comma' || kind === 'colon' || closing || pieces[i - 1].text === 'triplet(';
    written += (close ? '' : ' ') + text;
    insideTriplet = opening || (insideTriplet && !closing);
  }
  return written;
}

/** The line as written, if it says what it is meant to say when it is read again; else the line as it was. */
function asWritten(written: string, pieces: readonly Piece[], before: string): string {
  if (written.length > LONGEST_LINE) return before;
  const again = cutWords(written, 0).words;
  const same = again.every(({ kind, text }, i) => kind === pieces[i]?.kind && text === pieces[i].says);
  return same && again.length === pieces.length ? written : before;
}

interface PlacedRow {
  /** The line's number in the statement. */
  readonly place: number;
  readonly line: OutLine;
  readonly pieces: readonly Piece[];
  readonly trailing: string;
  readonly row: TabRow;
}

/** A row of a tab, cut at its bar lines. */
function rowOf(line: Line, pieces: readonly Piece[]): TabRow {
  const bars: string[][] = [[]];
  for (const { kind, text } of pieces.slice(1)) {
    if (kind === 'bar') bars.push([]);
    else bars[bars.length - 1].push(text);
  }
  return { label: pieces[0].text, steps: line.form !== 'chords', bars };
}

/** Rows that stand together: up to a blank line, a line that is no row, or a label that comes again. */
function systemsOf(rows: readonly PlacedRow[], lines: readonly OutLine[]): readonly (readonly PlacedRow[])[] {
  const systems: PlacedRow[][] = [];
  let place = -1;
  for (const [i, one] of rows.entries()) {
    const system = systems[systems.length - 1];
    const together =
      system !== undefined &&
      system.length < MOST_ROWS &&
      lines.slice(place + 1, one.place).every((line) => line.role === 'comment') &&
      !system.some(({ row }) => row.label === one.row.label) &&
      !(one.row.label === 'chords' && standsOver(system, rows.slice(i + 1, i + 1 + MOST_ROWS)));
    if (together) system.push(one);
    else systems.push([one]);
    ({ place } = one);
  }
  return systems;
}

/** Whether chords that come behind a string's row stand over the strings below, which begin the next system. */
function standsOver(system: readonly PlacedRow[], below: readonly PlacedRow[]): boolean {
  const next = below.find(({ row }) => /^\d/.test(row.label));
  return next !== undefined && system.some(({ row }) => row.label === next.row.label);
}

function alignRows(system: readonly PlacedRow[]): void {
  const aligned = alignSystem(system.map(({ row }) => row));
  if (aligned.some((row, i) => INDENT.length + row.length + system[i].trailing.length > LONGEST_LINE)) return;
  for (const [i, { line, pieces, trailing }] of system.entries())
    line.output = asWritten(INDENT + aligned[i] + trailing, pieces, line.output);
}

/**
 * No blank line at the start or the end, never two in a row, and one around each statement of several lines; a comment right
 * above a statement stands with it. The last line is ended; a new line ends as the one above it does.
 */
function settleBlankLines(lines: readonly OutLine[], text: string): void {
  const lineEnd = ({ end, next }: OutLine): string => text.slice(end, next);
  let blankAbove = true;
  for (const line of lines) {
    line.removed = line.role === 'blank' && blankAbove;
    blankAbove = line.role === 'blank';
  }
  for (let i = lines.length - 1; i >= 0 && lines[i].role === 'blank'; i--) lines[i].removed = true;
  const left = lines.filter((line) => !line.removed);
  const last = left[left.length - 1];
  if (last && last.next === last.end) last.output += /\r\n|\n|\r/.exec(text)?.[0] ?? '\n';
  for (const [i, line] of left.entries()) {
    // Without its blanks, the end of such a line would become one with the end of the line above.
    if (i > 0 && line.output === '' && lineEnd(left[i - 1]) === '\r' && lineEnd(line) === '\n')
      line.output = text.slice(line.start, line.end);
  }

  const first = left.findIndex((line) => line.begins);
  let severalAbove = false;
  for (let head = first; head >= 0 && head < left.length;) {
    let next = head + 1;
    while (next < left.length && !left[next].begins) next++;
    const several = left.slice(head + 1, next).some((line) => line.role === 'words' || line.role === 'letter');
    if (head > first && (several || severalAbove)) {
      let top = head;
      while (left[top - 1].role === 'comment' && left[top - 1].output.startsWith(';')) top--;
      if (left[top - 1].role !== 'blank') left[top].output = lineEnd(left[top - 1]) + left[top].output;
    }
    severalAbove = several;
    head = next;
  }
}

/** The smallest edit that turns the line into its output; none where nothing changes. */
function editOf(line: OutLine, text: string): readonly Edit[] {
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
