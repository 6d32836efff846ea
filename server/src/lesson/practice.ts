/** The plan of practice: steps at a tempo for some minutes, or climbing from tempo to tempo. */
import type { Span } from '../util/span.ts';
import { group, leaf, type Group, type Line } from '../syntax/tree.ts';
import type { Section } from './lesson.ts';
import type { Scope, Source } from './reader.ts';
import { FASTEST, SLOWEST } from './settings.ts';

/** A ladder of more rungs is practised by nobody. */
export const MOST_TEMPI = 100;
const MOST_STEPS = 100;
const MOST_MINUTES = 600;

export interface PracticeStep {
  readonly title: string;
  /** Tempi in beats a minute in the order played; one for `at 60`, more for a ladder (`from 60 to 84 by 6`). At most 100. */
  readonly tempi: readonly number[];
  /** As written; undefined where the step does not say: how long a ladder takes is the student's affair. */
  readonly minutes?: number;
  /** Index in the lesson's sections; undefined: the whole lesson. */
  readonly section?: number;
  /** Bars of the section as they are counted in it; both or neither, and never without a section. */
  readonly first?: number;
  readonly last?: number;
  readonly span: Span;
  /** From the first tempo to the last word about it. */
  readonly tempoSpan: Span;
}

/** The steps of all `practice` statements, in order, at most a hundred. A step that has no tempo that can be read is left out. */
export function readPractice(
  sources: readonly Source[],
  scope: Scope,
  sections: readonly Section[],
): readonly PracticeStep[] {
  const steps: PracticeStep[] = [];
  for (const source of sources) {
    for (const line of source.lines('step')) {
      const step = readStep(source, line, scope, sections);
      if (!step) continue;
      if (steps.length >= MOST_STEPS) {
        source.report('too-much', step.span, { what: 'steps of practice', limit: `${MOST_STEPS}` });
        return steps;
      }
      steps.push(step);
    }
  }
  return steps;
}

function readStep(source: Source, line: Line, scope: Scope, sections: readonly Section[]): PracticeStep | undefined {
  // Looked up even where the rest cannot be read, so that a section used here is known to be used.
  const name = leaf(line, 'section');
  const definition = name && scope.use('section', name.text, source.at(name));
  const title = leaf(line, 'title');
  const ladder = group(line, 'ladder');
  const single = leaf(line, 'tempo');
  const tempo = source.number(single, 'the tempo', SLOWEST, FASTEST);
  const tempi = ladder ? rungsOf(source, ladder) : tempo === undefined ? [] : [tempo];
  if (!title || tempi.length === 0) return undefined;
  const named = sections.findIndex((section) => section === definition);
  // Where there is one section, its name may be left out.
  const first = leaf(line, 'first');
  const meant = !name && first && sections.length === 1 ? 0 : named;
  if (!name && first && sections.length > 1) {
    const data = { names: sections.map((section) => section.name).join(' ') };
    source.report(
      'bars-without-section',
      source.at({ start: first.start, end: (leaf(line, 'last') ?? first).end }),
      data,
    );
  }
  return {
    title: title.text,
    tempi,
    minutes: source.number(leaf(line, 'minutes'), 'the minutes', 1, MOST_MINUTES),
    ...(meant >= 0 && { section: meant, ...barsOf(source, line, sections[meant]) }),
    span: source.at(line),
    tempoSpan: source.at(ladder ?? single!),
  };
}

/** From the first tempo by even steps, and at last the one that is named last, even where the steps do not meet it. */
function rungsOf(source: Source, ladder: Group): readonly number[] {
  const from = source.number(leaf(ladder, 'tempo'), 'the tempo', SLOWEST, FASTEST);
  const to = source.number(leaf(ladder, 'to'), 'the tempo', SLOWEST, FASTEST);
  const by = source.number(leaf(ladder, 'by'), 'the step between two tempi', 1, FASTEST);
  if (from === undefined || to === undefined || by === undefined) return [];
  if (to <= from) {
    const written = leaf(ladder, 'by')!.text;
    source.report('ladder-never-climbs', source.at(ladder), { from: `${from}`, to: `${to}`, by: written });
    return [from];
  }
  const tempi: number[] = [];
  for (let tempo = from; tempo < to; tempo += by) tempi.push(tempo);
  if (tempi.length >= MOST_TEMPI) {
    const data = { what: `tempi in one ladder`, limit: `${MOST_TEMPI}` };
    source.report('too-much', source.at(ladder), data);
    tempi.length = MOST_TEMPI - 1;
  }
  return [...tempi, to];
}

function barsOf(source: Source, line: Line, section: Section): { first?: number; last?: number } {
  const from = leaf(line, 'first');
  if (!from) return {};
  const to = leaf(line, 'last') ?? from;
  const [first, last] = [Number(from.text), Number(to.text)];
  const { bars } = section.plan;
  const has = (number: number): boolean => bars.some((bar) => bar.number === number);
  if (first <= last && has(first) && has(last)) return { first, last };
  // A section without bars has its own finding.
  if (bars.length > 0) {
    const data = { first: `${first}`, last: `${last}`, bars: `${bars.filter((bar) => bar.number > 0).length}` };
    source.report('bars-outside-section', source.at({ start: from.start, end: to.end }), data);
  }
  return {};
}
