/** What the author claims of the lesson: sentences that must be true. Here they are read; what is true is found elsewhere. */
import { parseChord, type Chord } from '../theory/chord.ts';
import { formatKey, type Key } from '../theory/key.ts';
import { parseNoteName, parsePitch, type NoteName, type Pitch } from '../theory/note.ts';
import { looksLikeNumeral, parseNumeral } from '../theory/numeral.ts';
import { HIGHEST_FRET } from '../fretboard/fret-positions.ts';
import { stringCount } from '../fretboard/instrument.ts';
import { group, leaf, leaves, type Group, type Leaf, type Line } from '../syntax/tree.ts';
import { spanning, type Span } from '../util/span.ts';
import type { Section, Settings, Tone } from './lesson.ts';
import type { Scope, Source } from './reader.ts';
import { FASTEST, readKey, SLOWEST } from './settings.ts';
import { readTone } from './tones.ts';

/** A lesson that claims more proves nothing more; each is looked through with every change of the text. */
const MOST_CLAIMS = 200;
/** More chords are not read in one bar. */
const MOST_CHORDS = 16;

/** A note with or without its octave: `B3`, `B`. */
export interface ClaimedNote {
  readonly name: NoteName;
  readonly pitch?: Pitch;
  readonly text: string;
}

/** Bars as counted in a section, from the first to the last. */
export interface BarRange {
  readonly first: number;
  readonly last: number;
}

/** A place that a claim speaks of; chords are counted from 1, the bar 0 is the pick-up. */
export interface BarClaim {
  readonly bar: number;
  /** 1 where the claim names none. */
  readonly chord: number;
}

export type Claimed =
  | { readonly kind: 'playable'; readonly tempo: number }
  | { readonly kind: 'reach'; readonly most: number }
  | { readonly kind: 'no barre' }
  | { readonly kind: 'same contour' }
  | { readonly kind: 'thumb alternates' }
  | { readonly kind: 'scale'; readonly key: Key }
  | { readonly kind: 'frets'; readonly lowest: number; readonly highest: number }
  | { readonly kind: 'common tone'; readonly note: ClaimedNote }
  | { readonly kind: 'open'; readonly strings: readonly number[] }
  | { readonly kind: 'melody starts'; readonly tone: Tone; readonly except?: BarRange }
  | { readonly kind: 'melody notes'; readonly notes: readonly ClaimedNote[]; readonly bar: number }
  | ({ readonly kind: 'is'; readonly symbol: string; readonly claimed: Chord } & BarClaim)
  | ({ readonly kind: 'tones'; readonly tones: readonly Tone[] } & BarClaim)
  | ({ readonly kind: 'adds'; readonly string: number; readonly tone: Tone } & BarClaim);

export type ClaimKind = Claimed['kind'];

export interface Claim {
  readonly says: Claimed;
  /** Index in the lesson's sections; undefined where the claim speaks of the whole lesson. */
  readonly section?: number;
  /** The claim without its keyword. */
  readonly span: Span;
  /**
   * The words that a fix would put the truth in place of: `tempo`, `most`, `from` and `to`, `key`, `note`, `strings`, `tone` (and
   * `except`), `notes`, `chord`, `tones`.
   */
  readonly words: Readonly<Record<string, Span>>;
}

/** `claim …` statements in the order of the text; those that cannot be read give a problem. Sections are looked up in `scope`. */
export function readClaims(
  sources: readonly Source[],
  scope: Scope,
  sections: readonly Section[],
  settings: Settings,
): readonly Claim[] {
  const [beyond] = sources.slice(MOST_CLAIMS);
  if (beyond) beyond.report('too-much', beyond.at(beyond.tree.head), { what: 'claims', limit: `${MOST_CLAIMS}` });
  return sources
    .slice(0, MOST_CLAIMS)
    .flatMap((source) => readClaim(source.tree.head, source, scope, sections, settings) ?? []);
}

/** One claim: the first line of a statement, or a line of a variant's body. Undefined where it cannot be read. */
export function readClaim(
  line: Line,
  source: Source,
  scope: Scope,
  sections: readonly Section[],
  settings: Settings,
): Claim | undefined {
  // Its sections count as used even where the rest of it is still to be written.
  const named = sectionWords(line).map((word) => scope.use('section', word.text, source.at(word)));
  if (line.broken) return undefined;
  const found = named[0] && sections.findIndex((one) => one === named[0]);
  const reader = new ClaimReader(line, source, sections, settings);
  const said = reader.read(sections[found ?? 0]?.plan.key ?? settings.key);
  if (!said || named.includes(undefined)) return undefined;
  if (named.length > 1 && named[0] !== named[1]) {
    const [word] = sectionWords(line).slice(-1);
    source.report('claim-nowhere', source.at(word), { what: 'two sections', one: named[0]!.name, other: word.text });
    return undefined;
  }
  return reader.placed(said, found === -1 ? undefined : found);
}

