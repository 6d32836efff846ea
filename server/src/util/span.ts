/** A stretch of text, as offsets: what every node, finding and edit points with. Knows nothing of lines or encodings. */
export interface Span {
  /** Offset of the first character, counted in UTF-16 units from 0. */
  readonly start: number;
  /** Offset just behind the last character; equal to `start` for an empty place. */
  readonly end: number;
}

/** The same span, moved by `by` characters: from statement offsets to text offsets. */
export const shifted = (span: Span, by: number): Span => ({ start: span.start + by, end: span.end + by });

export const covers = (span: Span, offset: number): boolean => span.start <= offset && offset <= span.end;

/** The span from the first to the last of `spans`; an empty span at `fallback` where there are none. */
export function spanning(spans: readonly Span[], fallback = 0): Span {
  if (spans.length === 0) return { start: fallback, end: fallback };
  return { start: Math.min(...spans.map((s) => s.start)), end: Math.max(...spans.map((s) => s.end)) };
}
