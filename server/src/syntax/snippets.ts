/**
 * Statements and lines with gaps to fill, in the snippet syntax that editors share. They are made from the examples of the table,
 * so that a new construct has its snippet without anybody writing one.
 */
import { match, slotsOf, type Pattern } from './patterns.ts';
import { slotKinds, type SlotForm, type SlotKind } from './slots.ts';
import { statements, type LineForm, type StatementForm } from './statements.ts';
import { isGroup, type Leaf, type Part } from './tree.ts';
import { cutWords } from './words.ts';

/** A gap, as its place in the table tells it. */
export interface Gap {
  readonly form: StatementForm;
  /** Undefined in a statement's first line. */
  readonly line?: LineForm;
  readonly label: string;
  readonly kind: SlotKind;
  /** What the example says there. */
  readonly example: string;
}

/**
 * What to propose for a gap, the likeliest first, where a lesson knows better than the example; nothing leaves the example.
 * `without` leaves out the line of the body that the gap is in.
 */
export type Fill = (gap: Gap) => readonly string[] | 'without' | undefined;

/** Prose by itself: facts in it would speak of sections that a lesson may not have. */
const PROSE: Readonly<Record<string, readonly string[]>> = {
  text: ['## What is new', 'What a student reads.'],
  note: ['What the teacher alone reads.'],
};
const INDENT = '  ';

/** A gap of a piece has what it proposes; a piece without is written as it stands. */
interface Piece {
  readonly text: string;
  readonly proposed?: readonly string[];
}

/** The whole statement, its body in lines of their own. */
export function statementSnippet(form: StatementForm, fill: Fill = () => undefined): string {
  const numbers = counter();
  const [head, ...rest] = form.example.split('\n');
  const first = written(piecesOf(head, form.head, { form, fill }) ?? [{ text: head }], numbers);
  const prose = PROSE[form.keyword];
  if (form.prose && prose)
    return [first, prose.map((text) => INDENT + gapped([text], numbers)).join('\n\n')].join('\n');
  const body = rest.flatMap((text) => {
    const line = lineOf(form, text);
    const pieces = line && piecesOf(text.trim(), line.pattern, { form, line, fill });
    return pieces ? [INDENT + written(pieces, numbers)] : [];
  });
  return [first, ...body].join('\n');
}

/** One line of a body, without its indent; undefined where the lesson has nothing to put into it. */
export function lineSnippet(form: StatementForm, line: LineForm, fill: Fill = () => undefined): string | undefined {
  const pieces = piecesOf(line.example, line.pattern, { form, line, fill });
  return pieces && written(pieces, counter());
}

/** The file that `contributes.snippets` names: every statement and every line, by their names. */
export function snippetsFile(): Readonly<
  Record<string, { readonly description: string; readonly body: readonly string[] }>
> {
  const file: Record<string, { description: string; body: readonly string[] }> = {};
  const seen = new Set<LineForm>();
  for (const form of statements) {
    file[form.keyword] = { description: form.says, body: statementSnippet(form).split('\n') };
    for (const line of form.body) {
      // Settings are written in a section or a variant as they are by themselves.
      if (seen.has(line) || statements.some(({ head }) => head === line.pattern)) continue;
      seen.add(line);
      file[`${form.keyword}, ${line.keyword ?? line.label}`] = {
        description: line.says,
        body: [lineSnippet(form, line)!],
      };
    }
  }
  return file;
}

const lineOf = (form: StatementForm, text: string): LineForm | undefined => {
  const [word] = text.trim().split(/\s+/, 1);
  return form.body.find((line) => line.keyword === word) ?? form.body.find((line) => line.keyword === undefined);
};

interface Home {
  readonly form: StatementForm;
  readonly line?: LineForm;
  readonly fill: Fill;
}

/** Undefined where the line is to be left out. */
function piecesOf(text: string, pattern: Pattern, { form, line, fill }: Home): readonly Piece[] | undefined {
  const { words } = cutWords(text, 0);
  const keyword = line ? line.keyword : form.keyword;
  const from = keyword === undefined ? 0 : 1;
  const leaves = leavesOf(match(pattern, words, from).parts);
  const kinds = new Map(slotsOf(pattern).map(({ label, kind }) => [label, kind]));
  const choices = choicesOf(pattern);
  const pieces: Piece[] = [];
  let at = 0;
  const gap = (start: number, end: number, proposed: readonly string[]): void => {
    if (start > at) pieces.push({ text: text.slice(at, start) });
    pieces.push({ text: text.slice(start, end), proposed });
    at = end;
  };
  // Music is written over as a whole, behind what it starts from.
  const music = line?.bars ? musicStart(text, words, from) : text.length;
  for (let i = 0; i < leaves.length && leaves[i].start < music; i++) {
    const { label, start } = leaves[i];
    const kind = kinds.get(label);
    const words = choices.get(label);
    if (words) gap(start, leaves[i].end, [leaves[i].text, ...words.filter((one) => one !== leaves[i].text)]);
    if (kind === undefined) continue;
    // `4 2 1`, `minor pentatonic`: what is one thing to say is one gap.
    while (leaves[i + 1]?.label === label && /^\s+$/.test(text.slice(leaves[i].end, leaves[i + 1].start))) i++;
    const inner = (slotKinds[kind] as SlotForm).quoted ? 1 : 0;
    const example = text.slice(start + inner, leaves[i].end - inner);
    const proposed = fill({ form, line, label, kind, example });
    if (proposed === 'without') return undefined;
    gap(start + inner, leaves[i].end - inner, proposed && proposed.length > 0 ? proposed : [example]);
  }
  if (music < text.length) gap(music, text.length, [text.slice(music)]);
  if (at < text.length) pieces.push({ text: text.slice(at) });
  return pieces;
}

/** Behind the colon of a contour, behind the string and the bar line of a row, or at the start. */
function musicStart(text: string, words: ReturnType<typeof cutWords>['words'], from: number): number {
  const colon = words.findIndex(({ kind }) => kind === 'colon');
  const row = words[from]?.kind === 'word' && words[from + 1]?.kind === 'bar' && /^\d+$/.test(words[from].text);
  const first = from === 1 && colon > 0 ? colon + 1 : row ? from + 2 : from;
  return words[first]?.start ?? text.length;
}

const leavesOf = (parts: readonly Part[]): readonly Leaf[] =>
  parts.flatMap((part) => (isGroup(part) ? leavesOf(part.parts) : [part]));

/** The words to choose from, by the label of their choice. */
function choicesOf(pattern: Pattern): ReadonlyMap<string, readonly string[]> {
  if (pattern.is === 'choice') return new Map([[pattern.label, pattern.words]]);
  if (!('of' in pattern)) return new Map();
  const inner = Array.isArray(pattern.of) ? (pattern.of as readonly Pattern[]) : [pattern.of as Pattern];
  return new Map(inner.flatMap((one) => [...choicesOf(one)]));
}

const counter = (): (() => number) => {
  let last = 0;
  return () => ++last;
};

const written = (pieces: readonly Piece[], next: () => number): string =>
  pieces.map(({ text, proposed }) => (proposed ? gapped(proposed, next) : escaped(text, /[\\$]/g))).join('');

const gapped = (proposed: readonly string[], next: () => number): string =>
  proposed.length === 1
    ? `\${${next()}:${escaped(proposed[0], /[\\$}]/g)}}`
    : `\${${next()}|${proposed.map((one) => escaped(one, /[\\$},|]/g)).join(',')}|}`;

const escaped = (text: string, what: RegExp): string => text.replace(what, '\\$&');
