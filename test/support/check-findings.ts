/** Findings as lines under the words they are about, so that a test reads like a marked exercise. */
import assert from 'node:assert/strict';
import { analyze } from '../../server/src/analyze.ts';
import type { Finding } from '../../server/src/util/finding.ts';
import { LineMap } from '../../server/src/util/line-map.ts';

/** A line `; ^^^ code: message`. */
const MARK = /^ *; *\^+ [a-z-]+: /;
/** The text stands this far to the right of the semicolons of the marks, so that a mark can reach the first column. */
const MARGIN = 2;

/**
 * Compares the findings of a lesson with the marks in it. The lesson's lines are indented by two more than the marks; a mark stands
 * under the line it speaks of. A finding of several lines is marked to the end of its first; an empty one with one `^`.
 */
export function checkFindings(marked: string): void {
  const lines = marked.replace(/^\n/, '').replace(/\s+$/, '').split('\n');
  const indents = lines.filter((line) => line.trim() !== '' && !MARK.test(line)).map((line) => line.search(/\S/));
  const indent = Math.min(...indents);
  const text = lines
    .filter((line) => !MARK.test(line))
    .map((line) => `${line.slice(indent)}\n`)
    .join('');
  const expected = lines.map((line) => (line.trim() === '' ? '' : line.slice(indent - MARGIN)));
  const actual = markFindings(text, analyze(text).findings);
  assert.equal(actual.join('\n'), expected.join('\n'));
}

/** The lines of a text, moved to the right by the margin, each with the marks of its findings below. */
export function markFindings(text: string, findings: readonly Finding[]): string[] {
  const map = new LineMap(text);
  const shown = map.lineCount - (text.endsWith('\n') ? 1 : 0);
  return Array.from({ length: shown }, (_, line) => {
    const own = findings.filter((finding) => map.lineAt(finding.span.start) === line);
    const words = map.line(line);
    return [words === '' ? '' : ' '.repeat(MARGIN) + words, ...own.map((finding) => mark(finding, map))];
  }).flat();
}

function mark({ span, code, message }: Finding, map: LineMap): string {
  const from = map.positionAt(span.start);
  const to = map.positionAt(span.end);
  const end = to.line === from.line ? to.character : map.line(from.line).length;
  const carets = '^'.repeat(Math.max(1, end - from.character));
  return `;${' '.repeat(MARGIN - 1 + from.character)}${carets} ${code}: ${message}`;
}

export const findingsOf = (text: string): readonly Finding[] => analyze(text).findings;

/** `warning stretch-wide`, for each finding in the order of the text. */
export const gravity = (text: string): readonly string[] =>
  findingsOf(text).map(({ severity, code }) => `${severity} ${code}`);

/** What the text becomes by the first fix of its only finding that has one. */
export function mended(text: string): string {
  const fix = findingsOf(text).flatMap((finding) => finding.fixes)[0];
  assert.ok(fix, 'there is no fix');
  return [...fix.edits]
    .sort((a, b) => b.span.start - a.span.start)
    .reduce((result, { span, text: words }) => result.slice(0, span.start) + words + result.slice(span.end), text);
}
