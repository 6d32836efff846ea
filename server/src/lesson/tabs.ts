/** Reads `tab` into bars of notes: rows of signs, string by string, and the rows of marks under them. */
import { compare, fraction, plus, times, type Fraction } from '../util/fraction.ts';
import { spanning, type Span } from '../util/span.ts';
import { leaf, type Leaf } from '../syntax/tree.ts';
import { stringCount } from '../fretboard/instrument.ts';
import type { ChordBook } from './chord-book.ts';
import type { Settings } from './lesson.ts';
import { checkSymbol, MOST_BARS, readChordBars, type ChordBar } from './progressions.ts';
import type { Source } from './reader.ts';
import { meantSign, readSign, type Sign } from './signs.ts';
import { Strings } from './strings.ts';
import { MarkReader, type StepNotes } from './tab-marks.ts';
import { notated, type Sounding, type TabNote } from './tab-time.ts';
import { readSystems, usualCount, type System } from './tab-rows.ts';
import { readEach, USUAL_LENGTH } from './timed-words.ts';
import { inPlayingOrder, type Written, type WrittenBar, type WrittenPlace } from './written.ts';

const TRIPLET = fraction(2, 3);
/** A tab of an evening has a tenth of it. */
const MOST_NOTES = 8000;

export function readTab(source: Source, settings: Settings, book: ChordBook): Written | undefined {
  const name = leaf(source.tree.head, 'name');
  if (!name) return undefined;
  const definition = source.definition('tab', name);
  const systems = readSystems(source, stringCount(settings.instrument));
  const reader = new TabReader(source, settings, book);
  for (const system of systems) reader.read(system);
  reader.finish();
  if (reader.bars.length === 0 && !definition.broken)
    source.report('empty-part', definition.span, { kind: 'tab', name: definition.name });
  return {
    ...definition,
    kind: 'tab',
    bars: reader.bars,
    places: reader.places,
    chordBars: reader.chordBars.some((bar) => bar.chords.length > 0) ? reader.chordBars : [],
    source,
  };
}

const MARK_ROWS = ['pluck', 'fingers', 'palm'];

class TabReader {
  readonly bars: WrittenBar[] = [];
  readonly places: WrittenPlace[] = [];
  readonly chordBars: ChordBar[] = [];
  private readonly strings: Strings;
  private readonly step: Fraction;
  private readonly triplet: boolean;
  /** Strings whose note goes on over the bar line. */
  private sounding: Sounding = new Set();
  /** A grace note with a step of its own waits for the next note on its string. */
  private readonly waiting = new Map<number, { readonly note: TabNote; readonly word: Leaf }>();
  private notes = 0;
  private full = false;

  constructor(
    private readonly source: Source,
    private readonly settings: Settings,
    private readonly book: ChordBook,
  ) {
    const each = readEach(source);
    this.strings = new Strings(source, settings.instrument);
    this.triplet = each.triplet;
    this.step = times(each.length ?? USUAL_LENGTH, each.triplet ? TRIPLET : fraction(1));
  }

  read(system: System): void {
    const first = this.bars.length;
    this.checkBarCounts(system);
    const chordBars = this.readChords(system);
    const bars = system.strings.length > 0 ? system.bars : chordBars.length;
    for (let i = 0; i < bars && this.hasRoom(system, i); i++) this.readBar(system, i, chordBars[i]);
    while (this.chordBars.length < this.bars.length) this.chordBars.push(chordBars[this.chordBars.length - first]);
  }

  /** Says which grace notes lead to no note. */
  finish(): void {
    for (const string of this.waiting.keys()) this.dropWaiting(string);
  }

  private dropWaiting(string: number): void {
    const word = this.waiting.get(string)?.word;
    if (!word) return;
    this.source.report('joined-to-nothing', this.source.at(word), { found: word.text, attack: 'grace', string: '' });
    this.waiting.delete(string);
  }

