/** Puts a section together from its parts: which bars there are, and what is played in each. */
import type { Key } from '../theory/key.ts';
import { compare, formatFraction, parseFraction, type Fraction } from '../util/fraction.ts';
import type { Span } from '../util/span.ts';
import { leaf, type Line } from '../syntax/tree.ts';
import { callFor, checkOverlaps, checkRange, readCalls, usable, type Call, type CalledKind } from './calls.ts';
import type { ChordBook } from './chord-book.ts';
import { BUILT_IN_NAMES, ChordPlanner, Indexed } from './chord-plans.ts';
import type {
  BarPlace,
  BarPlan,
  CellDefinition,
  Contour,
  ContourDefinition,
  Definition,
  GripDefinition,
  Meter,
  Section,
  Settings,
} from './lesson.ts';
import { checkLengths, fitted, layOut, MOST_TIMES, readEndings, type LaidBar } from './layout.ts';
import type { ChordBar } from './progressions.ts';
import type { Scope, Source } from './reader.ts';
import { meterOf, readKey, tempoOf } from './settings.ts';
import { setWords } from './words.ts';

/** `grips` are all of the lesson's; names are looked up, and uses noted, in `scope`. */
export function readSection(
  source: Source,
  settings: Settings,
  scope: Scope,
  grips: readonly GripDefinition[],
  book: ChordBook,
): Section | undefined {
  const name = leaf(source.tree.head, 'name');
  if (!name) return undefined;
  return new SectionReader(source, settings, scope, grips, book).read(source.definition('section', name));
}

class SectionReader {
  private readonly contours = new Indexed<Contour>();
  private readonly key: Key;
  private readonly meter: Meter;
  private readonly chords: ChordPlanner;

  constructor(
    private readonly source: Source,
    private readonly settings: Settings,
    private readonly scope: Scope,
    grips: readonly GripDefinition[],
    book: ChordBook,
  ) {
    const key = this.setting('key', (line) => readKey(line, (span) => source.at(span), source.report));
    this.key = key ?? settings.key;
    this.meter = this.setting('meter', (line) => meterOf(line, source)) ?? settings.meter;
    const ground = { settings, scope, grips, book, key: this.key, ownKey: key !== undefined, meter: this.meter };
    this.chords = new ChordPlanner(ground);
  }

  read(definition: Definition): Section {
    const { source, scope } = this;
    const ownMeter = this.meter !== this.settings.meter;
    const tempo = this.setting('tempo', (line) => tempoOf(line, source, this.meter));
    const pickup = this.readPickup();
    const times = this.setting('times', (line) => source.number(leaf(line, 'times'), 'the times', 1, MOST_TIMES));
    const calls = (kind: CalledKind): readonly Call[] => readCalls(source, scope, kind);
    const called = { progression: calls('progression'), melody: calls('melody'), tab: calls('tab') };
    const own = layOut(source, called, pickup ? 0 : 1);
    const count = own.at(-1)?.number ?? 0;
    const bars = [...own, ...readEndings(source, scope, times, count + 1)];
    checkLengths(source, bars, this.meter.bar, pickup);
    const shapes = readCalls(source, scope, 'shape', BUILT_IN_NAMES);
    const [cells, contours] = [calls('cell'), calls('contour')];
    const last = bars.at(-1)?.number ?? 0;
    for (const ones of [shapes, cells, contours]) {
      for (const call of ones) checkRange(source, call, last);
      checkOverlaps(source, ones);
    }
    const calledFor = source.tree.body.some((line) => ['progression', 'melody', 'tab'].includes(line.form));
    if (bars.length === 0 && !definition.broken && !calledFor) {
      source.report('empty-part', definition.span, { kind: 'section', name: definition.name });
    }
    const planned = bars
      // A pick-up that nothing fills is no bar.
      .filter((bar) => bar.number > 0 || bar.melody || bar.tab)
      .map((bar) => this.planBar(bar, definition, pickup?.length, shapes, cells, contours));
    const plans = setWords(
      source,
      planned.map(({ plan }) => plan),
      this.contours.items,
      this.chords.cells.items,
    );
    return {
      ...definition,
      kind: 'section',
      title: leaf(source.tree.head, 'title')?.text,
      plan: {
        key: this.key,
        meter: this.meter,
        tempo:
          tempo ??
          (ownMeter ? { perMinute: this.settings.tempo.perMinute, beat: this.meter.beat } : this.settings.tempo),
        rules: this.chords.rules.items,
        cells: this.chords.cells.items,
        contours: this.contours.items,
        bars: plans,
        times: times ?? 1,
      },
      places: planned.map(({ place }) => place),
      ruleUses: this.chords.rules.uses,
      cellUses: this.chords.cells.uses,
      contourUses: this.contours.uses,
    };
  }

