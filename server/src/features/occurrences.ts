/** Every place of a name, in the file where it is given and in those that use it: one model behind references, highlights and renaming. */
import type { Analysis } from '../analyze.ts';
import type { Definition, PartKind } from '../lesson/lesson.ts';
import type { Span } from '../util/span.ts';
import { definitionsOf, whereIs } from './place.ts';

/** Something that has a name, whatever file it is seen from. */
export interface Named {
  readonly kind: PartKind;
  readonly name: string;
  /** The file where it is given, from the root; undefined in a text that stands alone, and for a name that nothing has. */
  readonly path?: string | undefined;
  /** Whether anything has the name. */
  readonly exists: boolean;
}

export interface Occurrence {
  readonly span: Span;
  /** Whether the name is given here; otherwise it is used. */
  readonly gives: boolean;
}

/** Kinds of part whose name is the author's own: a grip's is its chord symbol. */
const NAMED_BY_AUTHOR: ReadonlySet<PartKind> = new Set([
  'shape',
  'progression',
  'cell',
  'contour',
  'melody',
  'tab',
  'section',
  'variant',
]);

/** What has its name at an offset, and the name there; undefined where there is none. */
export function namedAt(
  analysis: Analysis,
  offset: number,
): { readonly named: Named; readonly span: Span } | undefined {
  const { name } = whereIs(analysis, offset);
  if (!name || !NAMED_BY_AUTHOR.has(name.kind)) return undefined;
  const { kind, definition, span } = name;
  const path = definition?.from?.path ?? (definition ? analysis.files.path : undefined);
  return { named: { kind, name: name.name, path, exists: definition !== undefined }, span };
}

/** The places of a name in one file, in the order of the text. */
export function occurrencesIn(analysis: Analysis, named: Named): readonly Occurrence[] {
  const { lesson, files } = analysis;
  const isIt = (definition: Definition | undefined, kind: PartKind, name: string): boolean =>
    kind === named.kind &&
    name === named.name &&
    (definition !== undefined) === named.exists &&
    (definition ? (definition.from?.path ?? files.path) : undefined) === named.path;
  const found = new Map<number, Occurrence>();
  const add = (span: Span, gives: boolean): void => {
    if (!found.has(span.start)) found.set(span.start, { span, gives });
  };
  for (const definition of definitionsOf(analysis)) {
    if (!definition.from && isIt(definition, definition.kind, definition.name)) add(definition.span, true);
  }
  for (const { kind, name, definition, span } of lesson.uses) if (isIt(definition, kind, name)) add(span, false);
  for (const { names, brought } of lesson.imports) {
    for (const { name, span } of names) {
      if (brought.some((part) => isIt(part, part.kind, part.name) && part.name === name)) add(span, false);
    }
  }
  return [...found.values()].sort((a, b) => a.span.start - b.span.start);
}
