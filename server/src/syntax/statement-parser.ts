/** Reads one statement, by the table. Never fails: what can't be read becomes a problem, and the next line is read afresh. */
import type { Problem } from '../util/finding.ts';
import { nearest } from '../util/nearest.ts';
import type { Span } from '../util/span.ts';
import { match, type Expectation, type Pattern } from './patterns.ts';
import { meantEnding, meantStart } from './line-slips.ts';
import { repairOf } from './repairs.ts';
import { slips } from './slips.ts';
import { slotKinds } from './slots.ts';
import { statementNamed, statements, type LineForm, type StatementForm } from './statements.ts';
import { rowsSpelt } from './string-letters.ts';
import type { Comment, Line, Part, Statement } from './tree.ts';
import { cutWords, isBlank, type CutLine, type Word } from './words.ts';

/** A line of music never comes near this; what lies beyond is not read. In UTF-16 units. */
export const LONGEST_LINE = 4_000;
const MOST_EXPECTATIONS = 5;
/** How often a line of bars is taken up again behind a slip. */
const MOST_RESUMPTIONS = 500;
/** Slips of one line that are understood; who makes more writes another language. */
const MOST_REPAIRS = 40;

interface RawLine extends Span {
  readonly text: string;
}

/** `text` is a whole statement: its first line and all that belongs to it. Offsets in the tree count from its start. */
export function parseStatement(text: string): Statement {
  const lines = linesOf(text);
  const problems: Problem[] = [];
  const comments: Comment[] = [];
  const cut = (line: RawLine): CutLine => {
    const result = readComment(line, comments);
    for (const found of result.words) {
      if (found.unclosed)
        problems.push({ kind: 'unclosed-quote', span: { start: found.start, end: found.end }, data: {} });
    }
    return result;
  };

  const first = wholeLine(cut(lines[0]), problems);
  const empty: Line = { form: 'head', keyword: { start: 0, end: 0 }, parts: [], broken: false, start: 0, end: 0 };
  if (first.words.length === 0) {
    for (const line of lines.slice(1)) cut(line);
    return { keyword: undefined, head: empty, body: [], comments, problems, text };
  }

  const form = readKeyword(first.words, problems);
  if (!form) {
    const { start, end } = first.words[0];
    // Comments count even here: one may speak of the statement below.
    for (const line of lines.slice(1)) readComment(line, comments);
    return {
      keyword: undefined,
      head: { ...empty, keyword: { start, end }, broken: true },
      body: [],
      comments,
      problems,
      text,
    };
  }
  const head = readLine('head', form.head, first.words, 1, false, problems);
  if (form.prose) {
    const prose = readProse(form.keyword, lines, text, comments, problems);
    return { keyword: form.keyword, head, body: [], prose, comments, problems, text };
  }
  const body: Line[] = [];
  const said = new Map<string, Line>();
  let strangerAbove = false;
  const below = lines.slice(1).map((line) => ({ line, words: cut(line).words }));
  const spelt = form.keyword === 'tab' ? speltRows(below.map(({ words }) => words)) : [];
  for (const [i, { line, words: written }] of below.entries()) {
    if (written.length === 0) continue;
    const ending = form.keyword === 'section' ? meantEnding(written) : undefined;
    if (ending) problems.push(ending.problem);
    const words = ending?.words ?? written;
    const indented = isBlank(line.text[0]);
    const row = spelt[i];
    const lineForm: LineForm | undefined =
      row === undefined
        ? formOf(form, words, problems, indented, strangerAbove)
        : form.body.find((one) => one.label === 'row');
    if (!indented) {
      strangerAbove = !lineForm;
      if (lineForm) problems.push({ kind: 'line-not-indented', span: whole(words), data: { statement: form.keyword } });
    }
    if (!lineForm) continue;
    const read = readLine(
      lineForm.label,
      lineForm.pattern,
      words,
      lineForm.keyword ? 1 : 0,
      lineForm.bars ?? false,
      problems,
      row,
    );
    const before = said.get(lineForm.label);
    if (before && !lineForm.often && lineForm.keyword) {
      problems.push({
        kind: 'said-twice',
        span: read.keyword,
        data: { word: lineForm.keyword, statement: form.keyword },
      });
      continue;
    }
    said.set(lineForm.label, read);
    body.push(read);
  }
  return { keyword: form.keyword, head, body, comments, problems, text };
}

/** A first line that says one thing only, though it begins otherwise than ours. */
function wholeLine(line: CutLine, problems: Problem[]): CutLine {
  const begins = line.words[0]?.kind === 'word' && statementNamed(line.words[0].text);
  const repair = begins ? undefined : meantStart(line.words);
  if (!repair) return line;
  problems.push(repair.problem);
  return { ...line, words: repair.words };
}

