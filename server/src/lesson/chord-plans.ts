/** Makes the chords of a bar, as written, into what is played: key, time, and the rule or the frets of each. */
import { chordWithBass, toneOf, type Chord } from '../theory/chord.ts';
import type { Key } from '../theory/key.ts';
import { parseNoteName, type NoteName } from '../theory/note.ts';
import { stringCount } from '../fretboard/instrument.ts';
import { dividedBy, fraction, plus, times, toNumber, ZERO, type Fraction } from '../util/fraction.ts';
import { leaf } from '../syntax/tree.ts';
import { builtInShapes } from './built-in-shapes.ts';
import type { Call } from './calls.ts';
import type { ChordBook } from './chord-book.ts';
import type {
  Cell,
  CellDefinition,
  ChordPlan,
  GripDefinition,
  Meter,
  NamePlace,
  Settings,
  ShapeDefinition,
  ShapeRule,
} from './lesson.ts';
import { modifier, says, type ChordBar, type WrittenChord } from './progressions.ts';
import type { Scope, Source } from './reader.ts';
import { readKey } from './settings.ts';
import { readFrets } from './shapes.ts';
import { toneFrom } from './tones.ts';

export const BUILT_IN_NAMES = builtInShapes.map((rule) => rule.name);
/** The rule for chords without shape and grip. */
const USUAL_SHAPE = 'open-chords';

/** A list without doubles, by identity, whose indexes a plan speaks in. */
export class Indexed<T> {
  readonly items: T[] = [];
  readonly uses: NamePlace[] = [];

  indexOf(item: T, use: NamePlace): number {
    const known = this.items.indexOf(item);
    if (known >= 0) return known;
    this.uses.push(use);
    return this.items.push(item) - 1;
  }
}

/** What holds in the whole section. */
export interface Ground {
  readonly settings: Settings;
  readonly scope: Scope;
  readonly grips: readonly GripDefinition[];
  readonly book: ChordBook;
  readonly key: Key;
  /** Whether the section has a key of its own, which then goes before a progression's. */
  readonly ownKey: boolean;
  readonly meter: Meter;
}

/** Where the chords of a bar come from. */
export interface ChordOrigin {
  readonly source: Source;
  /** What numerals count from. */
  readonly key: Key;
  /** Chords over a tab are names alone: the tab has their notes. */
  readonly bare: boolean;
}

export class ChordPlanner {
  readonly rules = new Indexed<ShapeRule>();
  readonly cells = new Indexed<Cell>();

  constructor(private readonly ground: Ground) {}

  plan(
    written: ChordBar,
    { source, key, bare }: ChordOrigin,
    shape: Call | undefined,
    bar: Fraction,
  ): readonly ChordPlan[] {
    const lengths = this.lengthsOf(written, source, bar);
    let start = ZERO;
    return written.chords.map((chord, i): ChordPlan => {
      const planned = this.planChord(chord, key, shape, source, start, lengths[i], bare);
      start = plus(start, lengths[i]);
      return planned;
    });
  }

  /** Even shares, or beats counted by strokes; where these do not fill the bar, shares in proportion and a problem. */
  private lengthsOf(written: ChordBar, source: Source, bar: Fraction): readonly Fraction[] {
    const { beat } = this.ground.meter;
    const count = written.chords.length;
    if (!written.counted) return written.chords.map(() => times(bar, fraction(1, count)));
    const beats = written.chords.reduce((sum, chord) => sum + chord.beats, 0);
    const needed = toNumber(dividedBy(bar, beat));
    if (beats !== needed && !written.broken) {
      source.report('bar-not-full', written.span, { beats: `${beats}`, needed: `${needed}` });
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
    bare: boolean,
  ): ChordPlan {
    const { instrument } = this.ground.settings;
    const chord = written.silent ? undefined : this.chordOf(written, numeralKey, source);
    const inside = modifier(written, 'in');
    const melodyKey =
      (inside && readKey(inside, (span) => source.at(span), source.report)) ??
      (this.ground.ownKey ? this.ground.key : numeralKey);
    const at = leaf(modifier(written, 'at'), 'fret');
    const pinned = leaf(modifier(written, 'as'), 'frets');
    const named = leaf(modifier(written, 'as'), 'name');
    const own = leaf(modifier(written, 'with'), 'name');
    const home = source.from?.scope ?? this.ground.scope;
    const cell = own && (home.use('cell', own.text, source.at(own)) as CellDefinition | undefined);
    const frets = pinned && readFrets(source, pinned, stringCount(instrument), instrument);
    const grip =
      !bare && !shape && !named && !pinned && chord
        ? this.ground.grips.find((one) => one.chord?.symbol === chord.symbol)
        : undefined;
    if (grip) this.ground.scope.use('grip', grip.name, written.place.symbolSpan, true);
    const ruled = chord && !bare && !pinned && !grip?.frets;
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
      scale: chord ? this.ground.book.scaleOver(melodyKey, chord) : melodyKey.scale,
      ...(cell && !cell.broken && { cell: this.cells.indexOf(cell.cell, { name: cell.name, span: source.at(own) }) }),
      held: says(written, 'held'),
      pushed: says(written, 'pushed'),
    };
  }

  private chordOf(written: WrittenChord, key: Key, source: Source): Chord | undefined {
    const chord = this.ground.book.chord(written.symbol, key);
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
