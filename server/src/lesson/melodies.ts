/** Reads `melody` into bars of notes: one line of notes, each with its own length. */
import { fraction, parseFraction, plus, times, ZERO, type Fraction } from '../util/fraction.ts';
import { spanning, type Span } from '../util/span.ts';
import { leaf, type Leaf } from '../syntax/tree.ts';
import { stringCount, type Instrument } from '../fretboard/instrument.ts';
import { MOST_BARS } from './progressions.ts';
import type { Source } from './reader.ts';
import { isGrace, meantSign, readSign, type Sign, type Sounded } from './signs.ts';
import { fretOfNote, Strings } from './strings.ts';
import { readEach, timedWords, USUAL_LENGTH, type TimedWord } from './timed-words.ts';
import { inPlayingOrder, type Written, type WrittenBar, type WrittenNote, type WrittenPlace } from './written.ts';

/** A song of an evening has a tenth of it. */
const MOST_NOTES = 4000;

export function readMelody(source: Source, instrument: Instrument): Written | undefined {
  const name = leaf(source.tree.head, 'name');
  if (!name) return undefined;
  const definition = source.definition('melody', name);
  const each = readEach(source);
  const lines = source.lines('notes');
  const usual = each.length ?? USUAL_LENGTH;
  const words = timedWords(
    source,
    lines,
    { ...each, length: usual },
    { most: MOST_NOTES, takesTime: (text) => !isGrace(readSign(text)) },
  );
  if (words.length === 0 && !definition.broken)
    source.report('empty-part', definition.span, { kind: 'melody', name: definition.name });
  const onString = leaf(source.tree.head, 'string');
  const string = onString && source.string(onString, stringCount(instrument));
  const reader = new MelodyReader(source, instrument, usual, { string, named: onString !== undefined });
  for (const word of words) reader.read(word);
  const bars = reader.finish();
  if (bars.length > MOST_BARS) {
    const data = { what: 'bars', limit: `${MOST_BARS}` };
    source.report('too-much', bars[MOST_BARS].place.span, data);
    bars.length = MOST_BARS;
  }
  return {
    ...definition,
    kind: 'melody',
    bars: bars.map(({ bar }) => bar),
    places: bars.map(({ place }) => place),
    chordBars: [],
    source,
  };
}

type Draft<T> = { -readonly [Key in keyof T]: T[Key] };
type Timed = Draft<WrittenBar['rests'][number]>;

interface DraftBar {
  readonly number: number;
  at: Fraction;
  readonly notes: { readonly note: Draft<WrittenNote>; readonly span: Span }[];
  readonly rests: Timed[];
  readonly stops: { readonly start: Fraction; readonly string: number }[];
  readonly held: Draft<WrittenBar['held'][number]>[];
  readonly words: Span[];
  broken: boolean;
}

const draftBar = (number: number): DraftBar => ({
  number,
  at: ZERO,
  notes: [],
  rests: [],
  stops: [],
  held: [],
  words: [],
  broken: false,
});

class MelodyReader {
  private readonly bars: DraftBar[] = [];
  private readonly strings: Strings;
  private string: number | undefined;
  /** Whether a string has been named at all, be it one that does not exist. */
  private named: boolean;
  private stringSign: Leaf | undefined;
  /** What `-` lengthens: the last note, or the silence before any. */
  private last: { length: Fraction } | undefined;
  /** The string that sounds, where the last word was no rest. */
  private sounding: number | undefined;
  /** Grace notes that wait for their note. */
  private waiting: { readonly note: Draft<WrittenNote>; readonly word: Leaf }[] = [];

  constructor(
    private readonly source: Source,
    private readonly instrument: Instrument,
    private readonly usual: Fraction,
    on: { readonly string: number | undefined; readonly named: boolean },
  ) {
    this.strings = new Strings(source, instrument);
    this.string = on.string;
    this.named = on.named;
  }

  read({ word, length: written = this.usual, own, triplet, bar: number, string }: TimedWord): void {
    let bar = this.bars[this.bars.length - 1];
    if (bar?.number !== number) {
      bar = draftBar(number);
      this.bars.push(bar);
      this.last = undefined;
    }
    if (string && string !== this.stringSign) {
      this.stringSign = string;
      this.string = this.source.string(string, stringCount(this.instrument));
      this.named = true;
      bar.words.push(this.source.at(string));
    }
    const at = this.source.at(word);
    bar.words.push(at);
    const sign = this.signOf(word);
    const slide = own !== undefined && !isLength(own.text);
    const length = slide ? this.usual : written;
    if (slide) this.source.report('length-or-slide', this.source.at(own), { found: own.text, behind: word.text });
    if (!sign) bar.broken = true;
    if (sign?.kind === 'notes' && isGrace(sign)) {
      this.sound(sign, word, bar, ZERO, triplet);
      return;
    }
    if (sign?.kind !== 'notes') this.dropWaiting();
    if (sign?.kind === 'notes') this.sound(sign, word, bar, length, triplet);
    else if (sign?.kind === 'rest') this.rest(bar, length);
    else this.hold(bar, length);
    bar.at = plus(bar.at, length);
  }

