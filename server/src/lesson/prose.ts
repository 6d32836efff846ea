/** The prose of a lesson: paragraphs for the student or the teacher, the computed facts in them, and the music set between. */
import { shifted, type Span } from '../util/span.ts';
import { leaf, type Statement } from '../syntax/tree.ts';
import type { Scope, Source } from './reader.ts';

/** A stretch between braces in a prose: `{verse.1.chord}`. */
export interface Brace {
  /** What stands between the braces, without blanks around it. */
  readonly path: string;
  /** With the braces, in `markdown`. */
  readonly start: number;
  readonly end: number;
}

/** The same object as long as the statement's own text stays the same, wherever it stands: what is made of it can be kept by it. */
export interface ProseText {
  /** Without the common indent and without comments; braces and their escapes still in it. Lines end with `\n`. */
  readonly markdown: string;
  readonly braces: readonly Brace[];
}

/** `{verse.1.chord}` in a prose. */
export interface FactUse extends Brace {
  /** With the braces, in the text of the lesson. */
  readonly span: Span;
  /** The path alone, in the text of the lesson. */
  readonly pathSpan: Span;
}

export interface Prose {
  readonly kind: 'text' | 'note';
  /** The whole statement. */
  readonly span: Span;
  readonly prose: ProseText;
  /** Parallel to the braces of `prose`. */
  readonly facts: readonly FactUse[];
}

export interface Show {
  readonly kind: 'show';
  readonly span: Span;
  /** Index in the lesson's sections; undefined where no section has the name. */
  readonly section?: number;
  /** Bars as counted in the section; undefined: all of it. They are there, and in their order. */
  readonly first?: number;
  readonly last?: number;
  readonly view: 'tab' | 'diagrams' | 'neck' | 'all';
}

/** Prose and music in the order of the text. */
export type Passage = Prose | Show;

/** What a passage needs to know of a section. */
interface Shown {
  readonly name: string;
  readonly plan: { readonly bars: readonly { readonly number: number }[] };
}

const MOST_FACTS = 2000;
const MOST_SHOWS = 500;

/** `sources` are the `text`, `note` and `show` statements. Sections are looked up, and uses noted, in `scope`. */
export function readPassages(sources: readonly Source[], scope: Scope, sections: readonly Shown[]): readonly Passage[] {
  let facts = 0;
  let shows = 0;
  return sources.flatMap((source): Passage | readonly never[] => {
    if (source.tree.keyword === 'show') {
      if (++shows > MOST_SHOWS) return tooMuch(source, `shows`, MOST_SHOWS);
      return readShow(source, scope, sections) ?? [];
    }
    const prose = readProse(source, scope);
    facts += prose.facts.length;
    return facts > MOST_FACTS ? tooMuch(source, 'facts', MOST_FACTS) : prose;
  });
}

function tooMuch(source: Source, what: string, limit: number): readonly never[] {
  source.report('too-much', source.at(source.tree.head.keyword), { what, limit: `${limit}` });
  return [];
}

function readShow(source: Source, scope: Scope, sections: readonly Shown[]): Show | undefined {
  const { head } = source.tree;
  const name = leaf(head, 'section');
  if (!name) return undefined;
  const definition = scope.use('section', name.text, source.at(name));
  const index = sections.findIndex((section) => (section as unknown) === definition);
  const view = (leaf(head, 'view')?.text ?? 'all') as Show['view'];
  const show: Show = { kind: 'show', span: source.at(head), ...(index >= 0 && { section: index }), view };
  const from = leaf(head, 'first');
  const bars = sections[index]?.plan.bars ?? [];
  if (!from || bars.length === 0) return show;
  const to = leaf(head, 'last') ?? from;
  const [first, last] = [Number(from.text), Number(to.text)];
  const [lowest, highest] = [bars[0].number, bars[bars.length - 1].number];
  if (first >= lowest && last <= highest && first <= last) return { ...show, first, last };
  const at = source.at({ start: from.start, end: to.end });
  source.report('bars-outside-section', at, { first: `${first}`, last: `${last}`, bars: `${bars.length}` });
  // Nothing of what was asked for is there to be shown in its place.
  if (first > last || first > highest || last < lowest) return undefined;
  return { ...show, first: Math.max(first, lowest), last: Math.min(last, highest) };
}

