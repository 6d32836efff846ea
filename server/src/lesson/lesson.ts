/** What the author wrote, names resolved and places kept: the shape in which everything else meets a lesson. */
import type { Chord } from '../theory/chord.ts';
import type { Key } from '../theory/key.ts';
import type { Degree } from '../theory/interval.ts';
import type { NoteName } from '../theory/note.ts';
import type { FretList } from '../fretboard/frets.ts';
import type { Instrument } from '../fretboard/instrument.ts';
import type { Fraction } from '../util/fraction.ts';
import type { Problem } from '../util/finding.ts';
import type { Span } from '../util/span.ts';
import type { Claim } from './claims.ts';
import type { Import } from './imports.ts';
import type { Course, LibraryHead, PathUse } from './library.ts';
import type { PracticeStep } from './practice.ts';
import type { Passage } from './prose.ts';
import type { VariantDefinition } from './variants.ts';
import type { Syllable, WrittenBar, WrittenDefinition, WrittenPlace } from './written.ts';

// ---- parts without places: what is played, equal where it sounds equal --------------------------------------------

/** A tone as the author names it: `3` follows the chord's quality, `b3` is absolute. */
export interface Tone {
  readonly degree: Degree;
  readonly absolute: boolean;
  readonly text: string;
}

export interface ShapeRule {
  readonly name: string;
  /** Player's numbers, 1 the highest, in the order written. */
  readonly strings: readonly number[];
  /** One for each of `strings`; undefined where `spacing` rules, or where no line says it (all `any`). */
  readonly tones?: readonly (Tone | 'any')[];
  readonly spacing?: 'close' | 'spread';
  readonly bass?: Tone;
  readonly top?: Tone;
  /** Strings that must ring open, or `any` for the search to choose among those not in `strings`. */
  readonly open: readonly number[] | 'any';
  /** What open strings may add besides chord tones; undefined: anything. */
  readonly colour?: readonly Tone[];
  readonly avoid: readonly Tone[];
  readonly lowestFret: number;
  readonly highestFret: number;
  /** Highest fret pressed less the lowest, at most; undefined: whatever a hand can hold. */
  readonly reach?: number;
  readonly barre: boolean;
  /**
   * For the built-in rules, which serve any number of strings: listed strings that the instrument lacks are left out, those at
   * either end may stay silent, those that sound are neighbours. The lowest note is the symbol's bass where it can be; the more
   * strings sound and the nearer the nut, the better.
   */
  readonly sparse?: boolean;
  /** With `sparse`: how many of the instrument's strings may be silent; undefined: any number. */
  readonly mostSilent?: number;
  /** With `sparse`: what the sounding strings have from the bass side up. It may end early, after its second tone. */
  readonly sequence?: readonly Tone[];
  /** The lowest sounding string is pressed, and at the lowest fret of all: shapes that move along the neck under the index. */
  readonly bassAtLowestFret?: boolean;
}

export type PluckingFinger = 'p' | 'i' | 'm' | 'a' | 'c';

export interface Pluck {
  readonly finger: PluckingFinger;
  /** A string's number, or the lowest, second lowest or highest sounding string. */
  readonly target: number | 'bass' | 'alt' | 'top';
}

export interface Stroke {
  readonly kind: 'down' | 'up' | 'roll' | 'mute';
  /** The strings it runs over, where the author says so: `down(4 to 1)`. */
  readonly from?: number;
  readonly to?: number;
}

export interface CellNote {
  /** From the start of the cell, in whole notes. */
  readonly start: Fraction;
  readonly length: Fraction;
  /** Several plucks are a pinch; none, without a stroke and without `rest`: what sounds rings on. */
  readonly plucks: readonly Pluck[];
  readonly stroke?: Stroke;
  readonly rest: boolean;
  readonly accent: boolean;
  /** Whether it is one of three in the time of two, for the rhythm drawn. */
  readonly triplet: boolean;
}

export interface Cell {
  readonly name: string;
  readonly length: Fraction;
  readonly notes: readonly CellNote[];
}

export type ContourNote = {
  /** Undefined where the contour rides the cell. */
  readonly length?: Fraction;
  readonly triplet: boolean;
} & (
  | { readonly kind: 'step'; readonly steps: number; readonly bend: -1 | 0 | 1 }
  | { readonly kind: 'tone'; readonly tone: Tone }
  | { readonly kind: 'hold' }
  | { readonly kind: 'rest' }
);

