/** Files that a lesson speaks of: what `use` brings, what is played before, the days of a course. */
import type { Analysis } from '../analyze.ts';
import type { PathUse } from '../lesson/library.ts';
import type { Span } from '../util/span.ts';

export interface FileLink {
  /** The path without its quotes. */
  readonly span: Span;
  /** The file it leads to, by its path from the root. */
  readonly to: string;
  /** What the file is, as far as is known: its lesson’s title and level, or the parts that it has. */
  readonly says: string;
}

/** So many parts of a file are named; it may have dozens. */
const MOST_PARTS = 6;

/** In the order of the text. None to a file that is not there, leads out of the library, or has not come yet. */
export function linksOf({ lesson, files, text }: Analysis): readonly FileLink[] {
  const { imports, needs, course } = lesson;
  const uses: readonly (PathUse & { readonly parts?: readonly { readonly name: string }[] })[] = [
    ...imports,
    ...needs,
    ...(course?.days ?? []),
  ];
  return uses
    .flatMap(({ to, span, head, parts = [] }): FileLink | readonly [] => {
      if (to === undefined || typeof files.read(to) !== 'string') return [];
      const names = parts.map(({ name }) => name);
      const named = names.slice(0, MOST_PARTS).join(', ') + (names.length > MOST_PARTS ? ', …' : '');
      const level = head?.level === undefined ? '' : `, level ${head.level}`;
      return { span: inQuotes(text, span), to, says: head?.title ? head.title + level : named };
    })
    .sort((a, b) => a.span.start - b.span.start);
}

/** A quote that was never closed ends with the line. */
function inQuotes(text: string, { start, end }: Span): Span {
  const isQuote = (sign: string): boolean => /["“”„]/.test(sign);
  const from = isQuote(text[start]) ? start + 1 : start;
  return { start: from, end: end - 1 > from && isQuote(text[end - 1]) ? end - 1 : end };
}