function readProse(source: Source, scope: Scope): Prose {
  const { tree } = source;
  const { text, places, unclosed } = proseOf(tree);
  for (const brace of unclosed) source.report('unclosed-brace', source.at(brace), {});
  const facts = text.braces.map(({ path, start, end }, index): FactUse => {
    const place = places[index];
    const pathSpan = source.at(place.path);
    // The name is noted so that it can be followed and renamed; whether the fact is true is asked where the music is known.
    if (place.section !== undefined) {
      scope.use('section', place.section, { start: pathSpan.start, end: pathSpan.start + place.section.length }, true);
    }
    return { path, start, end, span: source.at(place.whole), pathSpan };
  });
  const end = Math.max(tree.head.end, tree.prose?.end ?? 0);
  const kind = tree.keyword === 'note' ? 'note' : 'text';
  return { kind, span: source.at({ start: tree.head.start, end }), prose: text, facts };
}

/** What stands first in the path of a fact about the whole lesson. */
export const LESSON = 'lesson';

/** Where a brace and the path in it stand in the statement, and the name of a section that the path begins with. */
interface BracePlace {
  readonly whole: Span;
  readonly path: Span;
  readonly section?: string;
}

interface ReadProse {
  readonly text: ProseText;
  /** Parallel to the braces. */
  readonly places: readonly BracePlace[];
  /** Braces that are opened and never closed on their line. */
  readonly unclosed: readonly Span[];
}

/** By the tree, which is the same for equal statements. */
const read = new WeakMap<Statement, ReadProse>();

function proseOf(tree: Statement): ReadProse {
  let known = read.get(tree);
  if (!known) read.set(tree, (known = cutProse(tree)));
  return known;
}

interface ProseLine {
  readonly text: string;
  readonly start: number;
}

function cutProse({ prose, text }: Statement): ReadProse {
  const lines = prose ? linesOf(text.slice(prose.start, prose.end), prose.start) : [];
  const indent = commonIndent(lines);
  const braces: Brace[] = [];
  const places: BracePlace[] = [];
  const unclosed: Span[] = [];
  let markdown = '';
  lines.forEach((line, index) => {
    if (index > 0) markdown += '\n';
    // A line that lost its indent, of which there is a finding, loses no letter of its own.
    const cut = line.text.startsWith(indent) ? indent.length : 0;
    const own = line.text.slice(cut);
    for (const one of bracesIn(own)) {
      const at = shifted(one, line.start + cut);
      if (!one.closed) {
        unclosed.push(at);
        continue;
      }
      const inner = own.slice(one.start + 1, one.end - 1);
      const path = inner.trim();
      const from = at.start + 1 + (path === '' ? 0 : inner.indexOf(path));
      braces.push({ path, start: markdown.length + one.start, end: markdown.length + one.end });
      const section = /^[^.\s]+/.exec(path)?.[0];
      places.push({
        whole: at,
        path: { start: from, end: from + path.length },
        ...(section !== undefined && section !== LESSON && { section }),
      });
    }
    markdown += own;
  });
  return { text: { markdown, braces }, places, unclosed };
}

/** Comments, which begin in the first column, are no lines of the prose. */
function linesOf(text: string, start: number): readonly ProseLine[] {
  const lines: ProseLine[] = [];
  let at = 0;
  for (const found of text.matchAll(/\r\n|\n|\r|$/g)) {
    const line = text.slice(at, found.index);
    if (!line.startsWith(';')) lines.push({ text: line, start: start + at });
    if (found[0] === '') break;
    at = found.index + found[0].length;
  }
  return lines;
}

const BLANKS = /^[^\S\n]*/;

/** The blanks that all indented lines begin with. */
function commonIndent(lines: readonly ProseLine[]): string {
  let common: string | undefined;
  for (const { text } of lines) {
    const own = BLANKS.exec(text)![0];
    if (own === '' || own.length === text.length) continue;
    if (common === undefined) common = own;
    let same = 0;
    while (same < common.length && common[same] === own[same]) same++;
    common = common.slice(0, same);
  }
  return common ?? '';
}

/** Braces of one line; those behind an odd number of backslashes are plain. An open one ends at the next or at the line's end. */
function bracesIn(line: string): readonly (Span & { readonly closed: boolean })[] {
  const found: (Span & { closed: boolean })[] = [];
  let open: number | undefined;
  for (let at = 0; at < line.length; at++) {
    const sign = line[at];
    if (sign === '\\') at++;
    else if (sign === '{') {
      if (open !== undefined) found.push({ start: open, end: open + 1, closed: false });
      open = at;
    } else if (sign === '}' && open !== undefined) {
      found.push({ start: open, end: at + 1, closed: true });
      open = undefined;
    }
  }
  if (open !== undefined) found.push({ start: open, end: open + 1, closed: false });
  return found;
}
