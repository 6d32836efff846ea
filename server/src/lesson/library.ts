/** How lessons stand together: what a lesson needs before it, a course's days, and what a library asks of each lesson. */
import type { Span } from '../util/span.ts';
import type { Source } from './reader.ts';

/** A path as written, relative to the file it stands in. */
export interface PathUse {
  readonly path: string;
  /** The path without its quotes. */
  readonly span: Span;
}

/** `use …`: the names that it brings, all of them where it names none. */
export interface Import extends PathUse {
  readonly names: readonly { readonly name: string; readonly span: Span }[];
}

export interface Course {
  readonly title: string;
  /** As written, `2030-01-07`; undefined where it is missing or no day of a calendar. */
  readonly starts?: string;
  readonly days: readonly (PathUse & { readonly day: number; readonly daySpan: Span })[];
  readonly span: Span;
}

/** What each lesson of a library must state. */
export interface LibraryHead {
  readonly title: string;
  readonly requires: readonly { readonly word: string; readonly span: Span }[];
  readonly span: Span;
}

export function readImports(_sources: readonly Source[]): readonly Import[] {
  return [];
}

/** The paths of `needs` in the head of a lesson. */
export function readNeeds(_head: Source | undefined): readonly PathUse[] {
  return [];
}

export function readCourse(_sources: readonly Source[]): Course | undefined {
  return undefined;
}

export function readLibrary(_sources: readonly Source[]): LibraryHead | undefined {
  return undefined;
}
