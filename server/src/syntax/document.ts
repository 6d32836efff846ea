/**
 * Cuts a text into statements and reads each by itself. Every line that begins in the first column starts a statement, so
 * an edit costs the statement it touches: trees are looked up by the statement's text.
 */
import type { Problem } from '../util/finding.ts';
import { meantStart } from './line-slips.ts';
import { LONGEST_LINE, parseStatement, meantStatement } from './statement-parser.ts';
import { PART_KINDS, statementNamed, type StatementForm } from './statements.ts';
import type { Statement } from './tree.ts';
import { cutWords, isBlank } from './words.ts';

/** A lesson of a year of evenings is below this; what lies beyond is not read. In UTF-16 units. */
export const LONGEST_TEXT = 400_000;
const CACHED_STATEMENTS = 4_000;
/** Enough of a line to tell its first word. */
const LONGEST_KEYWORD = 40;

export interface PlacedStatement {
  readonly tree: Statement;
  /** Where the statement's offset 0 lies in the text. */
  readonly start: number;
}

export interface SyntaxDocument {
  readonly statements: readonly PlacedStatement[];
  /** What concerns the text as a whole, with offsets of the text. */
  readonly problems: readonly Problem[];
}

/** Trees by the text of the statement; belongs to a session, and outlives one version of one lesson. */
export type StatementCache = Map<string, Statement>;

export function readDocument(text: string, cache: StatementCache = new Map()): SyntaxDocument {
  // oxlint-disable-next-line no-control-regex -- control characters are what is looked for
  const foreign = text.search(/[\u0000-\u0008\u000e-\u001f]/);
  if (foreign >= 0)
    return { statements: [], problems: [{ kind: 'not-a-text', span: { start: foreign, end: foreign + 1 }, data: {} }] };
  const problems: Problem[] = [];
  let read = text;
  if (text.length > LONGEST_TEXT) {
    read = text.slice(0, text.lastIndexOf('\n', LONGEST_TEXT) + 1);
    problems.push({
      kind: 'lesson-too-long',
      span: { start: read.length, end: read.length + 1 },
      data: { limit: `${LONGEST_TEXT}` },
    });
  }
  const statements = cutStatements(read, problems).map(({ start, end }): PlacedStatement => {
    const own = read.slice(start, end);
    let tree = cache.get(own);
    if (!tree) {
      tree = parseStatement(own);
      if (cache.size >= CACHED_STATEMENTS) cache.clear();
      cache.set(own, tree);
    }
    return { tree, start };
  });
  return { statements, problems };
}

function cutStatements(text: string, problems: Problem[]): { start: number; end: number }[] {
  const starts: number[] = [];
  const begin = text.startsWith('\ufeff') ? 1 : 0;
  let open: StatementForm | undefined;
  let bodyAbove = false;
  for (let lineStart = begin; lineStart < text.length;) {
    let lineEnd = lineStart;
    while (lineEnd < text.length && text[lineEnd] !== '\n' && text[lineEnd] !== '\r') lineEnd++;
    // A paragraph of prose may be as long as it likes.
    if (lineEnd - lineStart > LONGEST_LINE && !(open?.prose && isBlank(text[lineStart]))) {
      const span = { start: lineStart + LONGEST_LINE, end: lineEnd };
      problems.push({ kind: 'line-too-long', span, data: { limit: `${LONGEST_LINE}` } });
    }
    const first = firstOfStatement(text, lineStart, lineEnd, starts.length === 0);
    if (first < lineEnd && text[first] !== ';') {
      const line = text.slice(first, Math.min(lineEnd, first + LONGEST_KEYWORD));
      const keyword = /^[^\s:|;,"\u00a0]+/.exec(line)?.[0] ?? '';
      const lostIndent = bodyAbove && isCall(keyword, open) && !hasBody(text, lineEnd);
      const form = lostIndent ? 'joins' : startsStatement(keyword, line, open);
      if (form !== 'joins') {
        starts.push(lineStart);
        open = form;
      }
    }
    // Only what follows without a blank line may be a line of the statement above.
    bodyAbove = !isBlankLine(text, lineStart, lineEnd);
    lineStart = lineEnd + (text[lineEnd] === '\r' && text[lineEnd + 1] === '\n' ? 2 : 1);
  }
  // Comments and blank lines above the first statement are a piece of their own.
  if (starts[0] !== begin && begin < text.length) starts.unshift(begin);
  return starts.map((start, i) => ({ start, end: starts[i + 1] ?? text.length }));
}

/**
 * Where the word stands that may begin a statement; `lineEnd` where the line belongs to the statement above. Before the first
 * statement there is none to belong to, so that an indented line begins one too.
 */
function firstOfStatement(text: string, lineStart: number, lineEnd: number, nothingAbove: boolean): number {
  let first = lineStart;
  if (nothingAbove) while (first < lineEnd && isBlank(text[first])) first++;
  return first < lineEnd && isBlank(text[first]) ? lineEnd : first;
}

const isBlankLine = (text: string, start: number, end: number): boolean => {
  for (let at = start; at < end; at++) if (!isBlank(text[at])) return false;
  return true;
};

/** Whether the word begins a line by which a section calls for a part, such as `shape lamp`. */
const isCall = (keyword: string, open: StatementForm | undefined): boolean =>
  open?.keyword === 'section' && PART_KINDS.some((kind) => kind === keyword);

/** Whether the line that ends at `lineEnd` has an indented one right below, as a part has that is written out there. */
const hasBody = (text: string, lineEnd: number): boolean => {
  const below = lineEnd + (text[lineEnd] === '\r' && text[lineEnd + 1] === '\n' ? 2 : 1);
  return below < text.length && text[below] !== '\n' && text[below] !== '\r' && isBlank(text[below]);
};

/** What a first-column line begins: a statement, nothing known, or a line of the statement above that lost its indent. */
function startsStatement(
  keyword: string,
  line: string,
  open: StatementForm | undefined,
): StatementForm | undefined | 'joins' {
  const exact = statementNamed(keyword);
  if (exact) return exact;
  if (open?.prose || open?.body.some((line) => line.keyword === keyword)) return 'joins';
  const whole = meantStart(cutWords(line, 0).words);
  if (whole) return statementNamed(whole.words[0].text);
  const meant = meantStatement(keyword);
  // Two or three letters are as likely a chord or a fret as a slip of a keyword.
  const music = open?.body.some((line) => line.keyword === undefined) ?? false;
  if (meant && !(music && keyword.length < 4)) return statementNamed(meant);
  return open ? 'joins' : undefined;
}
