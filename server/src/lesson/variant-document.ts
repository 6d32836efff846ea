/** The document of a variant: the lesson's statements with those that the variant has for itself in their place. */
import type { PlacedStatement, SyntaxDocument } from '../syntax/document.ts';
import { movedLine } from '../syntax/edited.ts';
import { isGroup, type Leaf, type Line, type Part, type Statement } from '../syntax/tree.ts';
import { shifted, type Span } from '../util/span.ts';
import { ENDING_KINDS } from './layout.ts';
import { SETTINGS } from './settings.ts';
import type { ReplacedKind, VariantDefinition } from './variants.ts';

/**
 * Every node keeps its place in the text, so that what is found in the variant points to where it is written. `document` is the
 * lesson's own, or that in the variant's key.
 */
export function variantDocument(document: SyntaxDocument, variant: VariantDefinition): SyntaxDocument {
  const own = document.statements.find(
    ({ tree, start }) => tree.keyword === 'variant' && tree.head.start + start === variant.whole.start,
  );
  if (!own) return document;
  const lines = own.tree.body;
  const level = lines.find((line) => line.form === 'level' && !line.broken);
  const settings = lines.filter((line) => SETTINGS.includes(line.form));
  const set = new Set(settings.map((line) => settingNamed(line.form)));
  const renamed = renamer(variant);
  const statements = document.statements.flatMap((placed): readonly PlacedStatement[] => {
    const { tree, start } = placed;
    const { keyword = '' } = tree;
    if (placed === own) {
      return [
        ...settings.map((line) => asStatement(line, line.form, own)),
        ...lines.filter((line) => line.form === 'claim').map((line) => asStatement(line, 'claim', own)),
        ...(variant.practises ? [{ tree: { ...own.tree, keyword: 'practice', problems: [] }, start: own.start }] : []),
      ];
    }
    if (keyword === 'variant') return [];
    if (keyword === 'practice' && variant.practises) return [];
    if (SETTINGS.includes(keyword) && set.has(settingNamed(keyword))) return [];
    if (keyword === 'lesson' && level) return [{ tree: withLevel(tree, level, own.start - start), start }];
    if (keyword === 'section' || keyword === 'progression') return [{ tree: renamed(tree), start }];
    return [placed];
  });
  const hasHead = document.statements.some(({ tree }) => tree.keyword === 'lesson');
  if (level && !hasHead) {
    const head: Line = { ...level, form: 'head', parts: [] };
    statements.push({ tree: statementOf('lesson', head, [level]), start: own.start });
  }
  return { statements, problems: document.problems };
}

/**
 * The statements that move with the key. The variant says its key itself, so that an empty one stands for the lesson's; other
 * variants say what they say in the key that they are written in.
 */
export function movingWithKey(document: SyntaxDocument): SyntaxDocument {
  const nowhere = { start: 0, end: 0 };
  const key = statementOf('key', { ...nowhere, form: 'head', keyword: nowhere, parts: [], broken: false });
  const statements = document.statements.filter(
    ({ tree }) => !['key', 'variant', 'lesson'].includes(tree.keyword ?? ''),
  );
  return { statements: [...statements, { tree: key, start: 0 }], problems: [] };
}

/** `no capo` is about the capo. */
const settingNamed = (word: string): string => (word === 'no' ? 'capo' : word);

const statementOf = (keyword: string, head: Line, body: readonly Line[] = []): Statement => ({
  keyword,
  head,
  body,
  comments: [],
  problems: [],
  text: '',
});

/** A line of the variant as the statement that it would be in the lesson. */
const asStatement = (line: Line, keyword: string, { start }: PlacedStatement): PlacedStatement => ({
  tree: statementOf(keyword, { ...line, form: 'head' }),
  start,
});

/** The head of the lesson with the variant's level, which stands `by` characters behind the head's own beginning. */
function withLevel(tree: Statement, level: Line, by: number): Statement {
  const moved = movedLine(level, (span: Span) => shifted(span, by));
  return { ...tree, body: [...tree.body.filter((line) => line.form !== 'level'), moved] };
}

/** Where a shape or a cell is named behind a chord. */
const CHORD_KINDS: Readonly<Record<string, ReplacedKind>> = { as: 'shape', with: 'cell' };

/** Puts the variant's parts in the place of the lesson's, wherever they are called for. */
function renamer({ replaces }: VariantDefinition): (tree: Statement) => Statement {
  const names = new Map(replaces.map(({ kind, name, instead }) => [`${kind} ${instead}`, name]));
  const kinds = new Set(replaces.map(({ kind }) => kind));
  // A name stands in a section's line of its kind, behind an ending, and behind a chord.
  const inWord = (word: Leaf, own: readonly ReplacedKind[]): Leaf => {
    if (word.label !== 'name') return word;
    const kind = own.find((one) => names.has(`${one} ${word.text}`));
    return kind ? { ...word, text: names.get(`${kind} ${word.text}`)! } : word;
  };
  const inPart = (part: Part, own: readonly ReplacedKind[]): Part => {
    if (!isGroup(part)) return inWord(part, own);
    const kind = CHORD_KINDS[part.label];
    return { ...part, parts: part.parts.map((one) => inPart(one, kind ? [kind] : own)) };
  };
  const inLine = (line: Line): Line => {
    const own: readonly ReplacedKind[] = line.form === 'ending' ? ENDING_KINDS : [line.form as ReplacedKind];
    return { ...line, parts: line.parts.map((part) => inPart(part, own)) };
  };
  return (tree) => {
    const touched =
      kinds.size > 0 && (tree.keyword === 'section' || Object.values(CHORD_KINDS).some((kind) => kinds.has(kind)));
    return touched ? { ...tree, body: tree.body.map(inLine) } : tree;
  };
}
