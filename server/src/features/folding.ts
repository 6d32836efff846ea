/** What can be folded away: the body of a statement, and comments of several lines. */
import type { Analysis } from '../analyze.ts';
import { wholeOf } from './place.ts';

export interface Fold {
  /** Lines from 0; the first stays to be seen. */
  readonly startLine: number;
  readonly endLine: number;
  readonly kind: 'statement' | 'comment';
}

/** In the order of the text. Folds no blank lines, and no comments that stand between one statement and the next. */
export function foldsOf({ document, lines }: Analysis): readonly Fold[] {
  const folds: Fold[] = [];
  const commentLines: number[] = [];
  for (const { tree, start } of document.statements) {
    const whole = wholeOf({ tree, start });
    const startLine = lines.lineAt(whole.start);
    const endLine = lines.lineAt(whole.end);
    if (endLine > startLine) folds.push({ startLine, endLine, kind: 'statement' });
    for (const comment of tree.comments) if (comment.alone) commentLines.push(lines.lineAt(start + comment.start));
  }
  for (let first = 0; first < commentLines.length;) {
    let last = first;
    while (commentLines[last + 1] === commentLines[last] + 1) last++;
    if (last > first) folds.push({ startLine: commentLines[first], endLine: commentLines[last], kind: 'comment' });
    first = last + 1;
  }
  return folds.sort((a, b) => a.startLine - b.startLine || b.endLine - a.endLine);
}