/** The strings of a tab's rows that are named by letters, line by line; rows that stand together tell each other's. */
function speltRows(lines: readonly (readonly Word[])[]): readonly (string | undefined)[] {
  const letterOf = (words: readonly Word[]): string | undefined =>
    words.length > 1 && words[0].kind === 'word' && /^[A-Ga-g]$/.test(words[0].text) ? words[0].text : undefined;
  const spelt: (string | undefined)[] = [];
  for (let from = 0; from < lines.length;) {
    let to = from;
    while (to < lines.length && letterOf(lines[to]) !== undefined) to++;
    spelt.push(...rowsSpelt(lines.slice(from, to).flatMap((words) => letterOf(words) ?? [])));
    if (to < lines.length) spelt.push(undefined);
    from = to + 1;
  }
  return spelt;
}

/** Cuts a line into words, and notes its comment. */
function readComment(line: RawLine, comments: Comment[]): CutLine {
  const result = cutWords(line.text.slice(0, LONGEST_LINE), line.start);
  if (result.comment) {
    const { start, end } = result.comment;
    const text = line.text.slice(start - line.start, end - line.start);
    comments.push({ start, end, text, alone: result.words.length === 0 });
  }
  return result;
}

function linesOf(text: string): readonly RawLine[] {
  const lines: RawLine[] = [];
  let start = 0;
  for (const found of text.matchAll(/\r\n|\n|\r|$/g)) {
    lines.push({ text: text.slice(start, found.index), start, end: found.index });
    start = found.index + found[0].length;
    if (found[0] === '') break;
  }
  return lines;
}

const whole = (words: readonly Word[]): Span => ({ start: words[0].start, end: words[words.length - 1].end });

/** What a first line's keyword means; a slip of the pen is understood, and named. */
function readKeyword(words: readonly Word[], problems: Problem[]): StatementForm | undefined {
  const { text, start, end, kind } = words[0];
  const exact = kind === 'word' ? statementNamed(text) : undefined;
  if (exact) return exact;
  const right = kind === 'word' ? meantStatement(text) : undefined;
  if (right) {
    problems.push({ kind: 'misspelt-word', span: { start, end }, data: { found: text, right } });
    return statementNamed(right);
  }
  problems.push({ kind: 'unknown-statement', span: { start, end }, data: { found: text, ...homesOf(words[0]) } });
  return undefined;
}

/** The statements that have a line of this keyword, for who wrote it elsewhere. */
function homesOf({ kind, text }: Word): { readonly homes?: string } {
  if (kind !== 'word' || statementNamed(text)) return {};
  const homes = statements.filter(
    (form) => form.keyword !== 'variant' && form.body.some((line) => line.keyword === text),
  );
  return homes.length > 0 ? { homes: homes.map((form) => form.keyword).join(' ') } : {};
}

/** The keyword that a first word was meant to be, or undefined. */
export function meantStatement(text: string): string | undefined {
  const slip = slips.get(text.toLowerCase());
  if (slip && statementNamed(slip)) return slip;
  return nearest(
    text,
    statements.map((form) => form.keyword),
  );
}

/** Which line of the statement's body this is; a problem where it is none. */
function formOf(
  form: StatementForm,
  words: readonly Word[],
  problems: Problem[],
  indented: boolean,
  strangerAbove: boolean,
): LineForm | undefined {
  const { text, start, end, kind } = words[0];
  const exact = kind === 'word' ? form.body.find((line) => line.keyword === text) : undefined;
  if (exact) return exact;
  // What stands below a line that nobody knows may be that line's own body: it is passed over without a word.
  if (indented && strangerAbove) return undefined;
  const span = { start, end };
  const music = form.body.find((line) => line.keyword === undefined);
  const reads = music ? match(music.pattern, words) : undefined;
  const keywords = form.body.flatMap((line) => line.keyword ?? []);
  if (kind === 'word' && (!reads || reads.read === 0 || keywords.includes(text.toLowerCase()))) {
    const slip = slips.get(text.toLowerCase());
    const right = slip && keywords.includes(slip) ? slip : nearest(text, keywords);
    if (right) {
      problems.push({ kind: 'misspelt-word', span, data: { found: text, right } });
      return form.body.find((line) => line.keyword === right);
    }
  }
  if (music && (indented || reads?.read === words.length)) return music;
  if (!indented) {
    problems.push({ kind: 'unknown-statement', span, data: { found: text, ...homesOf(words[0]) } });
  } else {
    const elsewhere = kind === 'word' && statementNamed(text) ? 'yes' : '';
    const data = {
      found: text,
      statement: form.keyword,
      expected: keywords.join(', '),
      elsewhere,
      ...homesOf(words[0]),
    };
    problems.push({ kind: 'unknown-line', span, data });
  }
  return undefined;
}

