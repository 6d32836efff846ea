/** The tree of one statement. All offsets count from the statement's own start, so that equal texts share one tree. */
import type { Problem } from '../util/finding.ts';
import type { Span } from '../util/span.ts';

/** One word that filled a slot of the table. */
export interface Leaf extends Span {
  readonly label: string;
  /** As written; a title without its quotes. */
  readonly text: string;
}

/** Words that belong together under one label: a chord with its modifiers. */
export interface Group extends Span {
  readonly label: string;
  readonly parts: readonly Part[];
}

export type Part = Leaf | Group;

export interface Line extends Span {
  /** The label of the line's form in the table of statements; `head` for a statement's first line. */
  readonly form: string;
  readonly keyword: Span;
  readonly parts: readonly Part[];
  /** True where the line could not be read to its end; what was read is in `parts`. */
  readonly broken: boolean;
}

export interface Comment extends Span {
  readonly text: string;
  /** Whether the comment has a line of its own. */
  readonly alone: boolean;
}

export interface Statement {
  /** A keyword of the table; `undefined` for a first line that no statement begins with. */
  readonly keyword: string | undefined;
  readonly head: Line;
  readonly body: readonly Line[];
  /** The prose of `text` and `note`: its whole lines, with the indent. */
  readonly prose?: Span;
  readonly comments: readonly Comment[];
  readonly problems: readonly Problem[];
  readonly text: string;
}

export const isGroup = (part: Part): part is Group => 'parts' in part;

interface HasParts {
  readonly parts: readonly Part[];
}

/** The first word under `label`, or undefined. */
export function leaf(node: HasParts | undefined, label: string): Leaf | undefined {
  return node?.parts.find((part): part is Leaf => part.label === label && !isGroup(part));
}

export function leaves(node: HasParts | undefined, label: string): readonly Leaf[] {
  return node?.parts.filter((part): part is Leaf => part.label === label && !isGroup(part)) ?? [];
}

export function group(node: HasParts | undefined, label: string): Group | undefined {
  return node?.parts.find((part): part is Group => part.label === label && isGroup(part));
}

export function groups(node: HasParts | undefined, label: string): readonly Group[] {
  return node?.parts.filter((part): part is Group => part.label === label && isGroup(part)) ?? [];
}

/** The lines of one form, broken ones too. */
export function linesOf(statement: Statement, form: string): readonly Line[] {
  return statement.body.filter((line) => line.form === form);
}
