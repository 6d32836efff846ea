/** Moves what is written in frets: grips, pins, melodies and tabs, each as a whole and as far as the neck reaches. */
import { parseFretList, stringAtIndex } from '../fretboard/frets.ts';
import { stringCount, topFret, type Instrument } from '../fretboard/instrument.ts';
import type { PlacedStatement } from '../syntax/document.ts';
import { group, isGroup, leaf, type Group, type Leaf, type Line, type Part, type Statement } from '../syntax/tree.ts';
import { shifted, type Span } from '../util/span.ts';
import { fretsOf, movedFretList, movedSign } from './frets.ts';
import { shiftOf, type Interval, type Shift } from './interval.ts';
import type { LossKind } from './loss.ts';

type Write = (span: Span, before: string, text: string) => void;
type Lose = (kind: LossKind, span: Span, message: string) => void;

/** A fret where it is written: `string` in the player's numbers, undefined where it may be any. */
interface Fret {
  readonly fret: number;
  readonly string?: number;
}

export class FretMover {
  /** How far each melody and tab went, for the claims that speak of their notes. */
  private readonly written = new Set<number>();

  constructor(
    private readonly interval: Interval,
    private readonly instrument: Instrument,
    private readonly write: Write,
    private readonly lose: Lose,
  ) {}

  /** Semitones that melody notes go: as all melodies and tabs of the text do, or the nearer way where they do not agree. */
  get ofMelodies(): number {
    const [only, ...others] = this.written;
    return only === undefined || others.length > 0 ? this.interval.nearest : only;
  }

  /** `at 8` and `as x79900` behind a chord. */
  movePin(chord: Group, start: number): void {
    const at = leaf(group(chord, 'at'), 'fret');
    if (at && Number(at.text) > 0) {
      const span = shifted(at, start);
      const shift = this.shift([{ fret: Number(at.text) }], 1, `at ${at.text}`, span);
      if (shift) this.write(span, at.text, `${Number(at.text) + shift.frets}`);
    }
    const as = leaf(group(chord, 'as'), 'frets');
    if (as) this.moveList(as, start);
  }

  moveGrip({ tree, start }: PlacedStatement): void {
    const word = leaf(tree.head, 'frets');
    const changed = word && this.moveList(word, start);
    const line = tree.body.find((one) => one.form === 'fingers');
    if (!changed || !line) return;
    const span = shifted(lineWithEnd(line, tree.text), start);
    this.write(span, tree.text, '');
    this.lose('fingers', span, 'These fingers were for other open strings, and are left out: write them anew.');
  }

  /** Whether strings that were open are pressed now, or the other way round. */
  private moveList(word: Leaf, start: number): boolean {
    const span = shifted(word, start);
    const list = parseFretList(word.text, 0);
    if (!list) {
      this.lose('unread', span, `"${word.text}" is no fret list, and stays as it is.`);
      return false;
    }
    const frets = list.flatMap((fret, i): Fret[] =>
      fret === null ? [] : [{ fret, string: stringAtIndex(i, list.length) }],
    );
    const shift = frets.length > 0 && this.shift(frets, 0, word.text, span);
    if (!shift || shift.frets === 0) return false;
    const text = movedFretList(word.text, list, shift.frets);
    this.write(span, word.text, text);
    const wasOpen = frets.some(({ fret }) => fret === 0);
    if (wasOpen)
      this.lose(
        'open',
        span,
        `Open strings of ${word.text} cannot move: ${text} presses them, and nothing rings open.`,
      );
    return wasOpen || frets.some(({ fret }) => fret + shift.frets === 0);
  }

