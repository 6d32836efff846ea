/** Carries edits out on a text. */
import type { Edit } from './finding.ts';

/** The text after `edits`, which must not overlap; of those at one place the first in the list comes first in the text. */
export function applyEdits(text: string, edits: readonly Edit[]): string {
  const sorted = edits
    .map((edit, index) => ({ edit, index }))
    .sort((a, b) => a.edit.span.start - b.edit.span.start || a.edit.span.end - b.edit.span.end || a.index - b.index);
  let result = '';
  let at = 0;
  for (const { edit } of sorted) {
    result += text.slice(at, edit.span.start) + edit.text;
    at = edit.span.end;
  }
  return result + text.slice(at);
}
