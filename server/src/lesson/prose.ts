/** The prose of a lesson: paragraphs for the student or the teacher, the computed facts in them, and the music set between. */
import type { Span } from '../util/span.ts';
import type { Scope, Source } from './reader.ts';

/** `{verse.1.chord}` in a prose. */
export interface FactUse {
  /** What stands between the braces. */
  readonly path: string;
  /** With the braces, in the text of the lesson. */
  readonly span: Span;
  /** With the braces, in `prose`. */
  readonly start: number;
  readonly end: number;
}

export interface Prose {
  readonly kind: 'text' | 'note';
  /** The whole statement. */
  readonly span: Span;
  /** Markdown without the common indent, braces and their escapes still in it. */
  readonly prose: string;
  readonly facts: readonly FactUse[];
}

export interface Show {
  readonly kind: 'show';
  readonly span: Span;
  /** Index in the lesson's sections; undefined where no section has the name. */
  readonly section?: number;
  /** Bars as counted in the section; undefined: all of it. */
  readonly first?: number;
  readonly last?: number;
  readonly view: 'tab' | 'diagrams' | 'neck' | 'all';
}

/** Prose and music in the order of the text. */
export type Passage = Prose | Show;

export function readPassages(
  _sources: readonly Source[],
  _scope: Scope,
  _sections: readonly { readonly name: string }[],
): readonly Passage[] {
  return [];
}
