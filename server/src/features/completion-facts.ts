/** What may stand in the braces of a prose: the steps of a fact's path, each with what the lesson answers. */
import type { Analysis } from '../analyze.ts';
import { factsBehind } from '../truth/facts.ts';
import type { Completion, Completions } from './completion.ts';
import { whereIs } from './place.ts';

/** A title as a whole would hide the list. */
const LONGEST_DETAIL = 60;

/** Undefined outside of braces, and where nothing may follow. */
export function factCompletionsAt(analysis: Analysis, offset: number): Completions | undefined {
  const path = openPath(analysis, offset);
  if (path === undefined) return undefined;
  const dot = path.lastIndexOf('.');
  const steps = factsBehind(dot < 0 ? '' : path.slice(0, dot), analysis.lesson, analysis.score);
  if (steps.length === 0) return undefined;
  const items = steps.map(({ name, says, value }): Completion => ({
    label: name,
    kind: value === undefined ? 'name' : 'value',
    detail: shortened(value === undefined ? says : `${value} · ${says}`),
    insert: name,
    snippet: false,
  }));
  return { span: { start: offset - (path.length - dot - 1), end: offset }, items };
}

const shortened = (detail: string): string =>
  detail.length > LONGEST_DETAIL ? `${detail.slice(0, LONGEST_DETAIL)}…` : detail;

/** What stands between the cursor and the brace before it, without blanks at its start; undefined where no brace is open. */
function openPath(analysis: Analysis, offset: number): string | undefined {
  if (whereIs(analysis, offset).inside !== 'prose') return undefined;
  const { line, character } = analysis.lines.positionAt(offset);
  const before = analysis.lines.line(line).slice(0, character);
  const open = /(?:^|[^\\])(?:\\\\)*\{\s*([^{}]*)$/.exec(before);
  return open?.[1];
}
