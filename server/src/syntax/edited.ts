/** A document as it would be after edits, with every place still that of the text at hand. */
import { applyEdits } from '../util/edits.ts';
import type { Edit } from '../util/finding.ts';
import { mappedBack } from '../util/mapped-spans.ts';
import { shifted, type Span } from '../util/span.ts';
import { parseStatement } from './statement-parser.ts';
import type { PlacedStatement, SyntaxDocument } from './document.ts';
import { isGroup, type Line, type Part, type Statement } from './tree.ts';

/** What edits made of a statement is made once for each set of edits; a lesson has few variants. */
const MOST_KEPT = 16;
const made = new WeakMap<Statement, Map<string, Statement>>();

/**
 * `edits` with offsets of the text; each must lie inside one statement, leave its keyword and its lines alone, and overlap no
 * other. Statements without edits are the same trees.
 */
export function editedDocument(document: SyntaxDocument, edits: readonly Edit[]): SyntaxDocument {
  if (edits.length === 0) return document;
  const sorted = [...edits].sort((a, b) => a.span.start - b.span.start);
  let next = 0;
  const statements = document.statements.map((placed): PlacedStatement => {
    const { tree, start } = placed;
    const end = start + tree.text.length;
    const own: Edit[] = [];
    for (; next < sorted.length && sorted[next].span.start < end; next++) {
      const { span, text } = sorted[next];
      if (span.start >= start && span.end <= end) own.push({ span: shifted(span, -start), text });
    }
    return own.length === 0 ? placed : { tree: editedTree(tree, own), start };
  });
  return { statements, problems: document.problems };
}

function editedTree(tree: Statement, edits: readonly Edit[]): Statement {
  let kept = made.get(tree);
  if (!kept) made.set(tree, (kept = new Map()));
  const key = edits.map(({ span, text }) => `${span.start} ${span.end} ${text}`).join('\n');
  let edited = kept.get(key);
  if (!edited) {
    const back = mappedBack(edits);
    edited = { ...movedTree(parseStatement(applyEdits(tree.text, edits)), back), text: tree.text };
    const oldest = kept.keys().next();
    if (kept.size >= MOST_KEPT && !oldest.done) kept.delete(oldest.value);
    kept.set(key, edited);
  }
  return edited;
}

type Move = (span: Span) => Span;

const movedTree = (tree: Statement, move: Move): Statement => ({
  ...tree,
  head: movedLine(tree.head, move),
  body: tree.body.map((line) => movedLine(line, move)),
  ...(tree.prose && { prose: move(tree.prose) }),
  comments: tree.comments.map((comment) => ({ ...comment, ...move(comment) })),
  problems: tree.problems.map((problem) => ({ ...problem, span: move(problem.span) })),
});

/** The same line elsewhere. */
export const movedLine = (line: Line, move: Move): Line => ({
  ...line,
  ...move(line),
  keyword: move(line.keyword),
  parts: line.parts.map((part) => movedPart(part, move)),
});

const movedPart = (part: Part, move: Move): Part =>
  isGroup(part)
    ? { ...part, ...move(part), parts: part.parts.map((one) => movedPart(one, move)) }
    : { ...part, ...move(part) };
