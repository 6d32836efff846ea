/** What a hover says of a part that has a name: shape, grip, cell, contour, progression, section. */
import type { Analysis } from '../analyze.ts';
import type {
  Cell,
  CellDefinition,
  ContourDefinition,
  GripDefinition,
  Lesson,
  ProgressionDefinition,
  Section,
  ShapeDefinition,
  Tempo,
} from '../lesson/lesson.ts';
import { builtInShapes } from '../lesson/built-in-shapes.ts';
import type { ChordScore } from '../realise/score.ts';
import { difficultyWord, meterWords, tempoWords } from '../draw/facts.ts';
import { textDiagram } from '../draw/text-diagram.ts';
import { formatFretList } from '../fretboard/frets.ts';
import { barsNamed, chordsOf, type PlacedChord } from '../rules/shared/chords.ts';
import { counted, listed } from '../rules/shared/words.ts';
import { formatKey } from '../theory/key.ts';
import { compare, dividedBy, formatFraction, toNumber, type Fraction } from '../util/fraction.ts';
import { secondsOf } from './hover-settings.ts';
import { variantPage } from './hover-variant.ts';
import { code, figure, line, strong, table, type Block } from './page.ts';
import type { NameHere } from './place.ts';

/** A table longer than this is no help in a hover. */
const MOST_ROWS = 16;
const FINGERS = ['p', 'i', 'm', 'a', 'c'] as const;
const FINGER_WORDS = { p: 'thumb', i: 'index', m: 'middle', a: 'ring', c: 'little' } as const;

/** Undefined for what has no meaning yet or is not there. */
export function partPage(analysis: Analysis, { kind, name, definition }: NameHere): Block[] | undefined {
  switch (kind) {
    case 'shape': {
      const rule = (definition as ShapeDefinition | undefined)?.rule ?? builtInShapes.find((one) => one.name === name);
      return rule && shapeBlocks(analysis, name, definition === undefined, (chord) => ruleNameOf(chord) === rule);
    }
    case 'grip':
      return definition && gripBlocks(analysis, definition as GripDefinition);
    case 'cell':
      return definition && cellBlocks(analysis.lesson, definition as CellDefinition);
    case 'contour':
      return definition && contourBlocks(analysis, definition as ContourDefinition);
    case 'progression':
      return definition && progressionBlocks(analysis.lesson, definition as ProgressionDefinition);
    case 'section':
      return definition && sectionBlocks(analysis, definition as Section);
    case 'variant': {
      const variant = analysis.variants.find((one) => one.definition === definition);
      return variant && variantPage(analysis, variant);
    }
    default:
      return undefined;
  }
}

const ruleNameOf = ({ plan, section }: PlacedChord): unknown =>
  plan.rule === undefined ? undefined : section.plan.rules[plan.rule];

function shapeBlocks(
  analysis: Analysis,
  name: string,
  builtIn: boolean,
  uses: (chord: PlacedChord) => boolean,
): Block[] {
  const chords = chordsOf(analysis).filter(uses);
  const kind = builtIn ? ', a shape that needs no statement' : ', a shape';
  if (chords.length === 0) return [line(strong(name), `${kind}. No chord uses it.`)];
  const rows = grouped(chords, ({ played }) => `${played.chord?.symbol} ${fretsOf(played)}`).map((same) => {
    const { played } = same[0];
    return [played.chord?.symbol ?? played.written, choicesOf(played), fretsOf(played), whereOf(same)];
  });
  return [
    line(strong(name), `${kind}: ${counted(chords.length, 'chord')} in ${counted(rows.length, 'voicing')}.`),
    ...cutTable(['chord', 'to choose from', 'chosen', 'where'], rows),
  ];
}

const choicesOf = ({ choices, searchCut }: ChordScore): string =>
  choices === undefined ? '' : `${searchCut ? 'at least ' : ''}${choices}`;

const fretsOf = ({ voicing }: ChordScore): string => (voicing ? formatFretList(voicing.frets) : 'none');

function grouped(chords: readonly PlacedChord[], mark: (chord: PlacedChord) => string): readonly PlacedChord[][] {
  const groups = new Map<string, PlacedChord[]>();
  for (const chord of chords) {
    const group = groups.get(mark(chord));
    if (group) group.push(chord);
    else groups.set(mark(chord), [chord]);
  }
  return [...groups.values()];
}

/** `verse: bars 1 and 8`. */
function whereOf(chords: readonly PlacedChord[]): string {
  const bySection = new Map<Section, number[]>();
  for (const { section, bar } of chords) {
    const bars = bySection.get(section) ?? [];
    if (!bars.includes(bar.number)) bars.push(bar.number);
    bySection.set(section, bars);
  }
  return [...bySection].map(([section, bars]) => `${section.name}: ${barsNamed(bars)}`).join('; ');
}

function cutTable(head: readonly string[], rows: readonly (readonly string[])[]): Block[] {
  const shown = table(head, rows.slice(0, MOST_ROWS));
  return rows.length <= MOST_ROWS ? [shown] : [shown, line(`And ${rows.length - MOST_ROWS} more.`)];
}

function gripBlocks({ lesson }: Analysis, grip: GripDefinition): Block[] {
  const title = line(strong(grip.name), ', a grip: ', code(grip.frets ? formatFretList(grip.frets) : '?'), '.');
  return grip.frets ? [title, figure(textDiagram(grip.frets, grip.fingers, lesson.settings.instrument))] : [title];
}

interface CellUse {
  readonly where: string;
  readonly bar: Fraction;
  readonly tempo: Tempo;
}

