/** Asks of a lesson everything that an open editor asks, and checks what must hold for any text at all. */
import assert from 'node:assert/strict';
import { analyze, type Analysis, type Session } from '../../server/src/analyze.ts';
import { drawSheet } from '../../server/src/draw/sheet.ts';
import { svgOf } from '../../server/src/draw/svg.ts';
import { USUAL_WIDTH } from '../../server/src/draw/text-tab.ts';
import { lessonText } from '../../server/src/export/text.ts';
import { actionsAt } from '../../server/src/features/actions/registry.ts';
import { completionsAt } from '../../server/src/features/completion.ts';
import { definitionAt } from '../../server/src/features/definition.ts';
import { foldsOf } from '../../server/src/features/folding.ts';
import { hoverAt } from '../../server/src/features/hover.ts';
import { previewOf } from '../../server/src/features/preview.ts';
import { symbolsOf } from '../../server/src/features/symbols.ts';
import type { Location } from '../../server/src/lesson/neighbours.ts';
import { MOST_FINDINGS } from '../../server/src/rules/findings.ts';
import { formatText } from '../../server/src/syntax/format.ts';
import { losses } from './format-losses.ts';

/** Pixels. */
const WIDTH = 800;

/** Analyses, draws and formats the text; what any of it throws fails the test. */
export function useAll(text: string, session: Session, location?: Location): Analysis {
  const analysis = analyze(text, session, location);
  use(analysis);
  return analysis;
}

export function use(analysis: Analysis): void {
  checkFindings(analysis);
  lessonText(analysis, { width: USUAL_WIDTH, notes: true });
  svgOf(drawSheet(analysis.lesson, analysis.score, analysis.findings, WIDTH));
  checkFormatting(analysis.text);
}

/** Asks what an editor asks about one place, and about the text as a whole. */
export function useFeatures(analysis: Analysis, offset: number): void {
  hoverAt(analysis, offset);
  completionsAt(analysis, offset);
  definitionAt(analysis, offset);
  symbolsOf(analysis);
  for (const { startLine, endLine } of foldsOf(analysis)) assert.ok(startLine < endLine);
  previewOf(analysis, WIDTH);
  actionsAt(analysis, { start: offset, end: offset });
}

/** Findings lie inside their text, in its order, each once, and are never too many. */
export function checkFindings({ text, findings }: Analysis): void {
  assert.ok(findings.length <= MOST_FINDINGS + 1);
  let before = 0;
  for (const { span, related, fixes } of findings) {
    assert.ok(span.start >= before, 'in the order of the text');
    before = span.start;
    const edits = fixes.flatMap((fix) => fix.edits.map((one) => one.span));
    for (const place of [span, ...related.map((one) => one.span), ...edits])
      assert.ok(place.start >= 0 && place.start <= place.end && place.end <= text.length, JSON.stringify(place));
  }
  const said = findings.map(({ code, span, message }) => `${code} ${span.start} ${span.end} ${message}`);
  assert.deepEqual(said, [...new Set(said)]);
}

/** Formatting twice is formatting once, and loses nothing. */
export function checkFormatting(text: string): void {
  const formatted = formatText(text);
  assert.equal(formatText(formatted), formatted);
  assert.deepEqual(losses(text, formatted), []);
}

/** The data alone, for comparing. */
export const plain = (value: unknown): unknown => JSON.parse(JSON.stringify(value));

/** Compares the data as text, which is cheap, and value by value only where that differs. */
export function assertAlike(one: unknown, other: unknown): void {
  const [a, b] = [JSON.stringify(one), JSON.stringify(other)];
  if (a !== b) assert.deepEqual(JSON.parse(a), JSON.parse(b));
}