  private checkBarCounts({ strings, pluck, fingers, palm }: System): void {
    const usual = usualCount(
      strings.map((row) => row.bars.length),
      0,
    );
    for (const row of [...strings, pluck, fingers, palm]) {
      // A row that stops early is complete as far as marks go.
      if (!row || row.bars.length === usual || (!('string' in row) && row.bars.length < usual)) continue;
      this.source.report('row-miscounted', this.source.at(row.line), {
        what: 'bar',
        row: row.label,
        found: `${row.bars.length}`,
        usual: `${usual}`,
      });
    }
  }

  private readChords({ chords: line, strings, bars }: System): readonly ChordBar[] {
    const { source } = this;
    // `%` may repeat a bar of the system above.
    const written = line ? [...this.chordBars] : [];
    const before = written.length;
    if (line) readChordBars(line, written, source);
    const own = written.slice(before, before + MOST_BARS);
    const empty: ChordBar = { chords: [], counted: false, broken: false, span: source.at(source.tree.head) };
    // Chords begin with the first full bar.
    if (line && own.length === bars - 1 && this.beginsShort(strings)) own.unshift(empty);
    for (const bar of own) for (const chord of bar.chords) checkSymbol(chord, this.settings.key, source, this.book);
    if (line && strings.length > 0 && own.length !== bars)
      source.report('row-miscounted', source.at(line), {
        what: 'bar',
        row: 'chords',
        found: `${own.length}`,
        usual: `${bars}`,
      });
    return Array.from({ length: Math.max(bars, own.length) }, (_, i) => own[i] ?? empty);
  }

  /** Whether the tab opens with a bar that is shorter than the meter's: a pick-up. */
  private beginsShort(strings: System['strings']): boolean {
    if (this.bars.length > 0) return false;
    const counts = strings.flatMap((row) => row.bars[0]?.steps.length ?? []);
    return compare(times(this.step, fraction(usualCount(counts, 0))), this.settings.meter.bar) < 0;
  }

  private readBar(system: System, i: number, chordBar: ChordBar): void {
    const { source, settings } = this;
    const number = this.bars.length + 1;
    const rows = system.strings.map((row) => ({ string: row.string, label: row.label, bar: row.bars[i] }));
    const counts = rows.flatMap(({ bar }) => (bar ? [bar.steps.length] : []));
    const { meter } = settings;
    const full = (meter.bar.over * this.step.under) / (meter.bar.under * this.step.over);
    const steps = usualCount(counts, full);
    const length = counts.length > 0 ? times(this.step, fraction(steps)) : meter.bar;
    const marks = new MarkReader(source, system, i, number);
    for (const { label, bar } of [...rows, ...marks.rows]) {
      if (!bar || bar.steps.length === steps || bar.broken || counts.length === 0) continue;
      // A bar of marks may be left empty with one `-`.
      if (MARK_ROWS.includes(label) && bar.steps.length === 1 && bar.steps[0].text === '-') continue;
      if (bar.words.length > 0) this.countWrong(label, bar.steps.length, steps, number, source.at(spanning(bar.words)));
    }
    const notes: { readonly note: TabNote; readonly span: Span }[] = [];
    const stops: { start: Fraction; string: number }[] = [];
    let broken = rows.some(({ bar }) => bar?.broken);
    for (let step = 0; step < steps; step++) {
      const start = times(this.step, fraction(step));
      const here: StepNotes = [];
      for (const { string, bar } of rows) {
        const word = bar?.steps[step];
        if (!word) continue;
        const sign = this.signOf(word);
        if (!sign) broken = true;
        else if (sign.kind === 'rest') {
          this.strings.stop(string);
          this.dropWaiting(string);
          stops.push({ start, string });
        } else if (sign.kind === 'notes') {
          const placed = this.sound(sign.notes, string, word, start);
          if (placed.length < sign.notes.length && !this.waiting.has(string)) broken = true;
          here.push(placed);
          notes.push(...placed.map((note) => ({ note, span: source.at(bar!.repeats ? bar!.words[0] : word) })));
        }
      }
      marks.apply(step, here);
    }
    notes.sort((a, b) => inPlayingOrder(a.note, b.note));
    const time = notated(
      notes.map(({ note }) => note),
      stops,
      this.sounding,
      length,
    );
    this.sounding = time.sounding;
    const chords = this.chordsOver(chordBar, length);
    this.bars.push({
      length,
      notes: notes.map(({ note }) => note),
      rests: time.rests,
      stops,
      held: time.held,
      chords,
      broken,
    });
    const words = rows.flatMap(({ bar }) => bar?.words ?? []);
    this.places.push({
      span: words.length > 0 ? source.at(firstLine(words, source)) : chordBar.span,
      notes: notes.map(({ span }) => span),
      chords: chordBar.chords.map((chord) => chord.place.symbolSpan),
    });
    this.notes += notes.length;
  }

