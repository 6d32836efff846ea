/** What can be looked for by name over a whole library: titles, sections, variants and parts, read from the trees of texts alone. */
import type { SyntaxDocument } from '../syntax/document.ts';
import { PART_KINDS } from '../syntax/statements.ts';
import { leaf } from '../syntax/tree.ts';
import { shifted, type Span } from '../util/span.ts';

export interface NamedThing {
  /** Never empty; of a section or a variant with its title: `verse "The quay"`. */
  readonly name: string;
  readonly kind: 'lesson' | 'section' | 'part';
  /** The keyword that gives it. */
  readonly keyword: string;
  readonly span: Span;
}

const TITLED: ReadonlySet<string> = new Set(['lesson', 'course', 'library']);
const WITH_TITLE: ReadonlySet<string> = new Set(['section', 'variant']);
const PARTS: ReadonlySet<string> = new Set<string>(PART_KINDS);

/** In the order of the text. What has no name yet is left out. */
export function namedThings({ statements }: SyntaxDocument): readonly NamedThing[] {
  return statements.flatMap(({ tree: { keyword, head }, start }): NamedThing | readonly NamedThing[] => {
    if (keyword === undefined) return [];
    const title = leaf(head, 'title');
    const word = TITLED.has(keyword) ? title : leaf(head, 'name');
    if (!word || word.text === '') return [];
    const span = shifted(word, start);
    if (TITLED.has(keyword)) return { name: word.text, kind: 'lesson', keyword, span };
    if (WITH_TITLE.has(keyword)) {
      const name = title && title.text !== '' ? `${word.text} "${title.text}"` : word.text;
      return { name, kind: 'section', keyword, span };
    }
    return PARTS.has(keyword) ? { name: word.text, kind: 'part', keyword, span } : [];
  });
}

/**
 * How near a name comes to what was typed: 0 it is the same, 1 it begins so, 2 a word of it does, 3 it stands inside, 4 the signs
 * stand in it in this order; undefined where they do not. Capitals and accents do not count, and neither do blanks in `typed`.
 */
export function rankOf(name: string, typed: string): number | undefined {
  const sought = plain(typed).replace(/\s+/g, '');
  const text = plain(name);
  const joined = text.replace(/\s+/g, '');
  if (joined === sought) return 0;
  if (joined.startsWith(sought)) return 1;
  const at = text.indexOf(plain(typed).trim());
  if (at >= 0) return /[\p{L}\p{N}]/u.test(text[at - 1] ?? ' ') ? 3 : 2;
  let next = 0;
  for (let i = 0; i < text.length && next < sought.length; i++) if (text[i] === sought[next]) next++;
  return next === sought.length ? 4 : undefined;
}

const plain = (text: string): string => text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase();
