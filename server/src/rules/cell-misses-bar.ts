/** A cell that does not fill the bars it is played in. */
import type { BarPlan, CellDefinition, Meter, Section } from '../lesson/lesson.ts';
import { compare, dividedBy, equal, formatFraction, minus, type Fraction } from '../util/fraction.ts';
import type { Context, Found, Rule } from './rule.ts';
import { quoted } from './shared/words.ts';

export const rule: Rule = {
  code: 'cell-misses-bar',
  severity: 'warning',
  topic: 'playing',
  title: 'A cell that does not fill the bar',
  why: 'A cell is repeated, and unless its length goes into the bar or the bar into its length it begins at another beat each time, which is seldom meant. Where bar lines cut the cell, each of its bars must have the length of the bar that it is played in.',
  bad: `tempo 60
meter 3/4

progression quay
  G | C

cell ripple
  each 1/8
  p(bass) i3 m2 i3 m2

section verse
  progression quay
  cell ripple
`,
  good: `tempo 60
meter 3/4

progression quay
  G | C

cell ripple
  each 1/8
  p(bass) i3 m2 i3 m2 i3

section verse
  progression quay
  cell ripple
`,
  *check(context) {
    for (const cell of context.lesson.cells) {
      if (cell.broken || cell.unread) continue;
      const own = cell.meter && unevenBar(cell, cell.meter.bar);
      if (cell.meter && own) yield finding(cell, own, cell.meter);
      else yield* findingsInSections(cell, context);
    }
  },
};

/** One finding for each length of bar that the cell misses, however many sections play it. */
function* findingsInSections(cell: CellDefinition, { lesson, score }: Context): Iterable<Found> {
  const missed = new Map<string, { readonly meter: Meter; readonly length: Fraction; readonly sections: Section[] }>();
  lesson.sections.forEach((section, s) => {
    const index = section.plan.cells.indexOf(cell.cell);
    if (index < 0) return;
    const { meter } = section.plan;
    const misfit = section.plan.bars.some(
      (one, b) => score.sections[s]?.bars[b]?.cellMisfit && isPlayedAmiss(one, index, cell.cell.length),
    );
    const length = misfit ? cell.cell.length : unevenBar(cell, meter.bar);
    if (!length) return;
    const mark = named(meter);
    const group = missed.get(mark) ?? { meter, length, sections: [] };
    group.sections.push(section);
    missed.set(mark, group);
  });
  for (const { meter, length, sections } of missed.values()) {
    const related = sections.flatMap((section) => {
      const use = section.cellUses[section.plan.cells.indexOf(cell.cell)];
      return use ? [{ span: use.span, message: `It is played here, in bars of ${named(meter)}.` }] : [];
    });
    yield { ...finding(cell, length, meter), related };
  }
}

/** Whether the bar plays this cell, as its own or over one of its chords, and the cell is the one that does not fit. */
function isPlayedAmiss({ cell, chords, length }: BarPlan, index: number, cellLength: Fraction): boolean {
  if (fits(cellLength, length)) return false;
  if (cell === index && chords.some((chord) => chord.cell === undefined)) return true;
  return chords.some((chord) => chord.cell === index && !fits(cellLength, chord.length));
}

/** Whether one goes into the other a whole number of times. */
function fits(one: Fraction, other: Fraction): boolean {
  return one.over !== 0 && (dividedBy(one, other).under === 1 || dividedBy(other, one).under === 1);
}

/** The first bar of a cell of several that has another length; undefined where there is none. */
function unevenBar({ barLengths }: CellDefinition, bar: Fraction): Fraction | undefined {
  return barLengths.length > 1 ? barLengths.find((length) => !equal(length, bar)) : undefined;
}

/** As musicians call it: a bar of 6/8 is as long as one of 3/4, and another thing. */
const named = ({ beats, unit }: Meter): string => `${beats}/${unit}`;

function finding(cell: CellDefinition, length: Fraction, meter: Meter): Found {
  const { bar } = meter;
  const short = compare(length, bar) < 0;
  const mend = short
    ? `add ${formatFraction(minus(bar, length))}`
    : `take out ${formatFraction(minus(length, bar))}, or draw a bar line`;
  const what = cell.barLengths.length > 1 ? 'has a bar of' : 'lasts';
  return {
    span: cell.span,
    message: `${quoted(cell.name)} ${what} ${formatFraction(length)} and does not fit bars of ${named(meter)}; ${mend}.`,
  };
}
