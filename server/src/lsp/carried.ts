/** Findings of a version before, where their words stand now: shown until they are found anew. */
import type { Finding } from '../util/finding.ts';
import type { Span } from '../util/span.ts';

/** Those whose words the change from `before` to `after` has not touched. */
export function carriedOver(findings: readonly Finding[], before: string, after: string): readonly Finding[] {
  if (findings.length === 0) return findings;
  const most = Math.min(before.length, after.length);
  let start = 0;
  while (start < most && before[start] === after[start]) start++;
  let behind = 0;
  while (behind < most - start && before[before.length - 1 - behind] === after[after.length - 1 - behind]) behind++;
  const end = before.length - behind;
  const grown = after.length - before.length;
  const moved = (span: Span): Span | undefined => {
    if (span.end <= start) return span;
    return span.start >= end ? { start: span.start + grown, end: span.end + grown } : undefined;
  };
  return findings.flatMap((finding): readonly Finding[] => {
    const span = moved(finding.span);
    if (!span) return [];
    const related = finding.related.flatMap((one) => {
      const place = moved(one.span);
      return place ? { ...one, span: place } : [];
    });
    // A fix is only offered for what has been found in this version.
    return [{ ...finding, span, related, fixes: [] }];
  });
}
