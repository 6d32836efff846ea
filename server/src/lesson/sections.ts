/** Puts a section together from its parts: which bars there are, and what is played in each. */
import { chordWithBass, toneOf, type Chord } from '../theory/chord.ts';
import type { Key } from '../theory/key.ts';
import { parseNoteName, type NoteName } from '../theory/note.ts';
import { stringCount } from '../fretboard/instrument.ts';
import { dividedBy, fraction, plus, times, toNumber, ZERO, type Fraction } from '../util/fraction.ts';
import { leaf, type Line } from '../syntax/tree.ts';
import { builtInShapes } from './built-in-shapes.ts';
import type { ChordBook } from './chord-book.ts';
import type {
  BarPlace,
  BarPlan,
  Cell,
  CellDefinition,
  ChordPlan,
  Contour,
  ContourDefinition,
  Definition,
  GripDefinition,
  Meter,
  NamePlace,
  Section,
  Settings,
  ShapeDefinition,
  ShapeRule,
} from './lesson.ts';
import { modifier, MOST_BARS, says, type Progression, type ChordBar, type WrittenChord } from './progressions.ts';
import type { Scope, Source } from './reader.ts';
import { meterOf, readKey, tempoOf } from './settings.ts';
import { readFrets } from './shapes.ts';
import { toneFrom } from './tones.ts';

const BUILT_IN_NAMES = builtInShapes.map((rule) => rule.name);
/** The rule for chords without shape and grip. */
const USUAL_SHAPE = 'open-chords';

/** A line that calls for a part, and the bars it is for; `undefined` for what fills the rest. */
interface Call {
  readonly definition: Definition | undefined;
  readonly use: NamePlace;
  readonly first?: number;
  readonly last?: number;
  readonly line: Line;
}

/** A list without doubles, by identity, whose indexes a plan speaks in. */
class Indexed<T> {
  readonly items: T[] = [];
  readonly uses: NamePlace[] = [];