  private countWrong(row: string, found: number, usual: number, bar: number, span: Span): void {
    const data = { what: 'step', row, found: `${found}`, usual: `${usual}`, bar: `${bar}` };
    this.source.report('row-miscounted', span, data);
  }

  /** Whether one more bar can be read; where none can, it is said at that bar. */
  private hasRoom({ strings, chords }: System, bar: number): boolean {
    if (this.full) return false;
    const [what, limit] =
      this.bars.length >= MOST_BARS ? ['bars', MOST_BARS] : this.notes >= MOST_NOTES ? ['notes', MOST_NOTES] : [];
    if (!what) return true;
    this.full = true;
    const word = strings[0]?.bars[bar]?.words[0] ?? strings[0]?.line ?? chords;
    if (word) this.source.report('too-much', this.source.at(word), { what, limit: `${limit}` });
    return false;
  }

  private signOf(word: Leaf): Sign | undefined {
    const sign = readSign(word.text);
    if (!sign) {
      const data = { found: word.text, right: meantSign(word.text) ?? '' };
      this.source.report('unknown-sign', this.source.at(word), data);
    }
    return sign;
  }

  /** The notes of one sign, the step's time shared evenly among them; a grace note with a step of its own comes with the next. */
  private sound(notes: (Sign & { kind: 'notes' })['notes'], string: number, word: Leaf, at: Fraction): TabNote[] {
    const placed: TabNote[] = [];
    const sounding = notes.filter((note) => !note.grace).length;
    const share = times(this.step, fraction(1, Math.max(1, sounding)));
    let start = at;
    for (const one of notes) {
      const note = this.strings.place(one, string, word);
      const made = note && { ...note, start, length: share, triplet: this.triplet, palmMuted: false };
      if (!one.grace) start = plus(start, share);
      if (!made) continue;
      if (one.grace && sounding === 0) {
        this.waiting.set(string, { note: made, word });
        continue;
      }
      const grace = this.waiting.get(string);
      if (grace) placed.push({ ...grace.note, start: made.start });
      this.waiting.delete(string);
      placed.push(made);
    }
    return placed;
  }

  private chordsOver({ chords, counted }: ChordBar, length: Fraction): WrittenBar['chords'] {
    const beats = chords.reduce((sum, chord) => sum + (counted ? chord.beats : 1), 0);
    let done = 0;
    return chords.map((written) => {
      const share = counted ? written.beats : 1;
      const start = times(length, fraction(done, beats));
      done += share;
      const chord = written.silent ? undefined : this.book.chord(written.symbol, this.settings.key);
      return {
        written: written.symbol,
        ...(chord && { chord }),
        silent: written.silent,
        start,
        length: times(length, fraction(share, beats)),
      };
    });
  }
}

/** The words that stand on one line with the first of them in the text. */
function firstLine(words: readonly Leaf[], source: Source): Span {
  const start = Math.min(...words.map((word) => word.start));
  const end = /\r\n|\n|\r|$/.exec(source.tree.text.slice(start))!.index + start;
  return spanning(words.filter((word) => word.start < end));
}