function readLine(
  form: string,
  pattern: Pattern,
  allWords: readonly Word[],
  from: number,
  bars: boolean,
  problems: Problem[],
  row?: string,
): Line {
  let words = withoutStrayColon(allWords, from, pattern, problems);
  let repairs = 0;
  const keyword =
    from === 0 ? { start: words[0].start, end: words[0].start } : { start: words[0].start, end: words[0].end };
  const parts: Part[] = [];
  let broken = false;
  let next = from;
  let inner = pattern;
  for (let round = 0; round < MOST_RESUMPTIONS; round++) {
    let found = match(inner, words, next);
    while (repairs < MOST_REPAIRS && !(found.matched && found.read === words.length)) {
      const furthest = Math.max(found.furthest, found.read);
      const expected = found.furthest === furthest ? found.expected : [];
      const repair = repairOf({ words, at: furthest, expected, bars, ...(row !== undefined && { row }) });
      if (!repair) break;
      problems.push(repair.problem);
      words = repair.words;
      repairs++;
      found = match(inner, words, next);
    }
    parts.push(...found.parts);
    if (found.matched && found.read === words.length) break;
    broken = true;
    const at = Math.max(found.furthest, found.read);
    // A line cut off by an open quote has its finding already.
    if (!words.some((one) => one.unclosed))
      problems.push(misfit(words, at, found.furthest === at ? found.expected : [], found.matched && found.read === at));
    if (!bars) break;
    let resume = Math.max(at, found.read);
    while (resume < words.length && words[resume].kind !== 'bar') resume++;
    const skipped = words.slice(found.read, resume);
    if (skipped.length > 0) parts.push({ label: 'broken', text: '', ...whole(skipped) });
    if (resume >= words.length) break;
    next = resume;
    if (inner.is === 'sequence') inner = inner.of[inner.of.length - 1];
  }
  return { form, keyword, parts, broken, ...whole(allWords) };
}

/** `capo: 2` is read as `capo 2`, with a word about the colon. */
function withoutStrayColon(
  words: readonly Word[],
  from: number,
  pattern: Pattern,
  problems: Problem[],
): readonly Word[] {
  const colon = words[from];
  if (from === 0 || colon?.kind !== 'colon' || match(pattern, words, from).read > from) return words;
  problems.push({ kind: 'stray-colon', span: { start: colon.start, end: colon.end }, data: { word: words[0].text } });
  return [...words.slice(0, from), ...words.slice(from + 1)];
}

function misfit(words: readonly Word[], at: number, expected: readonly Expectation[], mayEnd: boolean): Problem {
  const keywords = expected.flatMap((one) => (one.is === 'word' ? [one.word] : one.is === 'choice' ? one.words : []));
  const wanted = [...new Set(expected.map(saysOf))].slice(0, MOST_EXPECTATIONS);
  if (mayEnd && at < words.length) wanted.push('the end of the line');
  const data = { expected: enumerate(wanted), after: words[at - 1]?.text ?? '' };
  if (at >= words.length) {
    const { end } = words[words.length - 1];
    return { kind: 'line-too-short', span: { start: words[words.length - 1].start, end }, data };
  }
  const { start, end, text } = words[at];
  const slip = slips.get(text.toLowerCase());
  const right = slip && keywords.includes(slip) ? slip : nearest(text, keywords);
  const kind = right ? 'misspelt-word' : 'unexpected-word';
  return { kind, span: { start, end }, data: right ? { found: text, right } : { ...data, found: text } };
}

function saysOf(expected: Expectation): string {
  switch (expected.is) {
    case 'word':
      return `\`${expected.word}\``;
    case 'choice':
      return enumerate(expected.words.map((one) => `\`${one}\``));
    case 'slot':
      return slotKinds[expected.kind].says;
    case 'mark':
      return { comma: 'a comma', colon: 'a colon', bar: 'a bar line' }[expected.kind];
  }
}

const enumerate = (items: readonly string[]): string =>
  items.length < 2 ? (items[0] ?? '') : `${items.slice(0, -1).join(', ')} or ${items[items.length - 1]}`;

function readProse(
  statement: string,
  lines: readonly RawLine[],
  text: string,
  comments: Comment[],
  problems: Problem[],
): Span | undefined {
  let prose: Span | undefined;
  for (const line of lines.slice(1)) {
    if (line.text.trim() === '') continue;
    if (line.text[0] === ';') {
      comments.push({ start: line.start, end: line.end, text: text.slice(line.start, line.end), alone: true });
      continue;
    }
    if (!isBlank(line.text[0]))
      problems.push({ kind: 'line-not-indented', span: { start: line.start, end: line.end }, data: { statement } });
    prose = { start: prose?.start ?? line.start, end: line.end };
  }
  return prose;
}
