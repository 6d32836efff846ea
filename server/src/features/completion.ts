/** What may stand at the cursor: keywords by place, and whatever the table of statements lets follow in a line. */
import type { Analysis } from '../analyze.ts';
import { match, wordsOf, type Expectation, type Pattern } from '../syntax/patterns.ts';
import { chordModifiers, statementNamed, statements, type StatementForm } from '../syntax/statements.ts';
import type { Word } from '../syntax/words.ts';
import type { Span } from '../util/span.ts';
import { claimOffers } from './completion-claims.ts';
import { factCompletionsAt } from './completion-facts.ts';
import { offersFor, type Offer } from './completion-offers.ts';
import { keywordItem } from './completion-snippets.ts';
import { bodyAround, lineAt, typedAt, type LineAt, type Typed } from './typed.ts';

export interface Completion extends Offer {
  /** What takes the place of the typed word; with `snippet`, in the syntax of snippets. */
  readonly insert: string;
  readonly snippet: boolean;
}

export interface Completions {
  /** The part of a word already typed, which an item takes the place of. */
  readonly span: Span;
  /** The likeliest first. */
  readonly items: readonly Completion[];
}

/**
 * `asked` is false where an editor asks by itself behind a blank: then only what must follow is offered, so that nothing is in
 * the way of the end of a line. In prose the braces alone are filled. Undefined in comments and quotes, and where nothing fits.
 */
export function completionsAt(analysis: Analysis, offset: number, asked = true): Completions | undefined {
  const facts = factCompletionsAt(analysis, offset);
  if (facts) return facts;
  const typed = typedAt(analysis, offset);
  if (!typed || typed.open?.unclosed) return undefined;
  const { words, span, lineStart } = typed;
  const line = lineAt(analysis, typed);
  if (words.length > 0) return line && inLine(analysis, typed, line, asked);
  if (!asked) return undefined;
  const owner = bodyAround(analysis, typed);
  const bare = isFollowed(analysis, offset, !owner);
  if (!owner)
    return found(
      span,
      statements.map((one) => keywordItem(analysis, one, undefined, bare)),
    );
  const form = owner.tree.keyword === undefined ? undefined : statementNamed(owner.tree.keyword);
  if (!form) return undefined;
  // The line at hand is no reason to leave its own keyword out.
  const own = lineStart - owner.start;
  const said = new Set(owner.tree.body.filter(({ start, end }) => end < own || start > own).map((one) => one.form));
  const left = form.body.filter((one) => one.keyword !== undefined && (one.often || !said.has(one.label)));
  const notes = line ? (inLine(analysis, typed, line, asked)?.items ?? []) : [];
  return found(span, [...notes, ...left.map((one) => keywordItem(analysis, form, one, bare))]);
}

const found = (span: Span, items: readonly Completion[]): Completions | undefined =>
  items.length === 0 ? undefined : { span, items };

/** Whether words stand behind the cursor already, in its line or, for a statement, as a body below. */
function isFollowed({ lines }: Analysis, offset: number, body: boolean): boolean {
  const at = lines.positionAt(offset);
  if (/\S/.test(lines.line(at.line).slice(at.character).replace(/^\S+/, ''))) return true;
  return body && at.line + 1 < lines.lineCount && /^\s+\S/.test(lines.line(at.line + 1));
}

function inLine(
  analysis: Analysis,
  { words, span }: Typed,
  { form, line, from }: LineAt,
  asked: boolean,
): Completions | undefined {
  const { expected, mayEnd } = expectations(line?.pattern ?? form.head, words, from, line?.bars ?? false);
  if (!asked && mayEnd) return undefined;
  const context = { analysis, form, ...(line && { line }), words, from, offset: span.start, asked };
  const seen = new Set<string>();
  const claims =
    (line?.label ?? form.keyword) === 'claim' ? claimOffers(analysis, span.start, words.slice(from)) : undefined;
  const offers = [...expected].sort((a, b) => rank(a, form) - rank(b, form)).flatMap((one) => offersFor(one, context));
  const items = (claims ?? offers)
    .filter(({ label }) => !seen.has(label) && seen.add(label))
    .map((offer): Completion => ({ ...offer, insert: offer.insert ?? offer.label, snippet: false }));
  return found(span, items);
}

const MODIFIERS: ReadonlySet<string> = new Set(wordsOf(chordModifiers));

/**
 * What fills a slot is likelier than a word of the line, and the next note likelier than a length of its own. Behind a chord its
 * modifiers come first: the next chord stands behind a bar line, as a rule. A key that was begun is finished before that.
 */
function rank(one: Expectation, form: StatementForm): number {
  if (one.is === 'slot' && one.kind === 'string' && form.keyword === 'melody') return 3;
  if (one.is === 'slot') return one.kind === 'mode' ? 0 : one.kind === 'length' ? 3 : 2;
  return form.keyword === 'progression' && one.is === 'word' && MODIFIERS.has(one.word) ? 1 : 4;
}

/** What could stand behind the words; a slip costs a line of bars no more than its bar, as when it is read. */
function expectations(
  pattern: Pattern,
  words: readonly Word[],
  from: number,
  bars: boolean,
): { expected: readonly Expectation[]; mayEnd: boolean } {
  let inner = pattern;
  let next = from;
  for (;;) {
    const { furthest, expected, matched, read } = match(inner, words, next);
    const mayEnd = matched && read === words.length;
    if (furthest === words.length) return { expected, mayEnd };
    if (mayEnd || !bars) return { expected: [], mayEnd };
    let resume = Math.max(furthest, read);
    while (resume < words.length && words[resume].kind !== 'bar') resume++;
    if (resume >= words.length) return { expected: [], mayEnd: false };
    if (inner.is === 'sequence') inner = inner.of[inner.of.length - 1];
    next = resume;
  }
}
