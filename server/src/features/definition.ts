/** Where a name is given: from each place where it is used, and from the name itself. */
import type { Analysis } from '../analyze.ts';
import type { Span } from '../util/span.ts';
import { whereIs } from './place.ts';

export interface DefinitionLink {
  /** The name at the place that was asked about. */
  readonly from: Span;
  /** The name where it is given. */
  readonly name: Span;
  /** The whole statement that gives it. */
  readonly whole: Span;
  /** Where it is given, in another file, by its path from the root: the places above are then those of `use`. */
  readonly elsewhere?: { readonly path: string; readonly span: Span };
}

/** Undefined for what has no name, for built-in names, and for those that nothing is called. */
export function definitionAt(analysis: Analysis, offset: number): DefinitionLink | undefined {
  const { name } = whereIs(analysis, offset);
  const definition = name?.definition;
  return (
    name &&
    definition && {
      from: name.span,
      name: definition.span,
      whole: definition.whole,
      ...(definition.from && { elsewhere: definition.from }),
    }
  );
}
