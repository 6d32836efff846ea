/** What each word of a statement is, from its tree alone; what a name means is asked later. */
import { slotsOf, wordsOf, type Pattern } from '../syntax/patterns.ts';
import type { SlotKind } from '../syntax/slots.ts';
import { statementNamed } from '../syntax/statements.ts';
import { isGroup, type Leaf, type Line, type Part, type Statement } from '../syntax/tree.ts';
import { cutWords } from '../syntax/words.ts';
import { covers, type Span } from '../util/span.ts';

/**
 * In the words of the protocol's own list, so that every editor has a colour for each. `function` is a name, `type` a chord,
 * `enumMember` what one of a few is: a tone, a note, a mode; `parameter` a plucking finger, `property` what is told of a fact.
 */
export const TOKEN_TYPES = [
  'keyword',
  'modifier',
  'operator',
  'function',
  'variable',
  'type',
  'enumMember',
  'number',
  'string',
  'comment',
  'parameter',
  'property',
] as const;

export type TokenType = (typeof TOKEN_TYPES)[number];

/** With offsets of the statement; never empty, and within one line. A `name` may be a given one or a use. */
export interface WordOfStatement extends Span {
  readonly type: TokenType | 'name';
}

const KINDS: Readonly<Record<SlotKind, TokenType | 'name' | keyof typeof PIECES>> = {
  title: 'string',
  path: 'string',
  name: 'name',
  number: 'number',
  measure: 'number',
  date: 'number',
  string: 'number',
  fret: 'number',
  frets: 'number',
  length: 'number',
  meter: 'number',
  tempo: 'number',
  tonic: 'enumMember',
  mode: 'enumMember',
  note: 'enumMember',
  tuning: 'enumMember',
  chord: 'type',
  tone: 'enumMember',
  'tone or any': 'enumMember',
  bass: 'enumMember',
  pluck: 'plucks',
  step: 'steps',
  sign: 'signs',
  'tab sign': 'signs',
  'pluck row': 'plucks',
  'finger row': 'plucks',
  'palm row': 'signs',
  finger: 'parameter',
  syllable: 'string',
};

/** By the tree, which is one object as long as the statement's text stays the same. */
const known = new WeakMap<Statement, readonly WordOfStatement[]>();

/** In the order of the text, none over another. */
export function wordsOfStatement(tree: Statement): readonly WordOfStatement[] {
  let words = known.get(tree);
  if (!words) known.set(tree, (words = readWords(tree)));
  return words;
}

function readWords(tree: Statement): readonly WordOfStatement[] {
  const { text, head, body, comments, prose } = tree;
  const form = tree.keyword === undefined ? undefined : statementNamed(tree.keyword);
  const found = comments.flatMap((comment) => commentWords(comment.text, comment.start));
  if (form) {
    found.push(...lineWords(text, head, form.head));
    for (const line of body) {
      const lineForm = form.body.find(({ label }) => label === line.form);
      if (lineForm) found.push(...lineWords(text, line, lineForm.pattern));
    }
  }
  if (prose) {
    const isComment = (at: number): boolean => comments.some((comment) => covers(comment, at));
    found.push(...factWords(text.slice(prose.start, prose.end), prose.start).filter(({ start }) => !isComment(start)));
  }
  found.sort((a, b) => a.start - b.start);
  // A line that was mended may have one word stand for two.
  return found.filter((one, i) => one.end > one.start && (i === 0 || found[i - 1].end <= one.start));
}

const ALLOWS = /^(;\s*)(allow)(\s+)(\S.*)$/;

/** `; allow CODE` says something to the program, which is no mere remark. */
function commentWords(text: string, start: number): readonly WordOfStatement[] {
  const allows = ALLOWS.exec(text);
  if (!allows) return [{ start, end: start + text.trimEnd().length, type: 'comment' }];
  const word = start + allows[1].length;
  const code = word + allows[2].length + allows[3].length;
  return [
    { start, end: start + 1, type: 'comment' },
    { start: word, end: word + allows[2].length, type: 'keyword' },
    { start: code, end: code + allows[4].trimEnd().length, type: 'enumMember' },
  ];
}

/** What the table knows of a line's words, by their labels. */
interface Labels {
  readonly slots: ReadonlyMap<string, SlotKind>;
  readonly choices: ReadonlySet<string>;
  readonly words: ReadonlySet<string>;
  /** What its words are: behind a chord they change it. */
  readonly wordType: TokenType;
}

const labels = new WeakMap<Pattern, Labels>();

