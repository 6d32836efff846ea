/** Where a setting that a lesson does not state yet is written: below its tuning or key, or else below its head. */
import type { SyntaxDocument } from '../syntax/document.ts';
import type { Edit } from '../util/finding.ts';

/** Below the last of these that is there; each is one line. */
const NEIGHBOURS: readonly string[] = ['key', 'tuning'];

/** Puts `line` into a lesson; undefined for a text without any statement. */
export function settingEdit({ statements }: SyntaxDocument, line: string): Edit | undefined {
  const neighbour = statements.filter(({ tree }) => NEIGHBOURS.includes(tree.keyword ?? '')).at(-1);
  const above = neighbour ?? statements.find(({ tree }) => tree.keyword === 'lesson');
  if (!above) {
    const first = statements.find(({ tree }) => tree.keyword !== undefined);
    return first && { span: { start: first.start, end: first.start }, text: `${line}\n` };
  }
  const { text, head, body } = above.tree;
  const last = Math.max(head.end, ...body.map((each) => each.end));
  const lineEnd = /\r\n|\n|\r|$/.exec(text.slice(last))!;
  const at = above.start + last + lineEnd.index;
  const newLine = lineEnd[0] === '' ? '\n' : lineEnd[0];
  return { span: { start: at, end: at }, text: `${newLine}${neighbour ? '' : newLine}${line}` };
}