  /** A melody or a tab. */
  moveWritten({ tree, start }: PlacedStatement): void {
    const name = leaf(tree.head, 'name');
    const signs = signsOf(tree);
    const all = signs.map(({ word, string }) => ({ word, string, found: fretsOf(word.text) }));
    const pressed = all.flatMap(({ string, found }) => found.pressed.map((fret): Fret => ({ fret, string })));
    const touched = all.flatMap(({ string, found }) => found.touched.map((fret): Fret => ({ fret, string })));
    if (pressed.length === 0) return;
    const span = shifted(name ?? tree.head, start);
    const shift = this.shift(pressed, 0, name?.text ?? tree.keyword!, span, touched);
    if (!shift) return;
    this.written.add(shift.frets);
    for (const { word } of signs) this.write(shifted(word, start), word.text, movedSign(word.text, shift.frets));
    if (shift.frets === 0 || !pressed.some(({ fret }) => fret === 0)) return;
    this.lose('open', span, `Open strings of ${name?.text ?? 'it'} are pressed at fret ${shift.frets} now.`);
  }

  /** `frets 1 to 12` of a claim. */
  moveRange(range: Group, start: number): void {
    const [from, to] = ['from', 'to'].map((label) => leaf(range, label));
    if (!from || !to) return;
    const moved = [from, to].map((word) => Number(word.text) + this.ofMelodies);
    if (moved[0] < 0) {
      const span = shifted(range, start);
      this.lose('neck', span, 'These frets stay as they are: moved they would begin below the nut.');
      return;
    }
    for (const [i, word] of [from, to].entries()) this.write(shifted(word, start), word.text, `${moved[i]}`);
  }

  /** Where the frets of one part go; told where that is not the nearer way, undefined and told where they stay. */
  private shift(
    frets: readonly Fret[],
    first: 0 | 1,
    what: string,
    span: Span,
    touched: readonly Fret[] = [],
  ): Shift | undefined {
    const lowest = Math.min(...frets.map(({ fret }) => fret));
    const every = [...frets, ...touched];
    const fits = (by: number): boolean => every.every((one) => one.fret + by <= this.topOf(one.string));
    const shift = shiftOf(lowest, first, this.interval, fits);
    if (!shift) {
      const highest = Math.max(...every.map(({ fret }) => fret));
      this.lose(
        'neck',
        span,
        `${what} stays as it is: from fret ${lowest} to ${highest} it fits the neck nowhere in that key.`,
      );
    } else if (shift.frets !== this.interval.nearest) {
      const way = `${Math.abs(shift.frets)} frets ${shift.frets > 0 ? 'up' : 'down'}`;
      const nearer = `${Math.abs(this.interval.nearest)} ${this.interval.nearest > 0 ? 'up' : 'down'}`;
      const why = `which is an octave ${shift.frets > this.interval.nearest ? 'higher' : 'lower'}`;
      this.lose(shift.returns ? 'octave' : 'neck', span, `${what} goes ${way} and not ${nearer}, ${why}.`);
    }
    return shift;
  }

  private topOf(string: number | undefined): number {
    const count = stringCount(this.instrument);
    if (string !== undefined && string >= 1 && string <= count) return topFret(this.instrument, string);
    return Math.max(...Array.from({ length: count }, (_, i) => topFret(this.instrument, i + 1)));
  }
}

/** The signs of a melody or tab with their strings; a melody stays on a string until another is named. */
function signsOf({ head, body }: Statement): readonly { readonly word: Leaf; readonly string?: number }[] {
  const signs: { word: Leaf; string?: number }[] = [];
  let string = leaf(head, 'string') && Number(leaf(head, 'string')!.text);
  const each = (parts: readonly Part[]): void => {
    for (const part of parts) {
      if (isGroup(part)) each(part.parts);
      else if (part.label === 'string') string = Number(part.text);
      else if (part.label === 'sign') signs.push({ word: part, ...(string !== undefined && { string }) });
    }
  };
  for (const line of body) if (line.form === 'notes' || line.form === 'row') each(line.parts);
  return signs;
}

/** A line of a body with its indent and its end; only its words where a comment stands behind them. */
function lineWithEnd(line: Line, text: string): Span {
  const behind = /^[^\S\r\n]*(?:\r\n|\n|\r|$)/.exec(text.slice(line.end));
  if (!behind) return { start: line.start, end: line.end };
  let start = line.start;
  while (start > 0 && !/[\r\n]/.test(text[start - 1])) start--;
  return { start, end: line.end + behind[0].length };
}