export interface Contour {
  readonly name: string;
  /** A string's number, or the highest or lowest sounding string of each voicing. */
  readonly voice: number | 'top' | 'bass';
  /** The tone it starts on, then those taken where the chord or the hand will not have it. */
  readonly starts: readonly Tone[];
  readonly notes: readonly ContourNote[];
  readonly scale?: Key;
  readonly finger?: PluckingFinger;
}

export interface Meter {
  readonly beats: number;
  readonly unit: number;
  /** The length of a bar, in whole notes. */
  readonly bar: Fraction;
  /** The length of a beat as it is counted: a dotted quarter in 6/8. */
  readonly beat: Fraction;
}

export interface Tempo {
  readonly perMinute: number;
  readonly beat: Fraction;
}

// ---- a section as it will be played, still without places ---------------------------------------------------------

export interface ChordPlan {
  /** As the author wrote it: `Am7`, `V7/V`. `N.C.` where there is none. */
  readonly written: string;
  /** Undefined for `N.C.` and for what is no chord. */
  readonly chord?: Chord;
  readonly silent: boolean;
  /** From the start of the bar, in whole notes. */
  readonly start: Fraction;
  readonly length: Fraction;
  /** Index in the section's `rules`; undefined with a grip or exact frets. */
  readonly rule?: number;
  /** `at 8`. */
  readonly lowestFret?: number;
  /** `as x79900`, or the grip of this symbol. */
  readonly frets?: FretList;
  readonly fingers?: FretList;
  /** Which strings `p(bass)` and `p(alt)` mean, where a grip says so. */
  readonly bassStrings?: readonly number[];
  /** What a melody over the chord follows, from the tonic up. */
  readonly scale: readonly NoteName[];
  /** Index in the section's `cells`: this chord's own cell (`with`). */
  readonly cell?: number;
  readonly held: boolean;
  readonly pushed: boolean;
}

export interface BarPlan {
  /** As counted in the section, from 1; the pick-up is bar 0. Bars of endings follow the bars of the section. */
  readonly number: number;
  readonly length: Fraction;
  readonly chords: readonly ChordPlan[];
  /** True where the bar, or a part of it, could not be read: it keeps its place and stays empty. */
  readonly broken: boolean;
  /** Index in the section's `cells`, and the bar of the section with which the cell starts. */
  readonly cell?: number;
  readonly cellFrom: number;
  /** Index in the section's `contours`. */
  readonly contour?: number;
  /** The bar of the melody that is played here, cut where the bar ends; its notes go over whatever the chords are. */
  readonly melody?: WrittenBar;
  /** The bar of the tab that stands here: it gives every note of the bar, whatever shape, cell and contour say. */
  readonly tab?: WrittenBar;
  /**
   * One for each of its sung notes, in their order: see `sungNotes` in words.ts for a melody or a tab; without either, the notes
   * of the contour that sound. It may be shorter than they are; undefined where there are none.
   */
  readonly words?: readonly Syllable[];
  /** The times in which the bar is played, from 1, where it belongs to an ending. */
  readonly ending?: number;
}

export interface SectionPlan {
  readonly key: Key;
  readonly meter: Meter;
  readonly tempo: Tempo;
  readonly rules: readonly ShapeRule[];
  readonly cells: readonly Cell[];
  readonly contours: readonly Contour[];
  readonly bars: readonly BarPlan[];
  /** How often it is played, from 1. */
  readonly times: number;
}

// ---- the same with places in the text -------------------------------------------------------------------------------

/** A name where it is used or given. */
export interface NamePlace {
  readonly name: string;
  readonly span: Span;
}

export type PartKind = 'shape' | 'grip' | 'progression' | 'cell' | 'contour' | 'melody' | 'tab' | 'section' | 'variant';

/** Something the author gave a name, and where; `part` is undefined where its meaning is not worked out yet. */
export interface Definition {
  readonly kind: PartKind;
  readonly name: string;
  /** The name itself. */
  readonly span: Span;
  /** The whole statement without the blank lines and comments behind it. */
  readonly whole: Span;
  /** Spans of the body lines by their form: what "the reach is set here" points to. */
  readonly lines: Readonly<Record<string, Span>>;
  /** True where a line of it could not be read: what follows from it is then not complained of again. */
  readonly broken: boolean;
  /** Where it is written, for what another file brings: every other place of it is then the word of `use` that brings it. */
  readonly from?: { readonly path: string; readonly span: Span };
}

