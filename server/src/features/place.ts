/** Where an offset lies: in which statement, line and word, and what of the lesson stands there. */
import type { Analysis } from '../analyze.ts';
import type { Definition, NameUse, PartKind, Section } from '../lesson/lesson.ts';
import type { PlacedStatement } from '../syntax/document.ts';
import { statementNamed, type LineForm, type StatementForm } from '../syntax/statements.ts';
import type { Line } from '../syntax/tree.ts';
import { covers, shifted, type Span } from '../util/span.ts';

/** A name at the place where it is given or used. */
export interface NameHere {
  readonly kind: PartKind;
  readonly name: string;
  readonly span: Span;
  /** Undefined for built-in names and for those that nothing is called. */
  readonly definition?: Definition;
}

/** A chord by its indexes in the lesson's sections, in a section's bars and in a bar's chords. */
export interface ChordAddress {
  readonly section: number;
  readonly bar: number;
  readonly chord: number;
}

export interface Place {
  readonly offset: number;
  /** The statement that the offset belongs to, its trailing blank lines included; undefined above the first. */
  readonly statement?: PlacedStatement;
  readonly form?: StatementForm;
  /** The line of the statement, with offsets of the statement. */
  readonly line?: Line;
  /** What the table says of that line; undefined for a statement's first. */
  readonly lineForm?: LineForm;
  /** The keyword that the offset is in. */
  readonly keyword?: Span;
  readonly inside: 'words' | 'comment' | 'prose';
  readonly name?: NameHere;
  /** The chord with its modifiers, and each place in the sections where it is played; none where no section calls for it. */
  readonly chord?: { readonly span: Span; readonly symbolSpan: Span; readonly played: readonly ChordAddress[] };
  /** The setting whose line it is: `key`, `capo`; with the section that has it for itself. */
  readonly setting?: { readonly name: string; readonly span: Span; readonly section?: Section };
}

/** Works without the score. Any offset is allowed; those outside the text have no statement. */
export function whereIs(analysis: Analysis, offset: number): Place {
  const statement = statementAt(analysis, offset);
  if (!statement) return { offset, inside: 'words' };
  const { tree, start } = statement;
  const own = offset - start;
  const form = tree.keyword === undefined ? undefined : statementNamed(tree.keyword);
  if (tree.comments.some((comment) => comment.start < own && own <= comment.end))
    return { offset, statement, form, inside: 'comment' };
  const line = [tree.head, ...tree.body].find((one) => covers(one, own));
  const lineForm = line && line !== tree.head ? form?.body.find((one) => one.label === line.form) : undefined;
  if (!line && form?.prose && own > tree.head.end)
    return { offset, statement, form, inside: 'prose', name: nameAt(analysis, offset) };
  const keyword = line && line.keyword.end > line.keyword.start && covers(line.keyword, own);
  return {
    offset,
    statement,
    form,
    line,
    lineForm,
    inside: 'words',
    ...(keyword && { keyword: shifted(line.keyword, start) }),
    ...(!keyword && { name: nameAt(analysis, offset), chord: chordAt(analysis, offset) }),
    ...(line && form && { setting: settingAt(analysis, form, line, start) }),
  };
}

/** The statement that holds an offset of the text; undefined above the first and outside the text. */
export function statementAt({ document, text }: Analysis, offset: number): PlacedStatement | undefined {
  if (offset < 0 || offset > text.length) return undefined;
  const { statements } = document;
  let low = 0;
  let high = statements.length - 1;
  let found: PlacedStatement | undefined;
  while (low <= high) {
    const middle = (low + high) >> 1;
    if (statements[middle].start <= offset) {
      found = statements[middle];
      low = middle + 1;
    } else high = middle - 1;
  }
  return found;
}

/** A statement from its keyword to its last words, without the blank lines and comments behind it. */
export function wholeOf({ tree, start }: PlacedStatement): Span {
  const end = Math.max(tree.head.end, tree.prose?.end ?? 0, ...tree.body.map((line) => line.end));
  return shifted({ start: tree.head.start, end }, start);
}

/** Everything that the author gave a name, in the order of the text. */
export function definitionsOf({ lesson }: Analysis): readonly Definition[] {
  const { shapes, grips, progressions, cells, contours, melodies, tabs, variants, sections } = lesson;
  const all: Definition[] = [
    ...shapes,
    ...grips,
    ...progressions,
    ...cells,
    ...contours,
    ...melodies,
    ...tabs,
    ...variants,
    ...sections,
  ];
  return all.sort((a, b) => a.span.start - b.span.start);
}

function nameAt(analysis: Analysis, offset: number): NameHere | undefined {
  const at = (one: { readonly span: Span }): boolean => covers(one.span, offset);
  const given = definitionsOf(analysis).find(at);
  if (given) return { kind: given.kind, name: given.name, span: given.span, definition: given };
  const uses = analysis.lesson.uses.filter(at);
  // `ending 1 back` may mean a progression, a melody or a tab: the one that exists is meant.
  const use: NameUse | undefined = uses.find((one) => one.definition) ?? uses[0];
  if (use) return { kind: use.kind, name: use.name, span: use.span, definition: use.definition };
  const called = analysis.lesson.imports.flatMap(({ names, brought }) =>
    names
      .filter(at)
      .flatMap(({ name, span }) => brought.filter((part) => part.name === name).map((part) => ({ part, span }))),
  )[0];
  return called && { kind: called.part.kind, name: called.part.name, span: called.span, definition: called.part };
}

function chordAt({ lesson }: Analysis, offset: number): Place['chord'] {
  const at = (one: { readonly span: Span }): boolean => covers(one.span, offset);
  const progression = lesson.progressions.find((one) => covers(one.whole, offset));
  const place = progression?.bars.find(at)?.chords.find(at);
  if (!place) return undefined;
  const played: ChordAddress[] = [];
  lesson.sections.forEach(({ places }, section) => {
    places.forEach((bar, barIndex) => {
      bar.chords.forEach((chord, chordIndex) => {
        if (chord.span.start === place.span.start) played.push({ section, bar: barIndex, chord: chordIndex });
      });
    });
  });
  return { span: place.span, symbolSpan: place.symbolSpan, played };
}

/** Statements and lines that set something; `no capo` is about the capo. */
const SETTINGS: ReadonlySet<string> = new Set([
  'tuning',
  'capo',
  'frets',
  'scale-length',
  'hand',
  'key',
  'meter',
  'tempo',
  'swing',
  'level',
]);

function settingAt({ lesson }: Analysis, form: StatementForm, line: Line, start: number): Place['setting'] {
  const head = line.form === 'head';
  const word = head ? form.keyword : line.form;
  const name = word === 'no' ? 'capo' : word;
  const holds = head || ['section', 'lesson', 'variant'].includes(form.keyword);
  if (!holds || !SETTINGS.has(name)) return undefined;
  const at = start + line.start;
  const section = form.keyword === 'section' ? lesson.sections.find((one) => covers(one.whole, at)) : undefined;
  return { name, span: shifted(line, start), ...(section && { section }) };
}
