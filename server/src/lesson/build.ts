/** From the trees of a text to the lesson they mean: definitions first, then the sections that call for them. */
import type { LineMap } from '../util/line-map.ts';
import { dividedBy, toNumber } from '../util/fraction.ts';
import { shifted } from '../util/span.ts';
import type { SyntaxDocument } from '../syntax/document.ts';
import { leaf, leaves } from '../syntax/tree.ts';
import { ChordBook } from './chord-book.ts';
import { readCell, readContour } from './cells.ts';
import { readClaims } from './claims.ts';
import type { Definition, GripDefinition, Lesson, PartKind, Section, SectionPlan } from './lesson.ts';
import { readHead } from './head.ts';
import { readImports } from './imports.ts';
import { readCourse, readLibrary, readNeeds } from './library.ts';
import { Neighbours } from './neighbours.ts';
import { readMelody } from './melodies.ts';
import { readPractice } from './practice.ts';
import { readPassages } from './prose.ts';
import { modifier, readProgression, type Progression } from './progressions.ts';
import { BUILT_IN_NAMES } from './chord-plans.ts';
import { Problems, Scope, Source } from './reader.ts';
import { readSection } from './sections.ts';
import { readKey, readSettings, SETTINGS } from './settings.ts';
import { readVariants } from './variants.ts';
import { readGrip, readShape } from './shapes.ts';
import { readTab } from './tabs.ts';

const MOST_SECTIONS = 100;
/** Over all sections; a lesson of an evening has a tenth of it. */
const MOST_BARS_IN_LESSON = 2000;
/** Plucks and melody notes of all sections, as they are written; two hundred bars of sixteenths with a melody are a seventh of it. */
const MOST_NOTES_IN_LESSON = 30_000;
const MOST_PLAYED = 500;

/** A text that has no place among files. */
const ALONE = new Neighbours(undefined, new Map(), new Map());

/** Never fails: what could not be read is in `problems`, and the rest of the lesson stands. */
export function buildLesson(
  document: SyntaxDocument,
  lines: LineMap,
  book = new ChordBook(),
  neighbours = ALONE,
): Lesson {
  const problems = new Problems();
  for (const { kind, span, data } of document.problems) problems.report(kind, span, data);
  for (const { tree, start } of document.statements) {
    for (const { kind, span, data } of tree.problems) problems.report(kind, shifted(span, start), data);
  }
  const sources = document.statements.map((placed) => new Source(placed, problems.report));
  const named = (keyword: string): readonly Source[] => sources.filter((source) => source.tree.keyword === keyword);

  const { title, minutes, focus, level, spans: headSpans } = readHead(named('lesson'));
  const { settings, spans } = readSettings(
    sources.filter((source) => SETTINGS.includes(source.tree.keyword ?? '')),
    level,
  );
  const { instrument } = settings;
  const scope = new Scope(problems.report);
  const define = <T extends Definition>(keyword: PartKind, reader: (source: Source) => T | undefined): readonly T[] =>
    named(keyword).flatMap((source) => {
      const definition = reader(source);
      if (definition) scope.add(definition);
      else scope.awaitBroken(source.tree);
      return definition ?? [];
    });
  const shapes = define('shape', (source) => readShape(source, instrument));
  const grips = define('grip', (source) => readGrip(source, instrument));
  const progressions = define('progression', (source): Progression | undefined =>
    readProgression(source, settings.key, book),
  );
  const cells = define('cell', (source) => readCell(source, instrument));
  const contours = define('contour', (source) => readContour(source, instrument));
  const melodies = define('melody', (source) => readMelody(source, instrument));
  const tabs = define('tab', (source) => readTab(source, settings, book));
  const imports = readImports(named('use'), scope, settings, neighbours, book);
  const broughtGrips = imports.flatMap(({ brought }) =>
    brought.filter((part): part is GripDefinition => part.kind === 'grip'),
  );
  const sections = readSections(named('section'), settings, scope, [...grips, ...broughtGrips], problems, book);
  lookUpUncalled(progressions, scope);
  return {
    title,
    minutes,
    focus,
    settings,
    settingSpans: { ...spans, ...headSpans },
    shapes,
    grips,
    progressions,
    cells,
    contours,
    melodies,
    tabs,
    variants: readVariants(named('variant'), scope, isKeyRead(sources)),
    sections,
    form: readForm(named('form'), sections, scope),
    claims: readClaims(named('claim'), scope, sections, settings),
    passages: readPassages(
      sources.filter(({ tree }) => ['text', 'note', 'show'].includes(tree.keyword ?? '')),
      scope,
      sections,
    ),
    practice: readPractice(named('practice'), scope, sections),
    imports,
    needs: readNeeds(named('lesson')[0], neighbours),
    course: readCourse(named('course'), neighbours),
    library: readLibrary(named('library'), neighbours),
    // When all the others have looked up what they use.
    uses: scope.uses,
    problems: problems.all,
    allowed: readAllowed(document, lines),
  };
}

