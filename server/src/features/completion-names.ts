/** Names that fit at one place of a lesson: those of the right kind, by the line and the word before. */
import type { Analysis } from '../analyze.ts';
import { builtInShapes } from '../lesson/built-in-shapes.ts';
import type { Definition, PartKind } from '../lesson/lesson.ts';
import { counted } from '../rules/shared/words.ts';
import { PART_KINDS, type LineForm, type StatementForm } from '../syntax/statements.ts';
import { formatFraction } from '../util/fraction.ts';
import type { Offer, OfferContext } from './completion-offers.ts';
import { definitionsOf } from './place.ts';

const SHARED: readonly PartKind[] = [...PART_KINDS, 'grip'];

/** None where the author gives a new name. `label` is the slot's own in the table. */
export function nameOffers(label: string, context: OfferContext): readonly Offer[] {
  const { analysis, form, line, words } = context;
  if (form.keyword === 'use') return partOffers(context);
  const kinds = kindsFor(label, form, line, words[words.length - 1]?.text);
  const fitting = definitionsOf(analysis).filter(({ kind }) => kinds.includes(kind));
  const own = offersOf(form.keyword === 'variant' && line ? replacing(fitting, label, context) : fitting, analysis);
  if (!kinds.includes('shape')) return own;
  const builtIn = builtInShapes.filter(({ name }) => label !== 'instead' || isPlayed(analysis, 'shape', name));
  return [...own, ...builtIn.map(({ name }): Offer => ({ label: name, kind: 'name', detail: 'needs no statement' }))];
}

/** A variant puts a part that is not played yet in place of one that is. */
function replacing(
  parts: readonly Definition[],
  label: string,
  { analysis, words }: OfferContext,
): readonly Definition[] {
  const others = parts.filter(({ name }) => name !== words[1]?.text);
  const played = others.filter(({ kind, name }) => isPlayed(analysis, kind, name));
  const idle = others.filter((one) => !played.includes(one));
  if (label !== 'instead') return [...idle, ...played];
  return played.length > 0 ? played : idle;
}

const isPlayed = ({ lesson }: Analysis, kind: PartKind, name: string): boolean =>
  lesson.uses.some((use) => use.kind === kind && use.name === name);

/** The kinds of part that a slot may name. */
export function kindsFor(
  label: string,
  form: StatementForm,
  line: LineForm | undefined,
  previous: string | undefined,
): readonly PartKind[] {
  if (label === 'section') return ['section'];
  if (form.keyword === 'progression' && line) return [previous === 'with' ? 'cell' : 'shape'];
  if (line?.label === 'ending') return ['progression', 'tab'];
  return PART_KINDS.filter((kind) => kind === line?.label);
}

/** What the file that the line names has to give; the names that the line calls for already are left out. */
function partOffers({ analysis, words, offset }: OfferContext): readonly Offer[] {
  const { imports } = analysis.lesson;
  const { lines } = analysis;
  const row = lines.lineAt(offset);
  // A line that is not whole yet brings nothing; another line may have read the file.
  const path = /"([^"]*)"/.exec(lines.line(row))?.[1];
  const file = imports.find(({ span }) => lines.lineAt(span.start) === row) ?? imports.find((one) => one.path === path);
  const said = new Set(words.map(({ text }) => text));
  return offersOf(file?.parts.filter(({ kind, name }) => SHARED.includes(kind) && !said.has(name)) ?? [], analysis);
}

function offersOf(definitions: readonly Definition[], analysis: Analysis): readonly Offer[] {
  const seen = new Set<string>();
  return definitions
    .filter(({ name }) => !seen.has(name) && seen.add(name))
    .map((one): Offer => ({ label: one.name, kind: 'name', detail: detailOf(one, analysis) }));
}

function detailOf({ kind, name }: Definition, { lesson }: Analysis): string {
  switch (kind) {
    case 'progression': {
      const bars = lesson.progressions.find((one) => one.name === name)?.bars;
      return bars ? counted(bars.length, 'bar') : 'a progression';
    }
    case 'shape': {
      const rule = lesson.shapes.find((one) => one.name === name)?.rule;
      return rule && rule.strings.length > 0 ? `strings ${rule.strings.join(' ')}` : 'a shape';
    }
    case 'cell': {
      const length = lesson.cells.find((one) => one.name === name)?.cell.length;
      return length ? `a cell of ${formatFraction(length)}` : 'a cell';
    }
    case 'contour': {
      const voice = lesson.contours.find((one) => one.name === name)?.contour.voice;
      return typeof voice === 'number' ? `a contour on string ${voice}` : `a contour on ${voice ?? 'top'}`;
    }
    case 'section':
      return lesson.sections.find((one) => one.name === name)?.title ?? 'a section';
    default:
      return `a ${kind}`;
  }
}
