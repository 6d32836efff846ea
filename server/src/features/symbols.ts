/** The outline of a lesson: what it is made of, in the order of the text. */
import type { Analysis } from '../analyze.ts';
import type { Definition, ProgressionDefinition, Section } from '../lesson/lesson.ts';
import { counted } from '../rules/shared/words.ts';
import type { PlacedStatement } from '../syntax/document.ts';
import { leaf, type Line } from '../syntax/tree.ts';
import { shifted, type Span } from '../util/span.ts';
import { definitionsOf, wholeOf } from './place.ts';

export type SymbolKind =
  | 'lesson'
  | 'settings'
  | 'setting'
  | 'part'
  | 'section'
  | 'bar'
  | 'line'
  | 'claims'
  | 'claim'
  | 'prose'
  | 'plan';

export interface LessonSymbol {
  /** Never empty. */
  readonly name: string;
  readonly detail: string;
  readonly kind: SymbolKind;
  /** All of it, without the blank lines behind. */
  readonly whole: Span;
  /** The words that name it; inside `whole`. */
  readonly named: Span;
  /** Inside `whole` too, in the order of the text. */
  readonly children: readonly LessonSymbol[];
}

/** Settings that stand together make one group, and so do claims. */
export function symbolsOf(analysis: Analysis): readonly LessonSymbol[] {
  const definitions = new Map(definitionsOf(analysis).map((one) => [one.whole.start, one]));
  const all = analysis.document.statements.flatMap((statement) => {
    const symbol = symbolOf(analysis, statement, definitions.get(statement.start + statement.tree.head.start));
    return symbol ?? [];
  });
  const symbols: LessonSymbol[] = [];
  for (let first = 0; first < all.length;) {
    const { kind } = all[first];
    let end = first + 1;
    if (kind === 'setting' || kind === 'claim') while (all[end]?.kind === kind) end++;
    symbols.push(end - first > 1 ? groupOf(all.slice(first, end)) : all[first]);
    first = end;
  }
  return symbols;
}

function groupOf(members: readonly LessonSymbol[]): LessonSymbol {
  const [first] = members;
  const settings = first.kind === 'setting';
  return {
    name: settings ? 'Settings' : 'Claims',
    detail: settings ? members.map((one) => one.detail).join(' · ') : `${members.length}`,
    kind: settings ? 'settings' : 'claims',
    whole: { start: first.whole.start, end: members[members.length - 1].whole.end },
    named: first.named,
    children: members,
  };
}

/** What stands in each statement's outline; none for statements that only put music between prose. */
function symbolOf(
  analysis: Analysis,
  statement: PlacedStatement,
  definition: Definition | undefined,
): LessonSymbol | undefined {
  const { tree, start } = statement;
  const { text } = analysis;
  if (tree.keyword === undefined || tree.keyword === 'show') return undefined;
  const whole = wholeOf(statement);
  const named = definition?.span ?? shifted(tree.head, start);
  const rest = text.slice(start + tree.head.keyword.end, start + tree.head.end).trim();
  const lines = (kind: SymbolKind): readonly LessonSymbol[] =>
    tree.body.map((line) => lineSymbol(text, line, start, kind));
  const make = (
    kind: SymbolKind,
    name: string,
    detail: string,
    children: readonly LessonSymbol[] = [],
  ): LessonSymbol => ({ name: name === '' ? tree.keyword! : name, detail, kind, whole, named, children });

  switch (tree.keyword) {
    case 'lesson':
    case 'course':
    case 'library':
      return make('lesson', leaf(tree.head, 'title')?.text ?? '', tree.keyword, lines('setting'));
    case 'shape':
    case 'grip':
    case 'cell':
    case 'contour':
    case 'melody':
    case 'tab':
      return make('part', definition?.name ?? rest, tree.keyword);
    case 'progression': {
      const bars = (definition as ProgressionDefinition | undefined)?.bars ?? [];
      return make(
        'part',
        definition?.name ?? '',
        `${tree.keyword}, ${counted(bars.length, 'bar')}`,
        barSymbols(text, bars),
      );
    }
    case 'section': {
      const bars = (definition as Section | undefined)?.plan.bars.length ?? 0;
      const title = leaf(tree.head, 'title')?.text;
      const detail = [title, counted(bars, 'bar')].filter((one) => one).join(', ');
      return make('section', definition?.name ?? '', detail, lines('line'));
    }
    case 'variant':
      return make('section', definition?.name ?? '', leaf(tree.head, 'title')?.text ?? 'variant', lines('line'));
    case 'practice':
      return make('plan', 'practice', counted(tree.body.length, 'step'), lines('line'));
    case 'form':
      return make('plan', 'form', rest);
    case 'claim':
      return make('claim', rest, 'claim');
    case 'text':
    case 'note':
      return proseSymbol(text, statement, make);
    case 'use':
      return make('line', rest, 'use');
    default:
      return make('setting', tree.keyword, rest);
  }
}

function lineSymbol(text: string, line: Line, start: number, kind: SymbolKind): LessonSymbol {
  const whole = shifted(line, start);
  const keyword = text.slice(start + line.keyword.start, start + line.keyword.end);
  const detail = text.slice(start + line.keyword.end, whole.end).trim();
  return { name: keyword === '' ? detail : keyword, detail, kind, whole, named: whole, children: [] };
}

const barSymbols = (text: string, bars: ProgressionDefinition['bars']): readonly LessonSymbol[] =>
  bars.map(({ span }, i) => ({
    name: `Bar ${i + 1}`,
    detail: text.slice(span.start, span.end),
    kind: 'bar',
    whole: span,
    named: span,
    children: [],
  }));

/** Prose by its first heading, with the other headings under it. */
function proseSymbol(
  text: string,
  { tree, start }: PlacedStatement,
  make: (kind: SymbolKind, name: string, detail: string, children?: readonly LessonSymbol[]) => LessonSymbol,
): LessonSymbol {
  const headings: LessonSymbol[] = [];
  const prose = tree.prose ? text.slice(start + tree.prose.start, start + tree.prose.end) : '';
  for (const found of prose.matchAll(/^[ \t]*#{1,6}[ \t]+(\S[^\r\n]*)/gm)) {
    const at = start + tree.prose!.start + found.index + found[0].length - found[1].length;
    const whole = { start: at, end: at + found[1].length };
    headings.push({ name: found[1].trim(), detail: '', kind: 'prose', whole, named: whole, children: [] });
  }
  return make('prose', headings[0]?.name ?? tree.keyword!, tree.keyword!, headings.slice(1));
}