/** Whether the lesson's key, as far as it names one, could be read: what is to be moved to another must be known to stand in one. */
function isKeyRead(sources: readonly Source[]): boolean {
  const source = sources.find(({ tree }) => tree.keyword === 'key');
  const read = (): unknown =>
    source &&
    readKey(
      source.tree.head,
      (span) => source.at(span),
      () => {},
    );
  return !source || (!source.tree.head.broken && read() !== undefined);
}

/** In a file of parts no section looks up what its progressions call for. */
function lookUpUncalled(progressions: readonly Progression[], scope: Scope): void {
  const called = new Set(scope.uses.map(({ definition }) => definition));
  for (const progression of progressions) {
    if (called.has(progression)) continue;
    const { source } = progression;
    for (const chord of progression.written.flatMap(({ chords }) => chords)) {
      const shape = leaf(modifier(chord, 'as'), 'name');
      const cell = leaf(modifier(chord, 'with'), 'name');
      if (shape) scope.use('shape', shape.text, source.at(shape), false, BUILT_IN_NAMES);
      if (cell) scope.use('cell', cell.text, source.at(cell));
    }
  }
}

function readSections(
  sources: readonly Source[],
  settings: Lesson['settings'],
  scope: Scope,
  grips: readonly GripDefinition[],
  problems: Problems,
  book: ChordBook,
): readonly Section[] {
  const sections: Section[] = [];
  let bars = 0;
  let notes = 0;
  for (const source of sources) {
    const section = readSection(source, settings, scope, grips, book);
    if (!section) continue;
    bars += section.plan.bars.length;
    notes += notesIn(section.plan);
    const [what, limit] =
      sections.length >= MOST_SECTIONS
        ? ['sections', MOST_SECTIONS]
        : bars > MOST_BARS_IN_LESSON
          ? ['bars', MOST_BARS_IN_LESSON]
          : notes > MOST_NOTES_IN_LESSON
            ? ['notes', MOST_NOTES_IN_LESSON]
            : [];
    if (what) {
      problems.report('too-much', section.span, { what, limit: `${limit}` });
      break;
    }
    scope.add(section);
    sections.push(section);
  }
  return sections;
}

/** About how many notes the section's cells and contours make: those that fit a bar, once for each bar. */
function notesIn({ bars, cells, contours }: SectionPlan): number {
  let notes = 0;
  for (const bar of bars) {
    for (const index of new Set([bar.cell, ...bar.chords.map((chord) => chord.cell)])) {
      const cell = index === undefined ? undefined : cells[index];
      if (cell && cell.length.over > 0) notes += cell.notes.length * toNumber(dividedBy(bar.length, cell.length));
    }
    notes += (bar.melody?.notes.length ?? 0) + (bar.tab?.notes.length ?? 0);
    if (bar.contour !== undefined) notes += contours[bar.contour].notes.length * bar.chords.length;
  }
  return notes;
}

/** The order written, or without a `form` the order of the sections. */
function readForm(sources: readonly Source[], sections: readonly Section[], scope: Scope): readonly number[] {
  const [source, ...doubles] = sources;
  for (const double of doubles)
    double.report('said-twice', double.at(double.tree.head.keyword), { word: 'form', statement: 'lesson' });
  const names = leaves(source?.tree.head, 'section');
  if (names.length === 0) return sections.map((_, i) => i);
  return names.slice(0, MOST_PLAYED).flatMap((name) => {
    const definition = scope.use('section', name.text, source.at(name));
    const index = sections.findIndex((section) => section === definition);
    return index >= 0 ? [index] : [];
  });
}

/** `; allow CODE` speaks of its own line, or, where it stands alone, of the next. */
function readAllowed(document: SyntaxDocument, lines: LineMap): Lesson['allowed'] {
  return document.statements.flatMap(({ tree, start }) =>
    tree.comments.flatMap((comment) => {
      const match = /^;\s*allow\s+(.+)$/.exec(comment.text);
      if (!match) return [];
      const span = shifted(comment, start);
      const line = lines.lineAt(span.start) + (comment.alone ? 1 : 0);
      return match[1]
        .split(/[\s,]+/)
        .filter(Boolean)
        .map((code) => ({ code, line, span }));
    }),
  );
}
