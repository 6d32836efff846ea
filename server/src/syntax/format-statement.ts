/** Decides what each line of one statement becomes. What cannot be read keeps its letters, and moves to its indent at most. */
import type { PlacedStatement } from './document.ts';
import { alignBars, alignSystems, type PlacedLine } from './format-bars.ts';
import { INDENT, lineAt, type OutLine } from './format-lines.ts';
import { asWritten, piecesOf, spaced } from './format-words.ts';
import type { Pattern } from './patterns.ts';
import { LONGEST_LINE } from './statement-parser.ts';
import { PART_KINDS, statementNamed, type StatementForm } from './statements.ts';
import type { Line, Statement } from './tree.ts';
import { cutWords, isBlank, type CutLine } from './words.ts';

/** Writes the outputs of the lines, which are those of the statement; blank lines between them are another's business. */
export function layOut({ tree, start }: PlacedStatement, lines: readonly OutLine[]): void {
  const form = tree.keyword === undefined ? undefined : statementNamed(tree.keyword);
  const cuts = lines.map((line) => cutWords(line.output.slice(0, LONGEST_LINE), line.start - start));
  lines[0].begins = cuts[0].words.length > 0;
  const letters = lettersOf(tree.prose, lines, cuts, start, form);
  const read = new Map((form ? [tree.head, ...tree.body] : []).map((line) => [line.start, line]));
  const { troubled, meant } = troubleOf(tree, start, lines, cuts);

  const music: PlacedLine[] = [];
  for (const [i, line] of lines.entries()) {
    if (letters(i)) continue;
    const raw = line.output;
    const { words, comment } = cuts[i];
    const remark = comment ? tree.text.slice(comment.start, comment.end) : '';
    line.role = words.length > 0 ? 'words' : comment ? 'comment' : 'blank';
    if (words.length === 0) {
      line.output = comment && isBlank(raw[0]) ? indentOfRemark(form) + remark : remark;
      continue;
    }
    const found = read.get(words[0].start);
    if (!form || raw.length > LONGEST_LINE) continue;
    if (!found || found.broken || troubled.has(line)) {
      line.output = inItsPlace(raw, i === 0);
      continue;
    }
    const pieces = piecesOf(found, patternOf(form, found), words, tree.text, meant);
    const trailing = comment ? ` ${remark}` : '';
    line.output = asWritten((i === 0 ? '' : INDENT) + spaced(pieces) + trailing, pieces, inItsPlace(raw, i === 0));
    if (i > 0 && form.body.find(({ label }) => label === found.form)?.bars)
      music.push({ place: i, line, form: found.form, pieces, trailing });
  }
  if (form?.keyword === 'tab') alignSystems(music, lines);
  else alignBars(music, lines);
  indentRemarks(lines);
}

/** What stands in the first column stays there: it would become another line's body. */
function inItsPlace(raw: string, first: boolean): string {
  if (!isBlank(raw[0])) return raw;
  let at = 0;
  while (at < raw.length && isBlank(raw[at])) at++;
  return (first ? '' : INDENT) + raw.slice(at);
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

interface Trouble {
  /** The lines that are not written anew. */
  readonly troubled: ReadonlySet<OutLine>;
  /** The right form of words, by their offset, that are wrong in nothing but capitals. */
  readonly meant: ReadonlyMap<number, string>;
}

/**
 * Two slips are put right without a doubt: a keyword in capitals, and an indent that was lost, if every line of the statement
 * that stands in the first column is one of its body; of lines in the first column among strangers nobody knows whose they are.
 */
function troubleOf(tree: Statement, start: number, lines: readonly OutLine[], cuts: readonly CutLine[]): Trouble {
  const troubled = new Set<OutLine>();
  const unindented = new Set<OutLine>();
  const meant = new Map<number, string>();
  for (const { kind, span, data } of tree.problems) {
    const line = lineAt(lines, start + span.start);
    const capitals = kind === 'misspelt-word' && data.found.toLowerCase() === data.right.toLowerCase();
    if (kind === 'line-not-indented') unindented.add(line);
    else if (capitals && !(line === lines[0] && mayJoin(data.right, tree))) meant.set(span.start, data.right);
    else troubled.add(line);
  }
  const broken = new Set(tree.body.filter((line) => line.broken).map(({ start: at }) => lineAt(lines, start + at)));
  const certain = lines.every(
    (line, i) =>
      i === 0 ||
      cuts[i].words.length === 0 ||
      isBlank(line.output[0]) ||
      (unindented.has(line) && !troubled.has(line) && !broken.has(line) && line.output.length <= LONGEST_LINE),
  );
  if (!certain || tree.prose) for (const line of unindented) troubled.add(line);
  return { troubled, meant };
}

/** Rightly spelt and without a body, such a line would be taken for a call of the section above it. */
const mayJoin = (keyword: string, tree: Statement): boolean =>
  tree.body.length === 0 && PART_KINDS.some((kind) => kind === keyword);

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
