/** The lines by which a section calls for its parts, and the bars that each is for. */
import { leaf, type Line } from '../syntax/tree.ts';
import type { PART_KINDS } from '../syntax/statements.ts';
import type { Definition, NamePlace } from './lesson.ts';
import type { Progression } from './progressions.ts';
import type { Scope, Source } from './reader.ts';
import type { WrittenDefinition } from './written.ts';

export type CalledKind = (typeof PART_KINDS)[number];

/** A line that calls for a part, and the bars it is for; `undefined` for what fills the rest. */
export interface Call {
  readonly definition: Definition | undefined;
  readonly use: NamePlace;
  readonly first?: number;
  /** Undefined where a part of several bars begins at `first`, and is played whole. */
  readonly last?: number;
  readonly line: Line;
}

/** Kinds that have bars of their own. */
const BARRED: readonly CalledKind[] = ['progression', 'melody', 'tab'];

export function readCalls(
  source: Source,
  scope: Scope,
  kind: CalledKind,
  builtIn: readonly string[] = [],
): readonly Call[] {
  const calls: Call[] = [];
  for (const line of source.lines(kind)) {
    const name = leaf(line, 'name');
    if (!name) continue;
    const use = { name: name.text, span: source.at(name) };
    const definition = scope.use(kind, name.text, use.span, false, builtIn);
    const first = leaf(line, 'first') ?? leaf(line, 'at-bar');
    const last = leaf(line, 'last') ?? first;
    const whole = BARRED.includes(kind) && leaf(line, 'at-bar') !== undefined;
    const call: Call = {
      definition,
      use,
      line,
      ...(first && { first: Number(first.text) }),
      ...(last && !whole && { last: Number(last.text) }),
    };
    if (!first && calls.some((one) => one.first === undefined)) {
      source.report('said-twice', source.at(line.keyword), { word: kind, statement: 'section' });
      continue;
    }
    calls.push(call);
  }
  return calls;
}

/** Says where a call names bars that the section of so many bars does not have; bar 0 is the pick-up, where there is one. */
export function checkRange(source: Source, call: Call, bars: number, lowest = 1): void {
  if (call.first === undefined || bars === 0) return;
  const last = call.last ?? call.first;
  if (call.first >= lowest && last <= bars && call.first <= last) return;
  const at = source.at({
    start: (leaf(call.line, 'first') ?? leaf(call.line, 'at-bar'))!.start,
    end: call.line.end,
  });
  source.report('bars-outside-section', at, { first: `${call.first}`, last: `${last}`, bars: `${bars}` });
}

/** Two parts of a kind in one bar: the first is played, and whoever wrote the second will not hear it. */
export function checkOverlaps(source: Source, calls: readonly Call[]): void {
  const ranges = calls.flatMap((call) => rangeOf(call) ?? []);
  ranges.forEach((range, i) => {
    const before = ranges.slice(0, i).find((one) => one.first <= range.last && range.first <= one.last);
    if (!before) return;
    const word = (leaf(range.call.line, 'first') ?? leaf(range.call.line, 'at-bar'))!;
    source.report('bars-called-twice', source.at({ start: word.start, end: range.call.line.end }), {
      name: before.call.use.name,
      first: `${Math.max(before.first, range.first)}`,
      last: `${Math.min(before.last, range.last)}`,
      // What is left of the range, where one piece of it is.
      from: `${range.first < before.first ? range.first : before.last + 1}`,
      to: `${range.first < before.first ? before.first - 1 : range.last}`,
      whole: range.first < before.first && range.last > before.last ? '' : 'yes',
    });
  });
}

/** The bars of a call that names some, a progression's own where it says only where it begins; undefined for the rest. */
function rangeOf(call: Call): { readonly call: Call; readonly first: number; readonly last: number } | undefined {
  const { first, definition } = call;
  if (first === undefined) return undefined;
  const own = definition ? barsOf(definition) : 1;
  return { call, first, last: call.last ?? first + own - 1 };
}

function barsOf(definition: Definition): number {
  if (definition.kind === 'progression') return (definition as Progression).written.length;
  if (definition.kind === 'melody' || definition.kind === 'tab') return (definition as WrittenDefinition).bars.length;
  return 1;
}

/** The part called for in a bar: by number, or the one that fills the rest. */
export const callFor = (calls: readonly Call[], bar: number): Call | undefined =>
  calls.find((call) => call.first !== undefined && call.first <= bar && bar <= (call.last ?? call.first)) ??
  calls.find((call) => call.first === undefined);

/** Undefined for what is broken, too. */
export const usable = (call: Call | undefined): Definition | undefined =>
  call?.definition?.broken ? undefined : call?.definition;
