/** Chords, notes and keys that are named in plain words, where no fact stands in for them and nothing can move them. */
import { isGroup, type Line, type Part } from '../syntax/tree.ts';
import { parseChord } from '../theory/chord.ts';
import type { Span } from '../util/span.ts';

export interface NamedInWords {
  readonly name: string;
  readonly span: Span;
}

/** A word that may be a symbol; facts in braces and words in code are none of its matter. */
const CANDIDATE = /(?<![\p{L}\p{N}_{.\-'’])[A-G][#b♯♭]*[A-Za-z0-9#♯♭()+°ø△/]*/gu;
const FACT = /\{[^{}\n]*\}/g;
/** `A` begins sentences, and is a name only where this follows it. */
const KEY_BEHIND = /^[\s-](?:flat|sharp|major|minor|chord)\b/i;
/** A string is called by its note in every key. */
const STRING_BEHIND = /^[\s-]strings?\b/i;

function namesIn(text: string, from: number): readonly NamedInWords[] {
  const plain = text.replace(FACT, (fact) => ' '.repeat(fact.length));
  return [...plain.matchAll(CANDIDATE)].flatMap((found) => {
    const name = found[0].replace(/[/(]+$/, '').replace(/^([^(]*?)\)+$/, '$1');
    const behind = plain.slice(found.index + name.length);
    const alone = /^[B-G]$/.test(name) && !/^(?:['’-]|\.\p{L})/u.test(behind);
    const other = /^[\p{L}\p{N}]/u.test(behind) || STRING_BEHIND.test(behind);
    const sure = name.length > 1 && parseChord(name) !== undefined;
    if (other || !(alone || sure || (/^[A-G]$/.test(name) && KEY_BEHIND.test(behind)))) return [];
    const start = from + found.index;
    const whole = name + (/^[\s-](?:flat|sharp|major|minor)\b/i.exec(behind)?.[0] ?? '');
    return [{ name: whole, span: { start, end: start + whole.length } }];
  });
}

export const namesInProse = (text: string, prose: Span): readonly NamedInWords[] =>
  namesIn(text.slice(prose.start, prose.end), prose.start);

const TITLES: ReadonlySet<string> = new Set(['title', 'focus']);

/** In the titles of a line: of a lesson, a section, a variant or a step, and in what a lesson's focus is. */
export function namesInTitles(line: Line, text: string): readonly NamedInWords[] {
  const each = (parts: readonly Part[]): readonly NamedInWords[] =>
    parts.flatMap((part) => {
      if (isGroup(part)) return each(part.parts);
      return TITLES.has(part.label) ? namesIn(text.slice(part.start, part.end), part.start) : [];
    });
  return each(line.parts);
}