function cellBlocks(lesson: Lesson, { cell, name, meter }: CellDefinition): Block[] {
  const using = lesson.sections.filter(({ plan }) => plan.cells.includes(cell));
  const uses: CellUse[] =
    using.length > 0
      ? using.map(({ name: where, plan }) => ({ where, bar: plan.meter.bar, tempo: plan.tempo }))
      : [{ where: 'at the lesson’s tempo', bar: (meter ?? lesson.settings.meter).bar, tempo: lesson.settings.tempo }];
  const page: Block[] = [
    line(strong(name), `, a cell of ${formatFraction(cell.length)} with ${counted(plucksOf(cell), 'pluck')}.`),
  ];
  if (cell.length.over === 0) return page;
  for (const use of uses) page.push(line(`${use.where}: ${inBarWords(cell, use.bar)}, ${tempoWords(use.tempo)}.`));
  const rows = FINGERS.flatMap((finger) => {
    const count = sum(cell, ({ plucks }) => plucks.filter((pluck) => pluck.finger === finger).length);
    const rates = uses.map(({ tempo }) => (count / secondsOf(cell.length, tempo)).toFixed(1));
    return count === 0 ? [] : [[`${finger} (${FINGER_WORDS[finger]})`, `${count}`, ...rates]];
  });
  const strokes = sum(cell, ({ stroke }) => (stroke ? 1 : 0));
  if (strokes > 0)
    rows.push([
      'strokes',
      `${strokes}`,
      ...uses.map(({ tempo }) => (strokes / secondsOf(cell.length, tempo)).toFixed(1)),
    ]);
  const heads = uses.length === 1 ? ['a second'] : uses.map(({ where }) => `a second in ${where}`);
  if (rows.length > 0) page.push(table(['finger', 'in the cell', ...heads], rows));
  return page;
}

const sum = (cell: Cell, count: (note: Cell['notes'][number]) => number): number =>
  cell.notes.reduce((all, note) => all + count(note), 0);

const plucksOf = (cell: Cell): number => sum(cell, ({ plucks, stroke }) => plucks.length + (stroke ? 1 : 0));

/** How much of the cell a bar holds: `6 plucks a bar`, or over how many bars the cell goes. */
function inBarWords(cell: Cell, bar: Fraction): string {
  const share = dividedBy(cell.length, bar);
  if (compare(cell.length, bar) <= 0) return `${Math.round(plucksOf(cell) / toNumber(share))} plucks a bar`;
  return `${counted(plucksOf(cell), 'pluck')} over ${formatFraction(share)} bars`;
}

function contourBlocks(analysis: Analysis, { contour, name }: ContourDefinition): Block[] {
  const on = typeof contour.voice === 'number' ? `string ${contour.voice}` : `the ${contour.voice} string`;
  const starts = listed(
    contour.starts.map((tone) => tone.text),
    'or',
  );
  const chords = chordsOf(analysis).filter(
    ({ section, bar, played }) =>
      bar.contour !== undefined && section.plan.contours[bar.contour] === contour && played.contour,
  );
  const title = line(strong(name), `, a contour on ${on} that starts on ${starts || 'no tone'}.`);
  if (chords.length === 0) return [title, line('No section plays it.')];
  const rows = grouped(chords, ({ played }) => `${played.written} ${pathOf(played)}`).map((same) => {
    const { played } = same[0];
    const outcome = played.contour!;
    const tone = outcome.start < 0 ? 'none' : (contour.starts[outcome.start]?.text ?? '');
    return [played.written, tone, outcome.start < 0 ? '' : `${outcome.string}`, pathOf(played), whereOf(same)];
  });
  return [title, ...cutTable(['chord', 'starts on', 'string', 'frets', 'where'], rows)];
}

const pathOf = ({ contour }: ChordScore): string =>
  !contour || contour.start < 0 ? 'out of reach' : contour.frets.join(' ') + (contour.cut > 0 ? ' (cut)' : '');

function progressionBlocks(lesson: Lesson, progression: ProgressionDefinition): Block[] {
  const using = lesson.sections.filter(({ places }) =>
    places.some((bar) => progression.bars.some((own) => own.span.start === bar.span.start)),
  );
  const chords = progression.bars.reduce((all, bar) => all + bar.chords.length, 0);
  const played = using.length === 0 ? 'No section plays it.' : `Played in ${listed(using.map(({ name }) => name))}.`;
  return [
    line(
      strong(progression.name),
      `, a progression of ${counted(progression.bars.length, 'bar')} and ${counted(chords, 'chord')}. ${played}`,
    ),
  ];
}

function sectionBlocks({ lesson, score }: Analysis, section: Section): Block[] {
  const { plan } = section;
  const index = lesson.sections.indexOf(section);
  const { difficulty } = score.sections[index] ?? { difficulty: 0 };
  const seconds = plan.bars.reduce((all, bar) => all + secondsOf(bar.length, plan.tempo), 0);
  const times = lesson.form.filter((one) => one === index).length;
  return [
    line(strong(section.name), ', a section', ...(section.title ? [': ', strong(section.title)] : []), '.'),
    line(
      `${counted(plan.bars.length, 'bar')} in ${formatKey(plan.key)}, ${meterWords(plan.meter)}, ${tempoWords(plan.tempo)}: ` +
        `${seconds.toFixed(0)} seconds, played ${times === 1 ? 'once' : `${times} times`}.`,
    ),
    ...(plan.bars.length > 0
      ? [line(`Its shapes are ${difficultyWord(difficulty)}: ${difficulty.toFixed(1)} of 10.`)]
      : []),
  ];
}
