/** Notes that the author wrote out, bar by bar: melodies and tabs. A bar knows no place in the text. */
import type { Chord } from '../theory/chord.ts';
import { compare, type Fraction } from '../util/fraction.ts';
import type { Span } from '../util/span.ts';
import type { Definition, PluckingFinger } from './lesson.ts';
import type { ChordBar } from './progressions.ts';
import type { Source } from './reader.ts';

/** How a note begins: plucked, or by the fretting hand from the note before it on its string. */
export type Attack = 'plucked' | 'hammer-on' | 'pull-off' | 'slide' | 'slap' | 'tap';

export interface Bend {
  /** How far the pitch rises, in quarter tones: 4 is a whole tone. */
  readonly quarters: number;
  /** The string is bent before it is plucked. */
  readonly before: boolean;
  /** Let down again while it sounds. */
  readonly release: boolean;
}

/** What is done to a note besides sounding it. */
export interface Technique {
  readonly attack: Attack;
  /** The string is damped and sounds no pitch; the fret is 0 then and means nothing. */
  readonly dead: boolean;
  readonly ghost: boolean;
  /** The fret that is touched: 12 of `<12>` with fret 0, 14 of `2<14>` with fret 2. */
  readonly harmonic?: number;
  readonly bend?: Bend;
  readonly vibrato: boolean;
  /** Takes no time of its own: played just before the note after it on its string, at whose start it stands. */
  readonly grace: boolean;
  readonly palmMuted: boolean;
}

export interface WrittenNote extends Technique {
  /** From the start of the bar, in whole notes. */
  readonly start: Fraction;
  /**
   * As notated, within the bar. In a melody to the next sign, in a tab to the next new note or rest on any string; `-` lengthens
   * it, and what it lasts beyond the bar is in `held` of the next. Nought for a grace note. How long the string sounds is another
   * matter: in a tab to the next sign on its own string, see `stops`.
   */
  readonly length: Fraction;
  /** Player's number, 1 the highest. */
  readonly string: number;
  /** As written: counted from the capo. */
  readonly fret: number;
  readonly triplet: boolean;
  readonly accent: boolean;
  /** The fretting finger where the author says it: 1–4, 0 open. */
  readonly finger?: number;
  readonly pluck?: PluckingFinger;
}

export interface WrittenBar {
  /** The length that its signs fill, in whole notes. */
  readonly length: Fraction;
  /** By start, grace notes before the note that they lead to, then from the lowest string up: see {@link inPlayingOrder}. */
  readonly notes: readonly WrittenNote[];
  /** Silences that are notated: none while a note of the same moment as the last one sounds on. */
  readonly rests: readonly { readonly start: Fraction; readonly length: Fraction }[];
  /** Where `r` ends what sounds on a string, whether a rest is notated or not. By start, then from the lowest string up. */
  readonly stops: readonly { readonly start: Fraction; readonly string: number }[];
  /** Strings whose note of the bar before is held into this one, and for how long: drawn as a tie. */
  readonly held: readonly { readonly string: number; readonly length: Fraction }[];
  /** The chord row over it, in a tab: shares of the bar as in a progression. Undefined chord: `N.C.` or unreadable. */
  readonly chords: readonly {
    readonly written: string;
    readonly chord?: Chord;
    readonly silent: boolean;
    readonly start: Fraction;
    readonly length: Fraction;
  }[];
  /** A sign of it could not be read and stands for nothing; all others are there. */
  readonly broken: boolean;
}

/** Where a written bar stands in the text: its words on the first of its lines, each of its notes, each chord over it. */
export interface WrittenPlace {
  readonly span: Span;
  readonly notes: readonly Span[];
  readonly chords: readonly Span[];
}

/** `melody NAME` or `tab NAME`. */
export interface WrittenDefinition extends Definition {
  readonly kind: 'melody' | 'tab';
  readonly bars: readonly WrittenBar[];
  /** Parallel to `bars`. */
  readonly places: readonly WrittenPlace[];
}

/** A melody or tab as a section meets it. */
export interface Written extends WrittenDefinition {
  /** Parallel to `bars` where the tab has a row of chords; else empty. */
  readonly chordBars: readonly ChordBar[];
  readonly source: Source;
}

/** Sorts the notes of a bar: by start, grace notes first, then from the lowest string up. */
export const inPlayingOrder = (a: WrittenNote, b: WrittenNote): number =>
  compare(a.start, b.start) || Number(b.grace) - Number(a.grace) || b.string - a.string;

/** A syllable of the words under a melody note. */
export interface Syllable {
  /** Empty where the syllable before is held on over this note (`-`), or the note has none. */
  readonly text: string;
  /** Whether it is joined to the next syllable by a hyphen. */
  readonly joined: boolean;
}
