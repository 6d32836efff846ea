/** Files that get another name or place: what has to be written anew in the lessons that speak of them, and in those that move. */
import type { SyntaxDocument } from '../syntax/document.ts';
import { leaf, leaves, type Leaf } from '../syntax/tree.ts';
import type { Edit } from '../util/finding.ts';
import { pathFrom, pathTo } from '../util/lesson-path.ts';
import { shifted } from '../util/span.ts';

/** Where a file lies after the renaming; itself where it stays. Both are whole addresses. */
export type Moved = (address: string) => string;

export interface LessonBefore {
  readonly document: SyntaxDocument;
  /** The address that its paths count from, with a slash at its end. */
  readonly root: string;
  /** Its own path from there. */
  readonly path: string;
}

/**
 * The lines `use`, `needs` and `day` that lead elsewhere afterwards, as they have to be written then. A path that leads nowhere
 * now, or that means the same as before, stays as the author wrote it.
 */
export function carriedPaths({ document, root, path }: LessonBefore, moved: Moved): readonly Edit[] {
  const own = `${root}${path}`;
  return pathsIn(document).flatMap(({ start, end, text }): Edit | readonly Edit[] => {
    const to = pathFrom(path, text);
    if (to === undefined) return [];
    const before = pathTo(own, `${root}${to}`);
    const after = pathTo(moved(own), moved(`${root}${to}`));
    if (after === undefined || after === before) return [];
    return { span: { start, end }, text: quoted(likeBefore(after, text)) };
  });
}

/** What is moved by renaming some files and folders, given by their addresses without a slash at the end. */
export function movedBy(renamed: readonly { readonly from: string; readonly to: string }[]): Moved {
  // Of a folder and a file in it that are renamed together, the file says more.
  const longestFirst = [...renamed].sort((a, b) => b.from.length - a.from.length);
  return (address) => {
    const one = longestFirst.find(({ from }) => address === from || address.startsWith(`${from}/`));
    return one ? one.to + address.slice(one.from.length) : address;
  };
}

function pathsIn({ statements }: SyntaxDocument): readonly Leaf[] {
  return statements.flatMap(({ tree: { keyword, head, body }, start }) => {
    const words =
      keyword === 'use'
        ? [leaf(head, 'path')]
        : keyword === 'lesson' || keyword === 'course'
          ? body.filter(({ form }) => form === 'needs' || form === 'day').flatMap((line) => leaves(line, 'path'))
          : [];
    return words.flatMap((word) => (word ? { ...word, ...shifted(word, start) } : []));
  });
}

/** Who writes `./parts.lesson` goes on writing so. */
const likeBefore = (path: string, written: string): string =>
  /^\.[\\/]/.test(written) && !path.startsWith('.') ? `./${path}` : path;

const quoted = (path: string): string => `"${path.replace(/[\\"]/g, '\\$&')}"`;
