/**
 * A lesson's text in another key: the edits that move its keys, symbols, notes and frets, and what they cannot take along. A
 * pure function over the text, so that it also serves a variant and a file of shared parts.
 */
import type { Instrument } from '../fretboard/instrument.ts';
import type { PlacedStatement, SyntaxDocument } from '../syntax/document.ts';
import { group, groups, isGroup, leaf, leaves, type Leaf, type Line, type Part } from '../syntax/tree.ts';
import { formatKey, type Key } from '../theory/key.ts';
import { looksLikeNumeral } from '../theory/numeral.ts';
import type { Edit } from '../util/finding.ts';
import { shifted, spanning, type Span } from '../util/span.ts';
import { intervalBetween, type Interval } from './interval.ts';
import type { Loss, LossKind } from './loss.ts';
import { namesInProse, namesInTitles } from './prose-names.ts';
import { movedBass, movedKey, movedNote, movedSymbol, type MovedText } from './symbols.ts';
import { settingEdit } from './setting-line.ts';
import { FretMover } from './fret-parts.ts';

export type { Loss, LossKind } from './loss.ts';

export interface Transposition {
  /** By place; none overlap. */
  readonly edits: readonly Edit[];
  /** By place. */
  readonly losses: readonly Loss[];
}

/**
 * The edits that take `document` from one key to another by the interval between their tonics. Symbols, `over` and `in`, grips,
 * pins, melodies, tabs and what claims say of them move; numerals, shape rules and prose do not. `instrument` is the
 * one that the lesson is written for: what would leave its neck goes by an octave, or stays and is told in `losses`.
 * A text with sections and without a `key` gets one.
 */
export function transposition(document: SyntaxDocument, from: Key, to: Key, instrument: Instrument): Transposition {
  return new Transposer(document, from, to, instrument).result();
}

/** {@link transposition} without what is lost. */
export const transposeEdits = (document: SyntaxDocument, from: Key, to: Key, instrument: Instrument): readonly Edit[] =>
  transposition(document, from, to, instrument).edits;

class Transposer {
  private readonly edits: Edit[] = [];
  private readonly losses: Loss[] = [];
  private readonly interval: Interval;
  private readonly frets: FretMover;

  constructor(
    private readonly document: SyntaxDocument,
    private readonly from: Key,
    private readonly to: Key,
    instrument: Instrument,
  ) {
    this.interval = intervalBetween(from, to);
    this.frets = new FretMover(this.interval, instrument, this.write, this.lose);
  }

  result(): Transposition {
    const written = this.document.statements.filter(({ tree }) => ['melody', 'tab'].includes(tree.keyword ?? ''));
    for (const placed of written) this.frets.moveWritten(placed);
    for (const placed of this.document.statements) this.moveStatement(placed);
    this.stateKey();
    const byPlace = <T extends { readonly span: Span }>(a: T, b: T): number => a.span.start - b.span.start;
    return { edits: this.edits.sort(byPlace), losses: this.losses.sort(byPlace) };
  }

  private readonly write = (span: Span, before: string, text: string): void => {
    if (text !== before) this.edits.push({ span, text });
  };

  private readonly lose = (kind: LossKind, span: Span, message: string): void => {
    this.losses.push({ kind, span, message });
  };

  private moveStatement(placed: PlacedStatement): void {
    const { tree, start } = placed;
    const { head } = tree;
    switch (tree.keyword) {
      case 'key':
        this.moveKey(head, start, this.to.mode === this.from.mode ? undefined : this.to.mode);
        break;
      case 'progression':
        this.moveKey(head, start);
        for (const line of tree.body) this.moveBars(line, start);
        break;
      case 'grip':
        this.moveSymbol(leaf(head, 'chord'), start);
        this.frets.moveGrip(placed);
        break;
      case 'tab':
        for (const line of tree.body) if (line.form === 'chords') this.moveBars(line, start);
        break;
      case 'contour':
      case 'section':
        for (const line of tree.body) if (['key', 'scale'].includes(line.form)) this.moveKey(line, start);
        break;
      case 'claim':
        this.moveClaim(head, start);
        break;
      case 'variant':
        for (const line of tree.body) {
          if (line.form === 'key') this.moveKey(line, start);
          if (line.form === 'claim') this.moveClaim(line, start);
        }
        break;
      case 'use':
        this.lose(
          'used',
          shifted(head, start),
          'The parts of this file are not changed: transpose it too, or they stay in their key.',
        );
        break;
    }
    this.tellProse(placed);
  }

