/**
 * Writes a lesson in its one canonical layout. What could not be read keeps its letters, so does prose, and no word changes
 * its meaning: each line that is written anew is cut into words again and must say the same.
 */
import type { Edit } from '../util/finding.ts';
import { applyEdits } from '../util/edits.ts';
import { LONGEST_TEXT, readDocument, type SyntaxDocument } from './document.ts';
import { editOf, linesOf, type OutLine } from './format-lines.ts';
import { layOut } from './format-statement.ts';

/** The text in canonical layout. Formatting that again changes nothing. */
export function formatText(text: string): string {
  return applyEdits(text, formatEdits(text));
}

/**
 * What {@link formatText} changes: at most one edit a line, each as small as it can be, in the order of the text. `document` is
 * what was read of the text, for who has it at hand.
 */
export function formatEdits(text: string, document: SyntaxDocument = readDocument(text)): Edit[] {
  if (!isLaidOut(document)) return [];
  const { statements } = document;
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

/** Not what is no text, and not what could be read in part only. */
export const isLaidOut = ({ problems }: SyntaxDocument): boolean =>
  !problems.some(({ kind }) => kind === 'not-a-text' || kind === 'lesson-too-long');

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
    if (head > first) {
      const top = topOf(left, head);
      if ((several || severalAbove) && left[top - 1].role !== 'blank' && !isAllowance(left[top - 1]))
        left[top].output = lineEnd(left[top - 1]) + left[top].output;
    }
    severalAbove = several;
    head = next;
  }
}

/** The first of the comments that stand right above a statement, or the statement's own line. */
function topOf(lines: readonly OutLine[], head: number): number {
  let top = head;
  for (; top > 0 && lines[top - 1].role === 'comment'; top--) {
    const above = lines[top - 1];
    if (above.output.startsWith(';')) continue;
    // An indented remark ends the body above it, but an allowance speaks of the line below.
    if (!isAllowance(above)) break;
    above.output = above.output.trimStart();
  }
  return top;
}

const isAllowance = (line: OutLine): boolean => /^\s*;\s*allow\s/.test(line.output);