  indexOf(item: T, use: NamePlace): number {
    const known = this.items.indexOf(item);
    if (known >= 0) return known;
    this.uses.push(use);
    return this.items.push(item) - 1;
  }
}

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
  private readonly rules = new Indexed<ShapeRule>();
  private readonly cells = new Indexed<Cell>();
  private readonly contours = new Indexed<Contour>();
  private readonly key: Key;
  private readonly meter: Meter;
  private readonly ownKey: boolean;

  constructor(
    private readonly source: Source,
    private readonly settings: Settings,
    private readonly scope: Scope,
    private readonly grips: readonly GripDefinition[],
    private readonly book: ChordBook,
  ) {
    const key = this.setting('key', (line) => readKey(line, (span) => source.at(span), source.report));
    this.ownKey = key !== undefined;
    this.key = key ?? settings.key;
    this.meter = this.setting('meter', (line) => meterOf(line, source)) ?? settings.meter;
  }

  read(definition: Definition): Section {
    const { source } = this;
    const ownMeter = this.meter !== this.settings.meter;
    const tempo = this.setting('tempo', (line) => tempoOf(line, source, this.meter));
    const bars = this.layOut(this.calls('progression'));
    const shapes = this.calls('shape', BUILT_IN_NAMES);
    const cells = this.calls('cell');
    const contours = this.calls('contour');
    for (const calls of [shapes, cells, contours]) {
      for (const call of calls) this.checkRange(call, bars.length);
      this.checkOverlaps(calls);
    }
    const later = ['melody', 'tab'].some((kind) => this.calls(kind as 'melody' | 'tab').length > 0);
    const calledFor = source.tree.body.some((line) => line.form === 'progression');
    if (bars.length === 0 && !later && !definition.broken && !calledFor) {
      source.report('empty-part', definition.span, { kind: 'section', name: definition.name });
    }
    const plans = bars.map((bar, i) => this.planBar(bar, i + 1, shapes, cells, contours));
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
        rules: this.rules.items,
        cells: this.cells.items,
        contours: this.contours.items,
        bars: plans,
        times: 1,
      },
      places: bars.map((bar): BarPlace => ({
        span: bar.written.span,
        chords: bar.written.chords.map((chord) => chord.place),
      })),
      ruleUses: this.rules.uses,
      cellUses: this.cells.uses,
      contourUses: this.contours.uses,
    };
  }

  private setting<T>(form: string, reader: (line: Line) => T | undefined): T | undefined {
    const line = this.source.line(form);
    return line && reader(line);
  }

  private calls(
    kind: 'progression' | 'shape' | 'cell' | 'contour' | 'melody' | 'tab',
    builtIn: readonly string[] = [],
  ): readonly Call[] {
    const calls: Call[] = [];
    for (const line of this.source.lines(kind)) {
      const name = leaf(line, 'name');
      if (!name) continue;
      const use = { name: name.text, span: this.source.at(name) };
      const definition = this.scope.use(kind, name.text, use.span, false, builtIn);
      const first = leaf(line, 'first') ?? leaf(line, 'at-bar');
      const last = leaf(line, 'last') ?? first;
      const whole = kind === 'progression' && leaf(line, 'at-bar') !== undefined;
      const call: Call = {
        definition,
        use,
        line,
        ...(first && { first: Number(first.text) }),
        ...(last && !whole && { last: Number(last.text) }),
      };
      if (!first && calls.some((one) => one.first === undefined)) {
        this.source.report('said-twice', this.source.at(line.keyword), { word: kind, statement: 'section' });
        continue;
      }
      calls.push(call);
    }
    return calls;
  }

  private checkRange(call: Call, bars: number): void {
    if (call.first === undefined || bars === 0) return;
    const last = call.last ?? call.first;
    if (call.first >= 1 && last <= bars && call.first <= last) return;
    const at = this.source.at({
      start: (leaf(call.line, 'first') ?? leaf(call.line, 'at-bar'))!.start,
      end: call.line.end,
    });
    this.source.report('bars-outside-section', at, { first: `${call.first}`, last: `${last}`, bars: `${bars}` });
  }

  /** Two parts of a kind in one bar: the first is played, and whoever wrote the second will not hear it. */
  private checkOverlaps(calls: readonly Call[]): void {
    const ranges = calls.flatMap((call) => rangeOf(call) ?? []);
    ranges.forEach((range, i) => {
      const before = ranges.slice(0, i).find((one) => one.first <= range.last && range.first <= one.last);
      if (!before) return;
      const word = (leaf(range.call.line, 'first') ?? leaf(range.call.line, 'at-bar'))!;
      this.source.report('bars-called-twice', this.source.at({ start: word.start, end: range.call.line.end }), {
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

  /** Progressions with bars of their own stand where they say; one without fills the bars that are left. */
  private layOut(calls: readonly Call[]): readonly { written: ChordBar; progression: Progression }[] {
    const bars: ({ written: ChordBar; progression: Progression } | undefined)[] = [];
    const progressionOf = (call: Call): Progression | undefined => call.definition as Progression | undefined;
    for (const call of calls) {
      const progression = progressionOf(call);
      if (call.first === undefined || !progression || progression.written.length === 0) continue;
      const count = call.last === undefined ? progression.written.length : call.last - call.first + 1;
      if (call.first < 1 || count < 1 || call.first + count - 1 > MOST_BARS) {
        this.checkRange(call, MOST_BARS);
        continue;
      }
      for (let i = 0; i < count; i++) {
        bars[call.first - 1 + i] ??= { written: progression.written[i % progression.written.length], progression };
      }
    }
    this.checkOverlaps(calls);
    const rest = calls.find((call) => call.first === undefined);
    const filling = rest && progressionOf(rest);
    let at = 0;
    for (const written of filling?.written ?? []) {
      while (bars[at]) at++;
      bars[at] = { written, progression: filling! };
    }
    const some = bars.find((bar) => bar);
    // A bar that nothing fills keeps its place, silent.
    const { span } = this.source.definition('section', leaf(this.source.tree.head, 'name')!);
    const empty: ChordBar = { chords: [], counted: false, broken: false, span };
    return Array.from(
      { length: Math.min(bars.length, MOST_BARS) },
      (_, i) => bars[i] ?? { written: empty, progression: some!.progression },
    );
  }

  private planBar(
    { written, progression }: { written: ChordBar; progression: Progression },
    number: number,
    shapes: readonly Call[],
    cells: readonly Call[],
    contours: readonly Call[],
  ): BarPlan {
    const shape = callFor(shapes, number);
    const cell = callFor(cells, number);
    const contour = callFor(contours, number);
    const numeralKey = progression.key ?? this.key;
    const lengths = this.lengthsOf(written, progression);
    let start = ZERO;
    const chords = written.chords.map((chord, i): ChordPlan => {
      const planned = this.planChord(chord, numeralKey, shape, progression.source, start, lengths[i]);
      start = plus(start, lengths[i]);
      return planned;
    });
    const usedCell = usable(cell) as CellDefinition | undefined;
    const usedContour = usable(contour) as ContourDefinition | undefined;
    return {
      number,
      length: this.meter.bar,
      chords,
      broken: written.broken,
      ...(usedCell && { cell: this.cells.indexOf(usedCell.cell, cell!.use) }),
      cellFrom: cell?.first ?? 1,
      ...(usedContour && { contour: this.contours.indexOf(usedContour.contour, contour!.use) }),
    };
  }

  /** Even shares, or beats counted by strokes; where these do not fill the bar, shares in proportion and a problem. */
  private lengthsOf(written: ChordBar, progression: Progression): readonly Fraction[] {
    const { bar, beat } = this.meter;
    const count = written.chords.length;
    if (!written.counted) return written.chords.map(() => times(bar, fraction(1, count)));
    const beats = written.chords.reduce((sum, chord) => sum + chord.beats, 0);
    const needed = toNumber(dividedBy(bar, beat));
    if (beats !== needed && !written.broken) {
      progression.source.report('bar-not-full', written.span, { beats: `${beats}`, needed: `${needed}` });
    }
    return written.chords.map((chord) => times(bar, fraction(chord.beats, beats)));
  }

  private planChord(
    written: WrittenChord,
    numeralKey: Key,
    shape: Call | undefined,
    source: Source,
    start: Fraction,
    length: Fraction,
  ): ChordPlan {
    const { instrument } = this.settings;
    const chord = written.silent ? undefined : this.chordOf(written, numeralKey, source);
    const inside = modifier(written, 'in');
    const melodyKey =
      (inside && readKey(inside, (span) => source.at(span), source.report)) ?? (this.ownKey ? this.key : numeralKey);
    const at = leaf(modifier(written, 'at'), 'fret');
    const pinned = leaf(modifier(written, 'as'), 'frets');
    const named = leaf(modifier(written, 'as'), 'name');
    const own = leaf(modifier(written, 'with'), 'name');
    const home = source.from?.scope ?? this.scope;
    const cell = own && (home.use('cell', own.text, source.at(own)) as CellDefinition | undefined);
    const frets = pinned && readFrets(source, pinned, stringCount(instrument), instrument);
    const grip =
      !shape && !named && !pinned && chord ? this.grips.find((one) => one.chord?.symbol === chord.symbol) : undefined;
    if (grip) this.scope.use('grip', grip.name, written.place.symbolSpan, true);
    const ruled = chord && !pinned && !grip?.frets;
    const rule = ruled ? this.ruleFor(shape, named && { name: named.text, span: source.at(named) }, home) : undefined;
    return {
      written: written.symbol,
      chord,
      silent: written.silent,
      start,
      length,
      ...(rule !== undefined && { rule }),
      lowestFret: source.number(at, 'the fret', 0, instrument.frets),
      frets: frets ?? grip?.frets,
      ...(grip && !frets && { fingers: grip.fingers, bassStrings: grip.bassStrings }),
      scale: chord ? this.book.scaleOver(melodyKey, chord) : melodyKey.scale,
      ...(cell && !cell.broken && { cell: this.cells.indexOf(cell.cell, { name: cell.name, span: source.at(own) }) }),
      held: says(written, 'held'),
      pushed: says(written, 'pushed'),
    };
  }

  private chordOf(written: WrittenChord, key: Key, source: Source): Chord | undefined {
    const chord = this.book.chord(written.symbol, key);
    const over = leaf(modifier(written, 'over'), 'bass');
    if (!chord || !over) return chord;
    const bass = this.bassOf(over.text, chord, key);
    if (!bass) source.report('unknown-tone', source.at(over), { found: over.text });
    return bass ? chordWithBass(chord, bass) : chord;
  }

  /** `over D` is a note, `over 3` a tone of the chord. */
  private bassOf(text: string, chord: Chord, key: Key): NoteName | undefined {
    const note = parseNoteName(text);
    if (note) return note;
    const tone = toneFrom(text);
    return tone && toneOf(chord, tone.degree, tone.absolute, key);
  }

  /** The rule's index in the plan; undefined where the shape is unknown or broken, which has been said already. */
  private ruleFor(shape: Call | undefined, named: NamePlace | undefined, home: Scope): number | undefined {
    const use = named ?? shape?.use;
    const definition = named ? home.use('shape', named.name, named.span, false, BUILT_IN_NAMES) : shape?.definition;
    if (definition)
      return definition.broken ? undefined : this.rules.indexOf((definition as ShapeDefinition).rule, use!);
    const builtIn = builtInShapes.find((rule) => rule.name === (use?.name ?? USUAL_SHAPE));
    return builtIn && this.rules.indexOf(builtIn, use ?? { name: USUAL_SHAPE, span: { start: 0, end: 0 } });
  }
}

/** The bars of a call that names some, a progression's own where it says only where it begins; undefined for the rest. */
function rangeOf(call: Call): { readonly call: Call; readonly first: number; readonly last: number } | undefined {
  const { first, definition } = call;
  if (first === undefined) return undefined;
  const own = definition?.kind === 'progression' ? (definition as Progression).written.length : 1;
  return { call, first, last: call.last ?? first + own - 1 };
}

/** The part called for in a bar: by number, or the one that fills the rest. */
const callFor = (calls: readonly Call[], bar: number): Call | undefined =>
  calls.find((call) => call.first !== undefined && call.first <= bar && bar <= (call.last ?? call.first)) ??
  calls.find((call) => call.first === undefined);

const usable = (call: Call | undefined): Definition | undefined =>
  call?.definition?.broken ? undefined : call?.definition;