  /** Words under `tonic` and `mode`: a key statement, `in KEY`, `scale KEY`. */
  private moveKey(node: { readonly parts: readonly Part[] }, start: number, mode?: string): void {
    const words = [...leaves(node, 'tonic'), ...leaves(node, 'mode')];
    if (words.length === 0) return;
    const written = words.map((word) => word.text).join(' ');
    const span = shifted(spanning(words), start);
    const moved = movedKey(written, this.interval, mode);
    // Only what changes is edited, so that the blanks between the words stay.
    const behind = written.slice(words[0].text.length);
    if (moved?.text.endsWith(behind) && moved.text.length > behind.length) {
      const tonic = moved.text.slice(0, moved.text.length - behind.length);
      this.put({ ...moved, text: tonic }, words[0].text, shifted(words[0], start), 'key');
    } else this.put(moved, written, span, 'key');
    if (mode === undefined) return;
    this.lose('mode', span, `Only the tonic moves: no chord becomes ${mode} by it.`);
  }

  private moveSymbol(word: Leaf | undefined, start: number): void {
    if (!word || looksLikeNumeral(word.text)) return;
    this.put(movedSymbol(word.text, this.interval), word.text, shifted(word, start), 'chord');
  }

  private put(moved: MovedText | undefined, before: string, span: Span, what: string): void {
    if (!moved) {
      this.lose('unread', span, `"${before}" is no ${what} that can be read, and stays as it is.`);
      return;
    }
    this.write(span, before, moved.text);
    if (moved.exact) return;
    this.lose('spelling', span, `${before} would need more than two signs there, and is spelled ${moved.text}.`);
  }

  private moveBars(line: Line, start: number): void {
    for (const symbol of leaves(line, 'chord')) this.moveSymbol(symbol, start);
    for (const chord of groups(line, 'chord')) {
      this.moveSymbol(leaf(chord, 'chord'), start);
      const over = leaf(group(chord, 'over'), 'bass');
      const bass = over && movedBass(over.text, this.interval);
      if (bass) this.put(bass, over.text, shifted(over, start), 'note');
      const scale = group(chord, 'in');
      if (scale) this.moveKey(scale, start);
      this.frets.movePin(chord, start);
    }
    if (line.broken) this.tellBroken(line, start);
  }

  private tellBroken(line: Line, start: number): void {
    for (const part of leaves(line, 'broken'))
      this.lose('unread', shifted(part, start), 'This could not be read, and stays as it is.');
  }

  private moveClaim(line: Line, start: number): void {
    const each = (parts: readonly Part[]): void => {
      for (const part of parts) {
        if (!isGroup(part)) this.moveClaimed(part, start);
        else {
          if (part.label === 'scale') this.moveKey(part, start);
          // The frets of rules stay where they are; those of a text without chords are all written out.
          if (part.label === 'frets' && !this.hasChords) this.frets.moveRange(part, start);
          each(part.parts);
        }
      }
    };
    each(line.parts);
  }

  private moveClaimed(word: Leaf, start: number): void {
    if (word.label === 'chord') this.moveSymbol(word, start);
    if (word.label !== 'note') return;
    const moved = movedNote(word.text, this.interval, this.frets.ofMelodies);
    this.put(moved, word.text, shifted(word, start), 'note');
  }

  private get hasChords(): boolean {
    return this.document.statements.some(({ tree }) => tree.keyword === 'progression');
  }

  private tellProse({ tree, start }: PlacedStatement): void {
    const found = tree.prose
      ? namesInProse(tree.text, tree.prose)
      : [tree.head, ...tree.body].flatMap((line) => namesInTitles(line, tree.text));
    for (const { span, name } of found)
      this.lose('prose', shifted(span, start), `Plain words name ${name}, and stay: see whether they are still true.`);
  }

  /** Without a key of its own a lesson is in C, which is where its numerals and melodies count from. */
  private stateKey(): void {
    const { statements } = this.document;
    const has = (keyword: string): boolean => statements.some(({ tree }) => tree.keyword === keyword);
    if (has('key') || !has('section')) return;
    const edit = settingEdit(this.document, `key ${formatKey(this.to)}`);
    if (edit) this.edits.push(edit);
  }
}
