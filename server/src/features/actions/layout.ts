/** Edits that leave a lesson laid out where it was laid out before, and what turns one text into another. */
import type { Analysis } from '../../analyze.ts';
import { formatRange } from '../../syntax/format-range.ts';
import { applyEdits } from '../../util/edits.ts';
import type { Edit } from '../../util/finding.ts';
import type { Span } from '../../util/span.ts';

/** The edits, and what lays out the statements that they touch, if these were laid out before: a teacher's own layout stays. */
export function inLayout({ text, document }: Analysis, edits: readonly Edit[]): readonly Edit[] {
  if (edits.length === 0) return edits;
  const first = Math.min(...edits.map(({ span }) => span.start));
  const last = Math.max(...edits.map(({ span }) => span.end));
  const touched = around(document.statements, first, last, text.length);
  if (formatRange(text, touched, document).length > 0) return edits;
  const after = applyEdits(text, edits);
  const growth = after.length - text.length;
  const further = formatRange(after, { start: touched.start, end: touched.end + growth });
  return further.length === 0 ? edits : editsBetween(text, applyEdits(after, further));
}

/** From the start of the statement that holds `first` to that of the one behind `last`, whose first line may want a blank one above. */
function around(statements: readonly { readonly start: number }[], first: number, last: number, length: number): Span {
  let start = 0;
  for (const one of statements) {
    if (one.start > last) return { start, end: one.start + 1 };
    if (one.start <= first) start = one.start;
  }
  return { start, end: length };
}

/** Edits that make `after` of `before`: line by line where as many lines are left as there were, else all that differs at once. */
export function editsBetween(before: string, after: string): readonly Edit[] {
  if (before === after) return [];
  const [from, to] = [linesIn(before), linesIn(after)];
  if (from.length !== to.length) {
    const whole = differing(before, after, 0);
    return whole ? [whole] : [];
  }
  const edits: Edit[] = [];
  let start = 0;
  from.forEach((line, index) => {
    const edit = differing(line, to[index], start);
    if (edit) edits.push(edit);
    start += line.length;
  });
  return edits;
}

/** With their ends. */
const linesIn = (text: string): readonly string[] => text.split(/(?<=\n)/);

function differing(before: string, after: string, start: number): Edit | undefined {
  if (before === after) return undefined;
  const shorter = Math.min(before.length, after.length);
  let head = 0;
  while (head < shorter && before[head] === after[head]) head++;
  let tail = 0;
  while (tail < shorter - head && before[before.length - 1 - tail] === after[after.length - 1 - tail]) tail++;
  return {
    span: { start: start + head, end: start + before.length - tail },
    text: after.slice(head, after.length - tail),
  };
}
