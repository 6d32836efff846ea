/** Lays the parts of a section out in bars: chords, melody and tab where its lines put them, then the endings. */
import { compare, equal, formatFraction, least, minus, plus, type Fraction } from '../util/fraction.ts';
import type { Span } from '../util/span.ts';
import { leaf } from '../syntax/tree.ts';
import { checkOverlaps, checkRange, type Call } from './calls.ts';
import { MOST_BARS, type ChordBar, type Progression } from './progressions.ts';
import type { Scope, Source } from './reader.ts';
import type { Written, WrittenBar, WrittenPlace } from './written.ts';

/** A bar of a melody or a tab. */
export interface WrittenAt {
  readonly written: Written;
  readonly index: number;
}

export interface LaidBar {
  readonly number: number;
  /** Undefined where no progression is. */
  readonly chords?: { readonly bar: ChordBar; readonly progression: Progression };
  readonly melody?: WrittenAt;
  readonly tab?: WrittenAt;
  readonly ending?: number;
}

/** As in `times`: more often nobody plays a section through. */
export const MOST_TIMES = 20;

/** What an ending may be made of, all of one name. */
export const ENDING_KINDS = ['progression', 'melody', 'tab'] as const;

/** Bars by their number, from 0 with a pick-up, else from 1; what nothing fills is among them. */
export function layOut(
  source: Source,
  calls: Readonly<Record<'progression' | 'melody' | 'tab', readonly Call[]>>,
  lowest: 0 | 1,
): readonly LaidBar[] {
  const progressions = layProgressions(source, calls.progression);
  const melodies = layWritten(source, calls.melody, lowest);
  const tabs = layWritten(source, calls.tab, lowest);
  const last = Math.max(progressions.length, ...melodies.keys(), ...tabs.keys());
  const bars = Array.from({ length: Math.max(0, last + 1 - lowest) }, (_, i): LaidBar => {
    const number = i + lowest;
    const chords = progressions[number - 1];
    const melody = melodies.get(number);
    const tab = tabs.get(number);
    return { number, ...(chords && { chords }), ...(melody && { melody }), ...(tab && { tab }) };
  });
  for (const call of [...calls.melody, ...calls.tab]) checkRange(source, call, last, lowest);
  for (const kind of ['melody', 'tab'] as const) sayBeyond(source, calls[kind], bars, progressions.length, kind);
  return bars;
}

/** Progressions with bars of their own stand where they say; one without fills the bars that are left. */
function layProgressions(source: Source, calls: readonly Call[]): readonly LaidBar['chords'][] {
  const bars: LaidBar['chords'][] = [];
  const progressionOf = (call: Call): Progression | undefined => call.definition as Progression | undefined;
  for (const call of calls) {
    const progression = progressionOf(call);
    if (call.first === undefined || !progression || progression.written.length === 0) continue;
    const count = call.last === undefined ? progression.written.length : call.last - call.first + 1;
    if (call.first < 1 || count < 1 || call.first + count - 1 > MOST_BARS) {
      checkRange(source, call, MOST_BARS);
      continue;
    }
    for (let i = 0; i < count; i++) {
      bars[call.first - 1 + i] ??= { bar: progression.written[i % progression.written.length], progression };
    }
  }
  checkOverlaps(source, calls);
  const rest = calls.find((call) => call.first === undefined);
  const filling = rest && progressionOf(rest);
  let at = 0;
  for (const bar of filling?.written ?? []) {
    while (bars[at]) at++;
    bars[at] = { bar, progression: filling! };
  }
  return bars.slice(0, MOST_BARS);
}

/** The same for melodies or tabs; what has no bars is played once, from the first bar that is left. */
function layWritten(source: Source, calls: readonly Call[], lowest: 0 | 1): ReadonlyMap<number, WrittenAt> {
  const bars = new Map<number, WrittenAt>();
  for (const call of calls) {
    const written = call.definition as Written | undefined;
    if (call.first === undefined || !written || written.bars.length === 0) continue;
    const count = call.last === undefined ? written.bars.length : call.last - call.first + 1;
    if (call.first < lowest || call.first + count - 1 > MOST_BARS) {
      checkRange(source, call, MOST_BARS, lowest);
      continue;
    }
    for (let i = 0; i < count; i++) {
      const number = call.first + i;
      if (!bars.has(number)) bars.set(number, { written, index: i % written.bars.length });
    }
  }
  checkOverlaps(source, calls);
  const filling = calls.find((call) => call.first === undefined)?.definition as Written | undefined;
  let at: number = lowest;
  for (let index = 0; index < (filling?.bars.length ?? 0); index++) {
    while (bars.has(at)) at++;
    if (at > MOST_BARS) break;
    bars.set(at, { written: filling!, index });
  }
  return bars;
}

/** A melody or tab that goes on after the last chord, and names none of its own, is more likely a bar too long. */
function sayBeyond(
  source: Source,
  calls: readonly Call[],
  bars: readonly LaidBar[],
  chorded: number,
  kind: 'melody' | 'tab',
): void {
  const call = calls.find((one) => one.first === undefined);
  const written = call?.definition as Written | undefined;
  if (!call || !written || chorded === 0 || written.chordBars.length > 0) return;
  const beyond = bars.filter((bar) => bar.number > chorded && bar[kind]?.written === written).length;
  if (beyond === 0) return;
  const endings = source.lines('ending').length > 0 ? 'yes' : '';
  const data = { name: call.use.name, kind, bars: `${chorded}`, beyond: `${beyond}`, endings };
  source.report('melody-outlasts-chords', call.use.span, data);
}

