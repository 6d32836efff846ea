/** The few ways in which a text is mended, with the words that offer them. */
import type { Fix } from '../../util/finding.ts';
import type { Span } from '../../util/span.ts';

/** What a step to the right is, for a line that belongs to a statement. */
const INDENT = '  ';

export const replaceWith = (span: Span, right: string): Fix => ({
  title: `Write \`${right}\``,
  edits: [{ span, text: right }],
});

export const insertAt = (offset: number, text: string, title: string): Fix => ({
  title,
  edits: [{ span: { start: offset, end: offset }, text }],
});

export const deleteSpan = (span: Span, title: string): Fix => ({ title, edits: [{ span, text: '' }] });

/** Moves the line that `span` begins into the statement above it. */
export const indentLine = (span: Span): Fix => insertAt(span.start, INDENT, 'Indent the line');

/** Takes away the blanks before the first word of the line that `span` begins. */
export function unindentLine(span: Span, text: string): Fix {
  const start = lineStart(text, span.start);
  return deleteSpan({ start, end: span.start }, 'Move the line to the first column');
}

/** Deletes all lines that the span touches, ends and all. */
export function deleteLines(span: Span, text: string, title: string): Fix {
  let end = span.end;
  while (end < text.length && text[end] !== '\n' && text[end] !== '\r') end++;
  if (text[end] === '\r' && text[end + 1] === '\n') end += 2;
  else if (end < text.length) end++;
  return deleteSpan({ start: lineStart(text, span.start), end }, title);
}

function lineStart(text: string, offset: number): number {
  let start = offset;
  while (start > 0 && text[start - 1] !== '\n' && text[start - 1] !== '\r') start--;
  return start;
}
