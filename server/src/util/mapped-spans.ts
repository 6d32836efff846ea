/** From the text that edits made back to the text that they were made on: where a place of the one lies in the other. */
import type { Edit } from './finding.ts';
import type { Span } from './span.ts';

/** One edit with the place that its new words take in the edited text. */
interface Made {
  readonly before: Span;
  readonly after: Span;
}

/**
 * Finds the place in the unedited text of any place in the edited one. What lies inside new words stands for the whole of the
 * words that they took the place of. `edits` must not overlap; their order does not matter.
 */
export function mappedBack(edits: readonly Edit[]): (span: Span) => Span {
  const sorted = [...edits].sort((a, b) => a.span.start - b.span.start || a.span.end - b.span.end);
  let grown = 0;
  const made = sorted.map(({ span, text }): Made => {
    const start = span.start + grown;
    grown += text.length - (span.end - span.start);
    return { before: span, after: { start, end: start + text.length } };
  });
  return ({ start, end }) => {
    const first = startBefore(made, start);
    // An empty place stays empty.
    return { start: first, end: end === start ? first : Math.max(first, endBefore(made, end)) };
  };
}

/** The last of the edits that `holds` is true of; it must be true of the first ones alone. */
function lastOf(made: readonly Made[], holds: (one: Made) => boolean): Made | undefined {
  let low = 0;
  let high = made.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (holds(made[middle])) low = middle + 1;
    else high = middle;
  }
  return made[low - 1];
}

function startBefore(made: readonly Made[], offset: number): number {
  const one = lastOf(made, ({ after }) => after.start <= offset);
  if (!one) return offset;
  return offset < one.after.end ? one.before.start : one.before.end + (offset - one.after.end);
}

function endBefore(made: readonly Made[], offset: number): number {
  const one = lastOf(made, ({ after }) => after.start < offset);
  if (!one) return offset;
  return offset <= one.after.end ? one.before.end : one.before.end + (offset - one.after.end);
}