const sectionWords = (line: Line): readonly Leaf[] => [
  ...leaves(group(line, 'bar'), 'section'),
  ...leaves(line, 'section'),
];

class ClaimReader {
  private readonly words: Record<string, Span> = {};
  private readonly span: Span;

  constructor(
    private readonly line: Line,
    private readonly source: Source,
    private readonly sections: readonly Section[],
    private readonly settings: Settings,
  ) {
    this.span = source.at(line.parts.length === 0 ? line : spanning(line.parts));
  }

  /** `key` is what a numeral counts in. */
  read(key: Key): Claimed | undefined {
    const [part] = this.line.parts;
    if (!part || !('parts' in part)) return undefined;
    switch (part.label) {
      case 'playable': {
        const tempo = this.number(part, 'tempo', 'tempo', 'the tempo', SLOWEST, FASTEST);
        return tempo === undefined ? undefined : { kind: 'playable', tempo };
      }
      case 'reach': {
        const most = this.number(part, 'fret', 'most', 'the reach', 0, HIGHEST_FRET);
        return most === undefined ? undefined : { kind: 'reach', most };
      }
      case 'no-barre':
        return { kind: 'no barre' };
      case 'contour':
        return { kind: 'same contour' };
      case 'thumb':
        return { kind: 'thumb alternates' };
      case 'scale':
        return this.scale(part);
      case 'frets':
        return this.frets(part);
      case 'common':
        return this.commonTone(part);
      case 'open': {
        const strings = this.strings(part);
        return strings && { kind: 'open', strings };
      }
      case 'melody':
        return leaf(part, 'tone') ? this.melodyStarts(part) : this.melodyNotes(part);
      case 'bar':
        return this.ofBar(part, key);
      default:
        return undefined;
    }
  }

  /** The claim in its section; undefined, with a problem, where it speaks of a bar that is not there. */
  placed(says: Claimed, named: number | undefined): Claim | undefined {
    const claim = { says, span: this.span, words: this.words };
    const bars = barsIn(says);
    if (bars.length === 0) return named === undefined ? claim : { ...claim, section: named };
    const index = named ?? (this.sections.length === 1 ? 0 : undefined);
    if (index === undefined) {
      const having = this.sections.filter(({ plan }) =>
        bars.every((bar) => plan.bars.some(({ number }) => number === bar)),
      );
      this.nowhere(this.span, {
        what: 'section',
        names: this.sections.map(({ name }) => name).join(' '),
        having: having.map(({ name }) => name).join(' '),
        before: 'chord' in says ? 'yes' : '',
      });
      return undefined;
    }
    return this.isThere(says, bars, this.sections[index]) ? { ...claim, section: index } : undefined;
  }

  private isThere(says: Claimed, bars: readonly number[], section: Section): boolean {
    const numbers = section.plan.bars.map(({ number }) => number);
    // Where the section's own parts are missing, that is said already.
    if (numbers.length === 0) return true;
    const [first, last] = [numbers[0], numbers[numbers.length - 1]].map(String);
    if (bars.length > 1 && bars[0] > bars[1]) {
      this.nowhere(this.words.bar, { what: 'backwards', from: `${bars[0]}`, to: `${bars[1]}` });
      return false;
    }
    const missing = bars.find((bar) => !numbers.includes(bar));
    if (missing !== undefined) {
      this.nowhere(this.words.bar, { what: 'bar', found: `${missing}`, section: section.name, first, last });
      return false;
    }
    const bar = section.plan.bars[numbers.indexOf(bars[0])];
    if (!('chord' in says) || bar.broken || says.chord <= bar.chords.length || bar.chords.length === 0) return true;
    const count = `${bar.chords.length}`;
    this.nowhere(this.words.number, { what: 'chord', found: `${says.chord}`, bar: `${bar.number}`, count });
    return false;
  }

  private nowhere(span: Span, data: Readonly<Record<string, string>>): void {
    this.source.report('claim-nowhere', span, data);
  }

  private note(word: string, ...leavesOfIt: readonly (Leaf | undefined)[]): void {
    const there = leavesOfIt.filter((one) => one !== undefined);
    if (there.length > 0) this.words[word] = this.source.at(spanning(there));
  }

  private number(
    part: Group,
    label: string,
    word: string,
    what: string,
    least: number,
    most: number,
  ): number | undefined {
    this.note(word, leaf(part, label));
    return this.source.number(leaf(part, label), what, least, most);
  }

