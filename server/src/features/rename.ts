/** Renaming: whether a name can be changed, and what its new name may be. */
import type { Analysis } from '../analyze.ts';
import { builtInShapes } from '../lesson/built-in-shapes.ts';
import type { Span } from '../util/span.ts';
import { namedAt, type Named } from './occurrences.ts';
import { definitionsOf } from './place.ts';

/** The name at the cursor that can be changed, or why it cannot; undefined where there is no name. */
export type Renaming = { readonly named: Named; readonly span: Span } | { readonly refused: string } | undefined;

export function renamingAt(analysis: Analysis, offset: number): Renaming {
  const found = namedAt(analysis, offset);
  if (!found) return undefined;
  const { kind, name, exists } = found.named;
  if (exists) return found;
  if (kind === 'shape' && builtInShapes.some((shape) => shape.name === name))
    return { refused: `${name} is built in and keeps its name.` };
  return { refused: `No ${kind} is called ${name}, so there is nothing to rename.` };
}

/** Why the new name will not do; undefined where it will. `analyses` are those of all files in which it would stand. */
export function newNameRefused(named: Named, name: string, analyses: readonly Analysis[]): string | undefined {
  if (!/^\p{L}[\p{L}\p{N}-]*$/u.test(name)) return 'A name is a letter followed by letters, digits and hyphens.';
  if (/^x[x\d-]+$/i.test(name)) return `${name} would be read as a list of frets.`;
  if (named.kind === 'shape' && builtInShapes.some((shape) => shape.name === name))
    return `${name} is the name of a shape that is built in.`;
  const taken = analyses.some((analysis) =>
    definitionsOf(analysis).some((one) => one.kind === named.kind && one.name === name),
  );
  return taken ? `There is a ${named.kind} called ${name} already.` : undefined;
}
