/** Parts as they are written: each statement with the comments right above it, and the other parts that it speaks of. */
import { builtInShapes } from '../../lesson/built-in-shapes.ts';
import type { PlacedStatement, SyntaxDocument } from '../../syntax/document.ts';
import { PART_KINDS } from '../../syntax/statements.ts';
import { group, groups, leaf } from '../../syntax/tree.ts';
import { LineMap } from '../../util/line-map.ts';
import type { Span } from '../../util/span.ts';
import { wholeOf } from '../place.ts';

export interface PartName {
  readonly kind: string;
  readonly name: string;
}

export interface WrittenPart extends PartName {
  /** With the comments above it and the one behind its last line, without that line's end. */
  readonly span: Span;
  /** Parts that it calls by name; what is built in is left out. */
  readonly calls: readonly PartName[];
}

const KINDS: ReadonlySet<string> = new Set([...PART_KINDS, 'grip']);

/** The parts of a text in its order, grips under their symbols. */
export function partsOf({ statements }: SyntaxDocument, text: string): readonly WrittenPart[] {
  const lines = new LineMap(text);
  return statements.flatMap((statement): WrittenPart | readonly [] => {
    const { keyword, head } = statement.tree;
    if (keyword === undefined || !KINDS.has(keyword)) return [];
    const name = leaf(head, keyword === 'grip' ? 'chord' : 'name')?.text;
    if (name === undefined) return [];
    return { kind: keyword, name, span: withComments(statement, lines), calls: callsOf(statement) };
  });
}

function withComments(statement: PlacedStatement, lines: LineMap): Span {
  const { start, end } = wholeOf(statement);
  let top = lines.lineAt(start);
  while (top > 0 && /^\s*;/.test(lines.line(top - 1))) top--;
  const last = lines.lineAt(end);
  const character = lines.line(last).trimEnd().length;
  return { start: lines.offsetAt({ line: top, character: 0 }), end: lines.offsetAt({ line: last, character }) };
}

/** Chords of a progression may name a shape and a cell. */
function callsOf({ tree }: PlacedStatement): readonly PartName[] {
  const found = new Map<string, PartName>();
  for (const line of tree.body) {
    for (const chord of [...groups(line, 'chord'), ...groups(line, 'again')]) {
      for (const [label, kind] of [
        ['as', 'shape'],
        ['with', 'cell'],
      ] as const) {
        const name = leaf(group(chord, label), 'name')?.text;
        if (name === undefined || builtInShapes.some((shape) => shape.name === name)) continue;
        found.set(`${kind} ${name}`, { kind, name });
      }
    }
  }
  return [...found.values()];
}

/** The span with the blank lines behind it, so that nothing is left where it was. */
export function wholeLines({ start, end }: Span, text: string): Span {
  const behind = /^[^\S\r\n]*(?:(?:\r\n|\n|\r)[^\S\r\n]*(?=[\r\n]|$))*(?:\r\n|\n|\r)?/.exec(text.slice(end))![0];
  return { start, end: end + behind.length };
}
