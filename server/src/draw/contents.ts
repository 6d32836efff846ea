/** What a file is that holds no lesson: a course with its days, the head of a library, or parts for other files. */
import type { CourseDay, LibraryHead } from '../lesson/library.ts';
import type { Definition, Lesson } from '../lesson/lesson.ts';
import type { Finding } from '../util/finding.ts';
import type { LineMap } from '../util/line-map.ts';
import type { Span } from '../util/span.ts';
import { findingsWords } from './facts.ts';
import { printable } from './printable.ts';
import { counted, numberWord } from './spoken.ts';
import { escaped } from './svg.ts';
import { joinedWithin, wrapped } from './wrapped.ts';

export interface Contents {
  readonly title: string;
  readonly facts: readonly { readonly kind: 'contents' | 'findings'; readonly text: string }[];
  readonly lists: readonly ContentList[];
}

/** Days in their order, or parts of one kind in the order written. */
export interface ContentList {
  readonly heading: string;
  /** As text: names alone, behind the heading. */
  readonly inOneLine: boolean;
  readonly rows: readonly ContentRow[];
}

export interface ContentRow {
  readonly name: string;
  /** What it states of itself. */
  readonly says: readonly string[];
  /** Its lines as they are written. */
  readonly lines: readonly string[];
  /** Where it is written. */
  readonly span: Span;
}

/** Undefined for a lesson, and for what is going to be one. */
export function contentsOf(lesson: Lesson, lines: LineMap, findings: readonly Finding[]): Contents | undefined {
  const { course, library, sections, title } = lesson;
  if (sections.length > 0) return undefined;
  const contents = (name: string, said: readonly string[], lists: readonly ContentList[]): Contents => ({
    title: name,
    facts: [
      ...said.map((text) => ({ kind: 'contents' as const, text })),
      { kind: 'findings', text: findingsWords(findings) },
    ],
    lists: lists.filter(({ rows }) => rows.length > 0),
  });
  if (course) {
    const days = [...course.days].sort((one, other) => one.day - other.day);
    const minutes = days.reduce((sum, { head }) => sum + (head?.minutes ?? 0), 0);
    const said = [
      ...(course.starts === undefined ? [] : [`starts ${course.starts}`]),
      counted(days.length, 'day'),
      ...(minutes === 0 ? [] : [`${minutes} minutes in all`]),
    ];
    return contents(title ?? named(course.title, 'course'), said, [
      { heading: 'Days', inOneLine: false, rows: days.map(dayRow) },
    ]);
  }
  if (title !== undefined) return undefined;
  const parts = partsOf(lesson, lines);
  const counts = parts.map(({ said }) => said);
  if (library?.span) return contents(named(library.title, 'library'), counts, [requirements(library), ...parts]);
  return parts.length === 0 ? undefined : contents('Parts', counts, parts);
}

const named = (title: string, kind: string): string => (title === '' ? `Untitled ${kind}` : title);

/** The lesson by its title, or by its path where nothing is known of it. */
function dayRow({ day, head, path, daySpan, span }: CourseDay): ContentRow {
  const { title, level, minutes, focus = [] } = head ?? {};
  return {
    name: `Day ${day} · ${title ?? path}`,
    says: [
      ...(level === undefined ? [] : [`level ${level}`]),
      ...(minutes === undefined ? [] : [`${minutes} minute${minutes === 1 ? '' : 's'}`]),
      ...(focus.length === 0 ? [] : [focus.join(', ')]),
    ],
    lines: [],
    span: { start: daySpan.start, end: span.end },
  };
}

const requirements = ({ requires, span }: LibraryHead): ContentList => ({
  heading: 'Every lesson states',
  inOneLine: true,
  rows: requires.map((name) => ({ name, says: [], lines: [], span: span! })),
});

/** Parts of one kind, and how many they are. */
interface PartList extends ContentList {
  readonly said: string;
}