function labelsOf(pattern: Pattern): Labels {
  let found = labels.get(pattern);
  if (!found) {
    const words = new Set(wordsOf(pattern));
    found = {
      slots: new Map(slotsOf(pattern).map(({ label, kind }) => [label, kind])),
      choices: new Set(choicesOf(pattern)),
      words,
      wordType: words.has('pushed') ? 'modifier' : 'operator',
    };
    labels.set(pattern, found);
  }
  return found;
}

/** The words of which one is chosen: `small`, `medium`, `large`. */
function choicesOf(pattern: Pattern): readonly string[] {
  if (pattern.is === 'choice') return pattern.words;
  if (!('of' in pattern)) return [];
  return Array.isArray(pattern.of) ? pattern.of.flatMap(choicesOf) : choicesOf(pattern.of as Pattern);
}

function lineWords(text: string, line: Line, pattern: Pattern): readonly WordOfStatement[] {
  const { slots, choices, words, wordType } = labelsOf(pattern);
  const found: WordOfStatement[] = [];
  if (line.keyword.end > line.keyword.start) found.push({ ...spanOf(line.keyword), type: 'keyword' });
  const leaves = leavesOf(line.parts).filter(({ label }) => slots.has(label));
  for (const leaf of leaves) {
    const type = KINDS[slots.get(leaf.label)!];
    if (type === 'plucks' || type === 'steps' || type === 'signs')
      found.push(...signWords(text.slice(leaf.start, leaf.end), leaf.start, type));
    else found.push({ ...spanOf(leaf), type });
  }
  // Words of the table have no place in the tree, unless they mean something by themselves.
  const filled = new Set(leaves.map(({ start }) => start));
  const behind = Math.max(line.keyword.end, line.start);
  for (const { kind, text: word, start } of cutWords(text.slice(behind, line.end), behind).words) {
    if (kind !== 'word' || filled.has(start) || !words.has(word) || word === ')') continue;
    const end = start + word.replace('(', '').length;
    const type = choices.has(word) ? 'enumMember' : /^[a-z]/.test(word) ? wordType : 'operator';
    found.push({ start, end, type });
  }
  return found;
}

const spanOf = ({ start, end }: Span): Span => ({ start, end });

const leavesOf = (parts: readonly Part[]): readonly Leaf[] =>
  parts.flatMap((part) => (isGroup(part) ? leavesOf(part.parts) : [part]));

const STROKES: ReadonlySet<string> = new Set(['down', 'up', 'roll', 'mute']);

/** The pieces of a sign, by the slot that it fills: `p6+a1>` and `down(4 to 1)`, `+1#` and `b3`, `7b9r7`. */
const PIECES = {
  plucks: /\p{L}{2,}|\d+|\.{3}|[^\s\d()|,:]/gu,
  steps: /[b#♯♭]+\d+|[+-]?\d+|[^\s()|,:]/gu,
  signs: /\d+|[^\s\d]+/gu,
} as const;

/** What moves and counts is a number, fingers and tones are what they are, all else does something to them. */
function signWords(text: string, start: number, kind: keyof typeof PIECES): readonly WordOfStatement[] {
  return [...text.matchAll(PIECES[kind])].map(({ 0: piece, index }) => ({
    start: start + index,
    end: start + index + piece.length,
    type: pieceType(piece, kind),
  }));
}

function pieceType(piece: string, kind: keyof typeof PIECES): TokenType {
  if (/^[+-]?\d+$/.test(piece)) return 'number';
  if (kind === 'steps' && /^(R|[b#♯♭]+\d+)$/.test(piece)) return 'enumMember';
  if (kind !== 'plucks') return 'operator';
  if (STROKES.has(piece)) return 'function';
  if (/^[pimac]$/.test(piece)) return 'parameter';
  return /^\p{L}{3,}$/u.test(piece) ? 'variable' : 'operator';
}

const BRACE = /\\\{|\{([^{}\r\n]*)\}/g;

/** `{verse.2.string4.interval}` in prose: a section or the lesson, bars and chords by number, and what is told of them. */
function factWords(prose: string, start: number): readonly WordOfStatement[] {
  return [...prose.matchAll(BRACE)].flatMap(({ 1: path, index }) =>
    [...(path ?? '').matchAll(/[^\s.]+/g)].map(({ 0: step, index: at }, i): WordOfStatement => {
      const from = start + index + 1 + at;
      const type = i > 0 ? (/^\d+$/.test(step) ? 'number' : 'property') : step === 'lesson' ? 'variable' : 'name';
      return { start: from, end: from + step.length, type };
    }),
  );
}
