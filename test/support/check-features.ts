/** Features as text: a lesson with `<|>` for the cursor goes in, what the editor would show comes out. */
import assert from 'node:assert/strict';
import { analyze, type Analysis } from '../../server/src/analyze.ts';
import { completionsAt, type Completions } from '../../server/src/features/completion.ts';
import { definitionAt } from '../../server/src/features/definition.ts';
import { hoverAt } from '../../server/src/features/hover.ts';
import { plainOf } from '../../server/src/features/page.ts';
import { symbolsOf, type LessonSymbol } from '../../server/src/features/symbols.ts';

const CURSOR = '<|>';

/** Takes off the common indent and the blank first and last lines of a text in a test. */
export function dedented(text: string): string {
  const lines = text
    .replace(/^\n/, '')
    .replace(/\n[ ]*$/, '\n')
    .split('\n');
  const indents = lines.filter((line) => line.trim() !== '').map((line) => line.search(/\S/));
  const indent = Math.min(...indents);
  return lines.map((line) => line.slice(indent)).join('\n');
}

export function cursorIn(marked: string): { analysis: Analysis; text: string; offset: number } {
  const whole = dedented(marked);
  const offset = whole.indexOf(CURSOR);
  assert.ok(offset >= 0, 'the lesson has a cursor');
  const text = whole.replace(CURSOR, '');
  return { analysis: analyze(text), text, offset };
}

/** The words that the hover is about in brackets, then the page as plain text; `-` for no hover. */
export function hoverText(marked: string): string {
  const { analysis, text, offset } = cursorIn(marked);
  const hover = hoverAt(analysis, offset);
  return hover ? `[${text.slice(hover.span.start, hover.span.end)}]\n${plainOf(hover.page)}` : '-';
}

export function checkHover(marked: string, expected: string): void {
  assert.equal(hoverText(marked), dedented(expected).trimEnd());
}

/** `label (detail)` for each item, in the order in which the editor shows them. */
export function completionLines(marked: string, asked = true): readonly string[] {
  return (completionsIn(marked, asked)?.items ?? []).map(({ label, detail }) =>
    detail ? `${label} (${detail})` : label,
  );
}

/** The labels alone. */
export const completionLabels = (marked: string, asked = true): readonly string[] =>
  (completionsIn(marked, asked)?.items ?? []).map(({ label }) => label);

function completionsIn(marked: string, asked: boolean): Completions | undefined {
  const { analysis, offset } = cursorIn(marked);
  return completionsAt(analysis, offset, asked);
}

/** The line that gives the name under the cursor; `-` where there is none. */
export function definitionLine(marked: string): string {
  const { analysis, text, offset } = cursorIn(marked);
  const link = definitionAt(analysis, offset);
  if (!link) return '-';
  const line = analysis.lines.line(analysis.lines.lineAt(link.name.start));
  return `${text.slice(link.from.start, link.from.end)} -> ${line}`;
}

/** `name — detail`, children indented. */
export function outlineOf(text: string): string {
  const shown = (symbol: LessonSymbol, indent: string): string[] => [
    `${indent}${symbol.name}${symbol.detail === '' ? '' : ` — ${symbol.detail}`}`,
    ...symbol.children.flatMap((child) => shown(child, `${indent}  `)),
  ];
  return symbolsOf(analyze(text))
    .flatMap((symbol) => shown(symbol, ''))
    .join('\n');
}
