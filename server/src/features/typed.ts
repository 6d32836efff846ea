/** The cursor's line as it is typed so far, and what the table of statements says of it. */
import type { Analysis } from '../analyze.ts';
import type { PlacedStatement } from '../syntax/document.ts';
import { LONGEST_LINE } from '../syntax/statement-parser.ts';
import { statementNamed, type LineForm, type StatementForm } from '../syntax/statements.ts';
import { cutWords, isBlank, type Word } from '../syntax/words.ts';
import type { Span } from '../util/span.ts';
import { statementAt } from './place.ts';

/** A line cut where the cursor stands. */
export interface Typed {
  /** Those that are whole: a blank or a mark stands behind each. */
  readonly words: readonly Word[];
  /** The word that the cursor is in or right behind; its quote may be open. */
  readonly open?: Word;
  /** Where that word begins; empty where there is none. */
  readonly span: Span;
  readonly lineStart: number;
  readonly indented: boolean;
}

/** Undefined in comments, and in lines that are too long to be read. */
export function typedAt({ lines }: Analysis, offset: number): Typed | undefined {
  const at = lines.positionAt(offset);
  if (at.character > LONGEST_LINE) return undefined;
  // A byte-order mark is no indent.
  const before = lines
    .line(at.line)
    .slice(0, at.character)
    .replace(/^\ufeff/, '');
  const cut = cutWords(before, offset - before.length);
  if (cut.comment) return undefined;
  const last = cut.words[cut.words.length - 1];
  const open = last?.unclosed || (last?.kind === 'word' && last.end === offset) ? last : undefined;
  return {
    words: open ? cut.words.slice(0, -1) : cut.words,
    ...(open && { open }),
    span: { start: open ? open.start : offset, end: offset },
    lineStart: lines.starts[at.line],
    indented: before !== '' && isBlank(before[0]),
  };
}

/** What a line may say: a statement's first, or one of its body. */
export interface LineAt {
  readonly form: StatementForm;
  /** Undefined for the first line. */
  readonly line?: LineForm;
  /** The number of the first word that is not the line's keyword. */
  readonly from: number;
}

/** The statement whose body the line stands in; undefined for a line that begins one. */
export function bodyAround(analysis: Analysis, { lineStart, indented }: Typed): PlacedStatement | undefined {
  const owner = statementAt(analysis, lineStart);
  return indented && owner && owner.start < lineStart ? owner : undefined;
}

/** Undefined in prose, where the keyword is not written yet, and where the table knows none. */
export function lineAt(analysis: Analysis, typed: Typed): LineAt | undefined {
  const owner = bodyAround(analysis, typed);
  const [first] = typed.words;
  if (!owner) {
    const form = first?.kind === 'word' ? statementNamed(first.text) : undefined;
    return form && { form, from: 1 };
  }
  const form = owner.tree.keyword === undefined ? undefined : statementNamed(owner.tree.keyword);
  if (!form || form.prose) return undefined;
  const line = first && form.body.find((one) => one.keyword !== undefined && one.keyword === first.text);
  if (line) return { form, line, from: 1 };
  const music = form.body.find((one) => one.keyword === undefined);
  return music && { form, line: music, from: 0 };
}