  finish(): { readonly bar: WrittenBar; readonly place: WrittenPlace }[] {
    this.dropWaiting();
    return this.bars.map(({ at, notes, rests, stops, held, words, broken }) => {
      notes.sort((a, b) => inPlayingOrder(a.note, b.note));
      return {
        bar: { length: at, notes: notes.map(({ note }) => note), rests, stops, held, chords: [], broken },
        place: { span: spanning(words), notes: notes.map(({ span }) => span), chords: [] },
      };
    });
  }

  private signOf(word: Leaf): Sign | undefined {
    const { source } = this;
    if (/^\d+\/\d+$/.test(word.text)) {
      source.report('length-or-slide', source.at(word), { found: word.text, behind: '' });
      return undefined;
    }
    const sign = readSign(word.text);
    if (!sign) {
      const right = meantSign(word.text) ?? '';
      const { string } = this;
      const fret = right === '' && string !== undefined ? fretOfNote(this.instrument, string, word.text) : undefined;
      source.report('unknown-sign', source.at(word), {
        found: word.text,
        right: apart(right),
        ...(fret !== undefined && { fret: `${fret}`, string: `${string}` }),
      });
    }
    return sign;
  }

  private sound(sign: Sounded, word: Leaf, bar: DraftBar, length: Fraction, triplet: boolean): void {
    const { source, string } = this;
    if (string === undefined) {
      if (!this.named) source.report('melody-without-string', source.at(word), { found: word.text });
      this.named = true;
      bar.broken = true;
      this.hold(bar, length);
      return;
    }
    const sounding = sign.notes.filter((note) => !note.grace).length;
    const share = sounding === 0 ? ZERO : times(length, fraction(1, sounding));
    let start = bar.at;
    let placedAny = false;
    for (const one of sign.notes) {
      const placed = this.strings.place(one, string, word);
      if (!placed) {
        bar.broken = true;
        if (!one.grace) start = plus(start, share);
        continue;
      }
      const note: Draft<WrittenNote> = {
        ...placed,
        start,
        length: one.grace ? ZERO : share,
        triplet,
        palmMuted: false,
      };
      if (one.grace) this.waiting.push({ note, word });
      else {
        for (const grace of this.waiting) {
          grace.note.start = start;
          bar.notes.push({ note: grace.note, span: source.at(grace.word) });
        }
        this.waiting = [];
        bar.notes.push({ note, span: source.at(word) });
        this.last = note;
        this.sounding = note.dead ? undefined : string;
        start = plus(start, share);
        placedAny = true;
      }
    }
    if (!placedAny && sounding > 0) this.hold(bar, length);
  }

  private rest(bar: DraftBar, length: Fraction): void {
    if (this.sounding !== undefined) bar.stops.push({ start: bar.at, string: this.sounding });
    this.sounding = undefined;
    this.strings.stopAll();
    const rest = { start: bar.at, length };
    bar.rests.push(rest);
    this.last = rest;
  }

  private hold(bar: DraftBar, length: Fraction): void {
    // A grace note that could not be placed leaves no time behind.
    if (length.over === 0) return;
    if (this.last) this.last.length = plus(this.last.length, length);
    else if (this.sounding !== undefined) {
      const held = { string: this.sounding, length };
      bar.held.push(held);
      this.last = held;
    } else {
      const rest = { start: bar.at, length };
      bar.rests.push(rest);
      this.last = rest;
    }
  }

  /** Grace notes that no note comes after. */
  private dropWaiting(): void {
    for (const { word } of this.waiting)
      this.source.report('joined-to-nothing', this.source.at(word), { found: word.text, attack: 'grace', string: '' });
    this.waiting = [];
  }
}

/** Whether a fraction is one that lengths are written in: halves of halves of a whole note. */
function isLength(text: string): boolean {
  const under = Number(text.split('/')[1]);
  return parseFraction(text) === undefined || (under & (under - 1)) === 0;
}

/** In a melody a slide stands by itself, since `5/7` would be a length. */
const apart = (sign: string): string => sign.replace(/^(\d+)(\/\d+)$/, '$1 $2');