  private strings(part: Group): readonly number[] | undefined {
    const written = leaves(part, 'string');
    this.note('strings', ...written);
    const strings = written.map((word) => this.source.string(word, stringCount(this.settings.instrument)));
    return strings.includes(undefined) ? undefined : strings.filter((string) => string !== undefined);
  }

  private scale(part: Group): Claimed | undefined {
    this.note('key', ...leaves(part, 'tonic'), ...leaves(part, 'mode'));
    const key = readKey(part, (span) => this.source.at(span), this.source.report);
    return key && { kind: 'scale', key };
  }

  private frets(part: Group): Claimed | undefined {
    const lowest = this.number(part, 'from', 'from', 'the lowest fret', 0, HIGHEST_FRET);
    const highest = this.number(part, 'to', 'to', 'the highest fret', lowest ?? 0, HIGHEST_FRET);
    return lowest === undefined || highest === undefined ? undefined : { kind: 'frets', lowest, highest };
  }

  private commonTone(part: Group): Claimed | undefined {
    const word = leaf(part, 'note');
    this.note('note', word);
    const note = word && this.readNote(word);
    return note && { kind: 'common tone', note };
  }

  private melodyStarts(part: Group): Claimed | undefined {
    const word = leaf(part, 'tone')!;
    this.note('tone', word);
    const tone = readTone(word, this.source);
    const first = leaf(part, 'first');
    if (!first) return tone && { kind: 'melody starts', tone };
    // The word `except` leaves no mark in the tree; it stands between the tone and the end of the group.
    this.words.except = this.source.at({ start: word.end, end: part.end });
    this.note('bar', first, leaf(part, 'last'));
    const except = { first: Number(first.text), last: Number((leaf(part, 'last') ?? first).text) };
    return tone && { kind: 'melody starts', tone, except };
  }

  private melodyNotes(part: Group): Claimed | undefined {
    const written = leaves(part, 'note');
    this.note('notes', ...written);
    this.note('bar', leaf(part, 'bar'));
    const notes = written.map((word) => this.readNote(word));
    if (notes.includes(undefined)) return undefined;
    const bar = Number(leaf(part, 'bar')!.text);
    return { kind: 'melody notes', notes: notes.filter((note) => note !== undefined), bar };
  }

  private ofBar(part: Group, key: Key): Claimed | undefined {
    this.note('bar', leaf(part, 'bar'));
    this.note('number', leaf(part, 'chord-number'));
    const number = leaf(part, 'chord-number');
    const chord = number ? this.source.number(number, 'the chord’s place in its bar', 1, MOST_CHORDS) : 1;
    if (chord === undefined) return undefined;
    const place: BarClaim = { bar: Number(leaf(part, 'bar')!.text), chord };
    const symbol = leaf(part, 'chord');
    if (symbol) return this.is(symbol, place, key);
    const written = leaves(part, 'tone');
    const tones = written.map((word) => readTone(word, this.source));
    const string = leaf(part, 'string');
    if (string) {
      this.note('tone', written[0]);
      this.note('string', string);
      const number = this.source.string(string, stringCount(this.settings.instrument));
      const [tone] = tones;
      return number === undefined || !tone ? undefined : { kind: 'adds', string: number, tone, ...place };
    }
    this.note('tones', ...written);
    if (tones.includes(undefined)) return undefined;
    return { kind: 'tones', tones: tones.filter((tone) => tone !== undefined), ...place };
  }

  private is(word: Leaf, place: BarClaim, key: Key): Claimed | undefined {
    this.note('chord', word);
    const isNumeral = looksLikeNumeral(word.text);
    const claimed = isNumeral ? parseNumeral(word.text, key) : parseChord(word.text);
    if (claimed) return { kind: 'is', symbol: word.text, claimed, ...place };
    const at = this.source.at(word);
    if (isNumeral) this.source.report('unknown-numeral', at, { found: word.text, key: formatKey(key) });
    else this.source.report('unknown-chord', at, { found: word.text });
    return undefined;
  }

  private readNote(word: Leaf): ClaimedNote | undefined {
    const pitch = parsePitch(word.text);
    const name = pitch ?? parseNoteName(word.text);
    if (!name) {
      this.source.report('unknown-note', this.source.at(word), { found: word.text });
      return undefined;
    }
    return pitch ? { name, pitch, text: word.text } : { name, text: word.text };
  }
}

/** The bars that a claim speaks of by their numbers. */
function barsIn(says: Claimed): readonly number[] {
  if ('bar' in says) return [says.bar];
  if (says.kind !== 'melody starts' || !says.except) return [];
  return [says.except.first, says.except.last];
}