/** `ending 1 NAME`: the bars that follow, of the progression, melody and tab of that name together, in the order of the times. */
export function readEndings(source: Source, scope: Scope, times: number | undefined, from: number): readonly LaidBar[] {
  const endings = new Map<number, LaidBar[]>();
  for (const line of source.lines('ending')) {
    const [number, name] = [leaf(line, 'ending'), leaf(line, 'name')];
    if (!number || !name) continue;
    const ending = source.number(number, 'the ending', 1, MOST_TIMES);
    const progression = scope.find('progression', name.text) as Progression | undefined;
    const melody = scope.find('melody', name.text) as Written | undefined;
    const tab = scope.find('tab', name.text) as Written | undefined;
    const kinds = ENDING_KINDS.filter((kind) => scope.find(kind, name.text));
    for (const kind of kinds.length > 0 ? kinds : (['progression'] as const))
      scope.use(kind, name.text, source.at(name));
    if (ending === undefined) continue;
    if (endings.has(ending)) {
      source.report('ending-misplaced', source.at(line), { wrong: 'doubled', ending: `${ending}`, times: '' });
      continue;
    }
    if (ending > (times ?? 1) || times === undefined)
      source.report('ending-misplaced', source.at(line), {
        wrong: times === undefined ? 'once' : 'late',
        ending: `${ending}`,
        times: `${times ?? 1}`,
      });
    const count = Math.max(progression?.written.length ?? 0, melody?.bars.length ?? 0, tab?.bars.length ?? 0);
    const bars = Array.from({ length: count }, (_, i): LaidBar => {
      const bar = progression?.written[i];
      return {
        number: 0,
        ending,
        ...(bar && { chords: { bar, progression: progression! } }),
        ...(melody && i < melody.bars.length && { melody: { written: melody, index: i } }),
        ...(tab && i < tab.bars.length && { tab: { written: tab, index: i } }),
      };
    });
    endings.set(ending, bars);
  }
  const all = [...endings].sort(([a], [b]) => a - b).flatMap(([, bars]) => bars);
  return all.slice(0, MOST_BARS).map((bar, i) => ({ ...bar, number: from + i }));
}

/** A written bar as it is played in a bar of that length: cut where it is too long, silent where it is too short. */
export function fitted(
  { written, index }: WrittenAt,
  length: Fraction,
): { readonly bar: WrittenBar; readonly place: WrittenPlace } {
  const bar = written.bars[index];
  const place = written.places[index];
  const order = compare(bar.length, length);
  if (order === 0) return { bar, place };
  if (order < 0) {
    const rest = { start: bar.length, length: minus(length, bar.length) };
    return { bar: { ...bar, length, rests: [...bar.rests, rest] }, place };
  }
  const inside = ({ start }: { readonly start: Fraction }): boolean => compare(start, length) < 0;
  const cut = <T extends { readonly start: Fraction; readonly length: Fraction }>(one: T): T => ({
    ...one,
    length: least(one.length, minus(length, one.start)),
  });
  const kept = bar.notes.map((note, i) => ({ note, i })).filter(({ note }) => inside(note));
  return {
    bar: {
      ...bar,
      length,
      notes: kept.map(({ note }) => cut(note)),
      rests: bar.rests.filter(inside).map(cut),
      stops: bar.stops.filter(inside),
      held: bar.held.map((one) => ({ ...one, length: least(one.length, length) })),
    },
    place: { ...place, notes: kept.map(({ i }) => place.notes[i]) },
  };
}

/** Says where written bars do not have the length of the bars that they fill. */
export function checkLengths(
  source: Source,
  bars: readonly LaidBar[],
  meter: Fraction,
  pickup: { readonly length: Fraction; readonly span: Span } | undefined,
): void {
  bars.forEach((bar, i) => {
    const isLast = bars[i + 1]?.ending !== bar.ending || i === bars.length - 1;
    for (const at of [bar.melody, bar.tab]) {
      if (!at) continue;
      const { written, index } = at;
      const { length, broken } = written.bars[index];
      const isPickup = bar.number === 0;
      const needed = isPickup ? pickup!.length : meter;
      if (broken || equal(length, needed)) continue;
      // The last bar, of an ending too, may leave out what the pick-up has brought.
      if (pickup && isLast && equal(plus(length, pickup.length), meter)) continue;
      const first = bar.number === 1 && index === 0 && compare(length, meter) < 0 && !pickup;
      written.source.report('written-bar-misfit', written.places[index].span, {
        kind: written.kind,
        found: formatFraction(length),
        needed: formatFraction(needed),
        wrong: isPickup ? 'pickup' : first ? 'first' : '',
      });
    }
  });
  if (pickup && !bars.some((bar) => bar.number === 0 && (bar.melody || bar.tab)))
    source.report('pickup-empty', pickup.span, { pickup: formatFraction(pickup.length) });
}