/** The file's own, not what it takes from others. */
function partsOf(lesson: Lesson, lines: LineMap): readonly PartList[] {
  const { shapes, grips, progressions, cells, contours, melodies, tabs } = lesson;
  const kinds: readonly (readonly [string, string, readonly Definition[]])[] = [
    ['shape', 'shapes', shapes],
    ['grip', 'grips', grips],
    ['progression', 'progressions', progressions],
    ['cell', 'cells', cells],
    ['contour', 'contours', contours],
    ['melody', 'melodies', melodies],
    ['tab', 'tabs', tabs],
  ];
  return kinds.flatMap(([one, several, all]): PartList | readonly never[] => {
    const own = all.filter(({ from }) => !from);
    if (own.length === 0) return [];
    return {
      heading: several.slice(0, 1).toUpperCase() + several.slice(1),
      inOneLine: true,
      said: `${numberWord(own.length)} ${own.length === 1 ? one : several}`,
      rows: own.map((part) => partRow(part, lines)),
    };
  });
}

/** More lines of one part are left to the text. */
const MOST_LINES = 40;

/** A part with its own lines, as they are written, less their common indent. */
function partRow({ name, whole, span }: Definition, lines: LineMap): ContentRow {
  const [head, ...all] = lines.text.slice(whole.start, whole.end).split(/\r\n|\r|\n/);
  const body = all.slice(0, MOST_LINES);
  const indents = body.filter((line) => line.trim() !== '').map((line) => /^\s*/.exec(line)![0].length);
  const indent = indents.length === 0 ? 0 : Math.min(...indents);
  return {
    // What stands behind the name says which string, meter or frets.
    name: [name, head.slice(span.end - whole.start).trim()].filter((words) => words !== '').join(' '),
    says: commentAbove(whole, lines),
    lines: [...body.map((line) => line.slice(indent).trimEnd()), ...(all.length > MOST_LINES ? ['…'] : [])],
    span: whole,
  };
}

/** The comment that ends on the line before, as one line of prose. */
function commentAbove({ start }: Span, lines: LineMap): readonly string[] {
  const words: string[] = [];
  for (let line = lines.lineAt(start) - 1; line >= 0; line--) {
    const said = /^\s*;+\s*(.*?)\s*$/.exec(lines.line(line));
    if (!said || words.length === MOST_LINES) break;
    if (!/^allow\s/.test(said[1])) words.unshift(said[1]);
  }
  return words.length === 0 ? [] : [words.join(' ')];
}

/** The title, the facts, and below them each list, in lines of at most `width` columns. */
export function contentsText({ title, facts, lists }: Contents, width: number): string {
  const lines = [
    ...wrapped(printable(title), width),
    ...joinedWithin(
      facts.map(({ text }) => text),
      width,
    ),
  ];
  if (lists.length > 0) lines.push('');
  for (const { heading, inOneLine, rows } of lists) {
    if (inOneLine)
      lines.push(...wrapped(`${heading}: ${rows.map(({ name }) => printable(name)).join(', ')}`, width, 2));
    else for (const { name, says } of rows) lines.push(...joinedWithin([name, ...says].map(printable), width, 2));
  }
  return lines.join('\n');
}

/** A list under its heading; each row with `data-step`, its index. */
export function contentsHtml({ heading, rows }: ContentList): string {
  const items = rows.map(({ name, says, lines }, step) => {
    const small = says.length === 0 ? '' : ` <span class="small">${escaped(says.join(' · '))}</span>`;
    const written = lines.length === 0 ? '' : `<pre>${escaped(lines.join('\n'))}</pre>`;
    return `<li data-step="${step}"><b>${escaped(name)}</b>${small}${written}</li>`;
  });
  const look = rows.some(({ lines }) => lines.length > 0) ? 'contents beside' : 'contents';
  return `<h2 class="section-title">${escaped(heading)}</h2><ul class="${look}">${items.join('')}</ul>`;
}