  private setting<T>(form: string, reader: (line: Line) => T | undefined): T | undefined {
    const line = this.source.line(form);
    return line && reader(line);
  }

  /** A pick-up is shorter than a bar. */
  private readPickup(): { readonly length: Fraction; readonly span: Span } | undefined {
    const line = this.source.line('pickup');
    const word = leaf(line, 'length');
    if (!line || !word) return undefined;
    const length = parseFraction(word.text);
    if (!length) this.source.report('bad-length', this.source.at(word), { found: word.text });
    else if (compare(length, this.meter.bar) >= 0) {
      const bar = formatFraction(this.meter.bar);
      this.source.report('pickup-too-long', this.source.at(word), { found: word.text, bar });
    } else return { length, span: this.source.at(line) };
    return undefined;
  }

  private planBar(
    laid: LaidBar,
    definition: Definition,
    pickup: Fraction | undefined,
    shapes: readonly Call[],
    cells: readonly Call[],
    contours: readonly Call[],
  ): { readonly plan: BarPlan; readonly place: BarPlace } {
    const { number, ending } = laid;
    const length = number === 0 ? pickup! : this.meter.bar;
    const [shape, cell, contour] = [shapes, cells, contours].map((calls) =>
      number === 0 ? undefined : callFor(calls, number),
    );
    const { bar: written, source, key, bare } = this.chordsOf(laid, definition);
    const chords = this.chords.plan(written, { source, key, bare }, shape, length);
    const usedCell = usable(cell) as CellDefinition | undefined;
    const usedContour = usable(contour) as ContourDefinition | undefined;
    const melody = laid.melody && fitted(laid.melody, length);
    const tab = laid.tab && fitted(laid.tab, length);
    return {
      plan: {
        number,
        length,
        chords,
        broken: written.broken,
        ...(usedCell && { cell: this.chords.cells.indexOf(usedCell.cell, cell!.use) }),
        cellFrom: cell?.first ?? 1,
        ...(usedContour && { contour: this.contours.indexOf(usedContour.contour, contour!.use) }),
        ...(melody && { melody: melody.bar }),
        ...(tab && { tab: tab.bar }),
        ...(ending !== undefined && { ending }),
      },
      place: {
        span: written.span,
        chords: written.chords.map((chord) => chord.place),
        ...(melody && { melody: melody.place }),
        ...(tab && { tab: tab.place }),
      },
    };
  }

  /** The chords of a progression, or else those over the tab; a bar without any stands where its notes are written. */
  private chordsOf(
    { chords, tab, melody }: LaidBar,
    definition: Definition,
  ): { readonly bar: ChordBar; readonly source: Source; readonly key: Key; readonly bare: boolean } {
    if (chords) {
      const { bar, progression } = chords;
      return { bar, source: progression.source, key: progression.key ?? this.key, bare: false };
    }
    const at = tab ?? melody;
    const source = at?.written.source ?? this.source;
    const span = at?.written.places[at.index].span ?? definition.span;
    // A bar that nothing fills keeps its place, silent.
    const empty: ChordBar = { chords: [], counted: false, broken: false, span };
    const over = tab?.written.chordBars[tab.index];
    return { bar: over ? { ...over, span } : empty, source, key: this.key, bare: true };
  }
}