export interface ShapeDefinition extends Definition {
  readonly kind: 'shape';
  readonly rule: ShapeRule;
  /** A span for each of the rule's strings, and for each string of `open`. */
  readonly stringSpans: readonly Span[];
  readonly openSpans: readonly Span[];
}

export interface CellDefinition extends Definition {
  readonly kind: 'cell';
  readonly cell: Cell;
  /** A span for each note of the cell. */
  readonly noteSpans: readonly Span[];
  /** The meter it was made for, where it says one. */
  readonly meter?: Meter;
  /** The length that each bar of the cell fills, where bar lines cut it. */
  readonly barLengths: readonly Fraction[];
  /** A word of it could not be read and plucks nothing, so that its length may be another than was meant. */
  readonly unread: boolean;
}

export interface ContourDefinition extends Definition {
  readonly kind: 'contour';
  readonly contour: Contour;
  readonly noteSpans: readonly Span[];
  readonly startSpans: readonly Span[];
}

export interface GripDefinition extends Definition {
  readonly kind: 'grip';
  readonly chord?: Chord;
  readonly frets?: FretList;
  readonly fretsSpan: Span;
  readonly fingers?: FretList;
  readonly bassStrings?: readonly number[];
}

/** A chord of a progression, as written, before a key makes a numeral into a chord. */
export interface ChordPlace {
  /** The chord with its modifiers. */
  readonly span: Span;
  /** The symbol alone. */
  readonly symbolSpan: Span;
  /** Spans of its modifiers: at, as, over, in, with, held, pushed. */
  readonly modifiers: Readonly<Record<string, Span>>;
}

export interface BarPlace {
  /** From the first to the last word of the bar. */
  readonly span: Span;
  readonly chords: readonly ChordPlace[];
  /** Where its melody and its tab are written, if it has any. */
  readonly melody?: WrittenPlace;
  readonly tab?: WrittenPlace;
}

export interface ProgressionDefinition extends Definition {
  readonly kind: 'progression';
  readonly bars: readonly BarPlace[];
}

export interface Section extends Definition {
  readonly kind: 'section';
  readonly title?: string;
  readonly plan: SectionPlan;
  /** Parallel to `plan.bars`. */
  readonly places: readonly BarPlace[];
  /** The name of the contour, cell or shape at the place where the section calls for it, parallel to the plan's lists. */
  readonly ruleUses: readonly NamePlace[];
  readonly cellUses: readonly NamePlace[];
  readonly contourUses: readonly NamePlace[];
}

/** A name used somewhere: for going to its definition, and for telling what is unused. */
export interface NameUse extends NamePlace {
  readonly kind: PartKind;
  /** Undefined where nothing of that kind and name exists. */
  readonly definition?: Definition;
}

export interface Settings {
  readonly instrument: Instrument;
  readonly hand: 'small' | 'medium' | 'large';
  readonly key: Key;
  readonly meter: Meter;
  readonly tempo: Tempo;
  readonly swing?: Fraction;
  /** 1–5; undefined where the lesson does not say. */
  readonly level?: number;
}

export interface Lesson {
  readonly title?: string;
  readonly minutes?: number;
  readonly focus: readonly string[];
  readonly settings: Settings;
  /** Spans of the settings' statements that are there: key, meter, tempo, tuning, capo, hand, level, … */
  readonly settingSpans: Readonly<Record<string, Span>>;
  readonly shapes: readonly ShapeDefinition[];
  readonly grips: readonly GripDefinition[];
  readonly progressions: readonly ProgressionDefinition[];
  readonly cells: readonly CellDefinition[];
  readonly contours: readonly ContourDefinition[];
  readonly melodies: readonly WrittenDefinition[];
  readonly tabs: readonly WrittenDefinition[];
  readonly variants: readonly VariantDefinition[];
  readonly sections: readonly Section[];
  /** Indexes in `sections`, in the order played. */
  readonly form: readonly number[];
  readonly uses: readonly NameUse[];
  readonly claims: readonly Claim[];
  readonly passages: readonly Passage[];
  readonly practice: readonly PracticeStep[];
  readonly imports: readonly Import[];
  readonly needs: readonly PathUse[];
  readonly course?: Course;
  readonly library?: LibraryHead;
  /** All that could not be read or resolved, syntax first, with offsets of the text. */
  readonly problems: readonly Problem[];
  /** `; allow CODE` comments: the codes, and the lines (from 0) they speak of. */
  readonly allowed: readonly { readonly code: string; readonly line: number; readonly span: Span }[];
}
