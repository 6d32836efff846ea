/** What stands above a section and above a part of a lesson: play it, preview it, and how often it is used. */
import type { Analysis } from '../analyze.ts';
import type { PartKind } from '../lesson/lesson.ts';
import type { Span } from '../util/span.ts';
import type { Named } from './occurrences.ts';
import { definitionsOf } from './place.ts';

export type Lens =
  /** Of a section that has bars; `bar` is where its first one is written. */
  | { readonly kind: 'play' | 'preview'; readonly span: Span; readonly section: string; readonly bar: Span }
  /** How often a part is used is only counted when it is asked for. */
  | { readonly kind: 'uses'; readonly span: Span; readonly named: Named };

/** A grip is used by every chord of its name, and a variant by nothing: of those there is nothing to count. */
const COUNTED: ReadonlySet<PartKind> = new Set(['shape', 'progression', 'cell', 'contour', 'melody', 'tab']);

/** In the order of the text. Works without the score. */
export function lensesOf(analysis: Analysis): readonly Lens[] {
  const { lesson, files } = analysis;
  return definitionsOf(analysis).flatMap((definition): readonly Lens[] => {
    const { kind, name, span } = definition;
    if (definition.from) return [];
    if (COUNTED.has(kind)) return [{ kind: 'uses', span, named: { kind, name, path: files.path, exists: true } }];
    const section = lesson.sections.find((one) => one === definition);
    const bar = section?.places[0]?.span;
    if (!section || !bar) return [];
    return (['play', 'preview'] as const).map((lens) => ({ kind: lens, span, section: section.name, bar }));
  });
}

/** `3 uses`, as it stands above a part. */
export const usesTitle = (uses: number): string => (uses === 0 ? 'no uses' : uses === 1 ? '1 use' : `${uses} uses`);
