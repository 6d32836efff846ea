/** How lessons stand together: what a lesson needs before it, a course's days, and what a library asks of each lesson. */
import type { Span } from '../util/span.ts';
import { leaf, leaves } from '../syntax/tree.ts';
import { headOf, type Head } from './head.ts';
import type { Neighbours } from './neighbours.ts';
import { Source } from './reader.ts';

/** The file at a library's root. */
export const LIBRARY_FILE = 'library.lesson';
const MOST_DAYS = 400;
/** A chain of lessons that need one another is not followed farther. */
const LONGEST_CHAIN = 60;

/** A path as written, relative to the file it stands in, and the file it leads to. */
export interface PathUse {
  readonly path: string;
  /** The path with its quotes. */
  readonly span: Span;
  /** From the root; undefined where it leads outside, or the lesson stands alone. */
  readonly to?: string;
  /** The head of the lesson there; undefined where there is none, or it is not known yet. */
  readonly head?: Head;
}

export interface CourseDay extends PathUse {
  readonly day: number;
  readonly daySpan: Span;
  /** The paths, from the root, that the day's lesson needs. */
  readonly needs: readonly string[];
}

export interface Course {
  readonly title: string;
  /** As written, `2030-01-07`; undefined where it is missing or no day of a calendar. */
  readonly starts?: string;
  /** In the order written. */
  readonly days: readonly CourseDay[];
  readonly span: Span;
}

/** What each lesson of a library must state. */
export interface LibraryHead {
  readonly title: string;
  readonly requires: readonly string[];
  /** Where it is written; absent where another file has it. */
  readonly span?: Span;
}

/** Looks where a path leads, and says where it leads nowhere. */
export function readPath(source: Source, word: { text: string } & Span, neighbours: Neighbours): PathUse {
  const span = source.at(word);
  const written = { path: word.text, span };
  if (neighbours.path === undefined) return written;
  const to = neighbours.resolve(word.text);
  if (to === undefined) {
    source.report('path-outside', span, { path: word.text });
    return written;
  }
  const document = neighbours.document(to);
  if (document === null) source.report('file-missing', span, { path: word.text });
  const head = document ? headOf(document) : undefined;
  return { ...written, to, ...(head && { head }) };
}

/** `needs` of the lesson's head, followed from lesson to lesson: a lesson that needs itself in the end is a problem. */
export function readNeeds(source: Source | undefined, neighbours: Neighbours): readonly PathUse[] {
  return leaves(source?.line('needs'), 'path').map((word) => {
    const use = readPath(source!, word, neighbours);
    const own = neighbours.path;
    if (use.to !== undefined && own !== undefined) {
      const chain = chainTo(own, use.to, neighbours);
      if (chain) source!.report('needs-circular', use.span, { path: use.path, chain: chain.join(' ') });
    }
    return use;
  });
}

/** The lessons from `from` on by which one comes to need `goal`; undefined where none does. */
function chainTo(goal: string, from: string, neighbours: Neighbours): readonly string[] | undefined {
  const seen = new Set<string>();
  const follow = (path: string, chain: readonly string[]): readonly string[] | undefined => {
    if (path === goal) return chain;
    if (seen.has(path) || chain.length >= LONGEST_CHAIN) return undefined;
    seen.add(path);
    for (const next of needsOf(path, neighbours)) {
      const found = follow(next, [...chain, next]);
      if (found) return found;
    }
    return undefined;
  };
  return follow(from, [from]);
}

function needsOf(path: string, neighbours: Neighbours): readonly string[] {
  const document = neighbours.document(path);
  const head = document ? headOf(document) : undefined;
  return (head?.needs ?? []).flatMap((need) => neighbours.resolve(need.path, path) ?? []);
}

export function readCourse(sources: readonly Source[], neighbours: Neighbours): Course | undefined {
  const [source, ...doubles] = sources;
  for (const double of doubles)
    double.report('said-twice', double.at(double.tree.head.keyword), { word: 'course', statement: 'text' });
  if (!source) return undefined;
  const title = leaf(source.tree.head, 'title');
  const lines = source.lines('day').filter((line) => !line.broken);
  if (lines.length > MOST_DAYS)
    source.report('too-much', source.at(lines[MOST_DAYS]), { what: 'days', limit: `${MOST_DAYS}` });
  const days = lines.slice(0, MOST_DAYS).flatMap((line): CourseDay | readonly [] => {
    const number = leaf(line, 'day');
    const path = leaf(line, 'path');
    if (!number || !path) return [];
    const day = source.number(number, 'the day', 1, MOST_DAYS);
    const use = readPath(source, path, neighbours);
    if (day === undefined) return [];
    const needs = use.to === undefined ? [] : needsOf(use.to, neighbours);
    return { ...use, day, daySpan: source.at(number), needs };
  });
  const date = leaf(source.line('starts'), 'date');
  if (date && !isDate(date.text)) source.report('bad-date', source.at(date), { found: date.text });
  return {
    title: title?.text ?? '',
    ...(date && isDate(date.text) && { starts: date.text }),
    days,
    span: source.at(title ?? source.tree.head.keyword),
  };
}

const DAYS_IN_MONTH = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/** Whether `2030-01-07` is a day of the Gregorian calendar. */
function isDate(text: string): boolean {
  const [year, month, day] = text.split('-').map(Number);
  const leap = month === 2 && year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  return month >= 1 && month <= 12 && day >= 1 && day <= DAYS_IN_MONTH[month - 1] + (leap ? 1 : 0);
}

/** The `library` statement of this file, or of the library's root. */
export function readLibrary(sources: readonly Source[], neighbours: Neighbours): LibraryHead | undefined {
  const [source, ...doubles] = sources;
  for (const double of doubles)
    double.report('said-twice', double.at(double.tree.head.keyword), { word: 'library', statement: 'text' });
  if (source) {
    if (neighbours.path !== undefined && neighbours.path !== LIBRARY_FILE)
      source.report('library-misplaced', source.at(source.tree.head.keyword), { path: neighbours.path });
    return { ...libraryHead(source), span: source.at(leaf(source.tree.head, 'title') ?? source.tree.head.keyword) };
  }
  const root = neighbours.path === LIBRARY_FILE ? undefined : neighbours.document(LIBRARY_FILE);
  const placed = root?.statements.find((one) => one.tree.keyword === 'library');
  return placed && libraryHead(new Source(placed, () => {}));
}

const libraryHead = (source: Source): LibraryHead => ({
  title: leaf(source.tree.head, 'title')?.text ?? '',
  requires: leaves(source.line('requires'), 'required').map((word) => word.text),
});
