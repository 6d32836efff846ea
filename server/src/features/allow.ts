/** Offers to leave a finding be: the comment that silences it on its line. */
import type { Analysis } from '../analyze.ts';
import type { Edit, Finding, Fix } from '../util/finding.ts';

const ALLOWS = /^;\s*allow\s+\S/;

/**
 * Undefined for an error, which says that the lesson is not what it claims to be, and for what stands in prose, where no comment can
 * be: whoever knows better can still write the comment by hand.
 */
export function allowing(analysis: Analysis, { code, severity, span }: Finding): Fix | undefined {
  if (severity === 'error') return undefined;
  const { document, lines } = analysis;
  const line = lines.lineAt(span.start);
  const start = lines.offsetAt({ line, character: 0 });
  const holder = document.statements.filter((statement) => statement.start <= start).at(-1);
  if (holder?.tree.prose && lines.lineAt(holder.start + holder.tree.head.end) < line) return undefined;
  const written = lines.line(line);
  const end = start + written.trimEnd().length;
  const comment = holder?.tree.comments.find(
    (one) => holder.start + one.start >= start && holder.start + one.start < end,
  );
  // A comment that has the line to itself speaks of the next one.
  if (comment?.alone) return undefined;
  return { title: `Allow \`${code}\` here`, edits: [edit(code, comment?.text, { start, end, written })] };
}

interface Line {
  readonly start: number;
  /** Without the blanks at its end. */
  readonly end: number;
  readonly written: string;
}

/** Behind the line, or in the comment that stands there if it allows something already; what says something else keeps its line. */
function edit(code: string, comment: string | undefined, { start, end, written }: Line): Edit {
  if (comment === undefined) return { span: { start: end, end }, text: ` ; allow ${code}` };
  if (ALLOWS.test(comment)) return { span: { start: end, end }, text: ` ${code}` };
  const indent = /^\s*/.exec(written)![0];
  return { span: { start, end: start }, text: `${indent}; allow ${code}\n` };
}
