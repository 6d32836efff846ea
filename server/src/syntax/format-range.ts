/** Lays out part of a text while it is being written: the lines chosen, or those above the cursor. */
import type { Edit } from '../util/finding.ts';
import type { Span } from '../util/span.ts';
import { readDocument, type PlacedStatement, type SyntaxDocument } from './document.ts';
import { editOf, endOfLine, INDENT, linesOf, startOfLine, type OutLine } from './format-lines.ts';
import { layOut } from './format-statement.ts';
import { formatEdits, isLaidOut } from './format.ts';
import { statementNamed } from './statements.ts';
import { isBlank } from './words.ts';

/** What stands behind the cursor when the text is to be laid out: a bar line, or the end of the line above. */
export const TYPED = ['|', '\n'] as const;

/**
 * What formatting the whole text changes in the lines that the span touches; one that ends where a line begins does not touch
 * that line. The edits are in the order of the text.
 */
export function formatRange(text: string, { start, end }: Span, document?: SyntaxDocument): Edit[] {
  const from = startOfLine(text, start);
  const last = end > start && startOfLine(text, end) === end ? end - 1 : end;
  const to = endOfLine(text, startOfLine(text, last));
  return formatEdits(text, document).filter(({ span }) => span.start >= from && span.start <= to);
}

/**
 * What `typed` right before `offset` asks for. Of the statement at hand the lines above the cursor are laid out, but no line is
 * added or taken away; the cursor's own line is unfinished and only gets the indent that a body needs.
 */
export function formatTyped(text: string, offset: number, typed: string, document = readDocument(text)): Edit[] {
  if (!isLaidOut(document)) return [];
  const here = startOfLine(text, offset);
  const newLine = typed !== '|';
  if (newLine && here < 2) return [];
  const near = newLine ? startOfLine(text, here - 1) : here;
  const { statements } = document;
  const below = statements.findIndex(({ start }) => start > near);
  const statement = statements[(below < 0 ? statements.length : below) - 1];
  if (!statement || (!newLine && statement.tree.prose)) return [];

  const end = below < 0 ? text.length : statements[below].start;
  const lines = linesOf(text, statement.start, end);
  layOut(statement, lines);
  const above = lines.filter((line) => line.start < here);
  const edits = above.filter(({ role }) => role !== 'blank').flatMap((line) => editOf(line, text));
  return newLine ? [...edits, ...indentEdit(text, here, statement, above)] : edits;
}

function indentEdit(
  text: string,
  here: number,
  statement: PlacedStatement,
  above: readonly OutLine[],
): readonly Edit[] {
  const raw = text.slice(here, endOfLine(text, here));
  let at = 0;
  while (at < raw.length && isBlank(raw[at])) at++;
  const rest = raw.slice(at);
  const indent = indentBelow(above[above.length - 1], rest === '', statement);
  if (indent === undefined) return [];
  const line = {
    start: here,
    end: here + raw.length,
    next: here,
    role: 'words',
    begins: false,
    removed: false,
  } as const;
  return editOf({ ...line, output: indent + rest }, text);
}

/** The indent of a line under `above`; undefined where the editor's own choice stands. */
function indentBelow(above: OutLine | undefined, empty: boolean, { tree }: PlacedStatement): string | undefined {
  const form = tree.keyword === undefined ? undefined : statementNamed(tree.keyword);
  if (!above || !form) return undefined;
  const own = above.output.slice(0, above.output.length - above.output.trimStart().length);
  if (above.begins) return form.prose || form.body.length > 0 ? INDENT : empty ? '' : undefined;
  if (above.role === 'letter') return above.output === own ? undefined : own;
  if (above.role === 'words') return INDENT;
  // Who leaves a line empty has ended the body; a paragraph of prose may follow another.
  if (above.role === 'blank') return empty && !form.prose ? '' : undefined;
  return own;
}
