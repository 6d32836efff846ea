/** What is played: voicings, fingers and events in time. Knows no text, so that equal plans share one score. */
import type { Chord } from '../theory/chord.ts';
import type { Degree } from '../theory/interval.ts';
import type { Pitch } from '../theory/note.ts';
import type { FretList } from '../fretboard/frets.ts';
import type { Fingering, Refusal, ShapeVerdict, WidestPair } from '../hand/fingering.ts';
import type { Hindrance, MelodyStep } from '../hand/melody.ts';
import type { Zone } from '../hand/model.ts';
import type { TimedMove } from '../hand/change.ts';
import type { PluckingFinger } from '../lesson/lesson.ts';
import type { Syllable, Technique } from '../lesson/written.ts';
import type { Fraction } from '../util/fraction.ts';

/**
 * What one sounding string is to the chord. `doubling`: a chord tone that a lower string sounds already, or, for a string that
 * rings open beside the shape, any other.
 */
export type Role = 'root' | 'chord tone' | 'doubling' | 'colour';

export interface SoundingString {
  /** Player's number, 1 the highest. */
  readonly string: number;
  readonly fret: number;
  /** What sounds, capo and tuning counted. */
  readonly midi: number;
  readonly pitch: Pitch;
  /** The same as the symbols name it: seen from the capo, or as in the tuning that this one lies below. */
  readonly shapePitch: Pitch;
  readonly degree: Degree;
  readonly role: Role;
  /** 1–4; 0 for an open string. */
  readonly finger: number;
}

/** Two strings that rub: a semitone in one octave's neighbourhood, or a minor ninth above a chord tone. */
export interface Clash {
  readonly open: SoundingString;
  readonly against: SoundingString;
}

export interface Voicing {
  /** From the lowest string as written to string 1. */
  readonly frets: FretList;
  readonly verdict: ShapeVerdict;
  /** The fingering shown: least cost, or the grip's own. Undefined where no hand can hold the shape. */
  readonly fingering?: Fingering;
  /** From string 1's far side: lowest string as written first; silent strings left out. */
  readonly strings: readonly SoundingString[];
  /** What it sounds, named from the intended root, the strictest name first. Capo counted: sounding pitch. */
  readonly sounding: readonly string[];
  /** The same as seen from the capo, in the names of the shapes; equal to `sounding` without a capo. */
  readonly shapeNames: readonly string[];
  /** Colours that the open strings (or free tones) add, as degrees: `11`, `b7`. */
  readonly colours: readonly Degree[];
  readonly clashes: readonly Clash[];
}

/** Why no voicing satisfies a rule: the line of the rule that excludes the last candidates. */
export interface NoVoicing {
  /** The form of the rule's line: strings, tones, spacing, bass, top, open, avoid, colour, frets, reach, barre — or `hand`, `at`. */
  readonly line: string;
  /** How many candidates were left before that line spoke. */
  readonly before: number;
  /** A voicing that every line but this one allows, where there is one. */
  readonly nearest?: FretList;
}

/** A melody note that the hand cannot have while it holds the chord. */
export interface MissedNote {
  /** Index in the contour's notes. */
  readonly note: number;
  readonly string: number;
  readonly fret: number;
  readonly why: Hindrance;
  /** The nearest that can be played: the whole contour from another tone, the pitch on another string, another fret of its own. */
  readonly instead?:
    | { readonly kind: 'start'; readonly tone: string }
    | { readonly kind: 'string' | 'fret'; readonly string: number; readonly fret: number };
}

/** A melody note that is a stretch while the chord is held. */
export interface MelodyReach {
  readonly zone: Zone;
  /** Index in the contour's notes. */
  readonly note: number;
  readonly string: number;
  readonly fret: number;
  /** The two fingers; undefined where they are not far apart but the grip is awkward. */
  readonly pair?: WidestPair;
}

export interface ContourOutcome {
  /** Index in the contour's `starts` of the one taken; -1 where none can be reached. */
  readonly start: number;
  /** The string it is played on. */
  readonly string: number;
  /** Sounded frets, in order; what is held or rests is left out. */
  readonly frets: readonly number[];
  /** Notes that found no place in the chord's time. */
  readonly cut: number;
  /** Index of the first note (of the contour's notes) that lies nowhere on the string; undefined where all do. */
  readonly unreachable?: number;
  /** The note for which the hand must reach farthest while it holds the chord; undefined where all are comfortable. */
  readonly reach?: MelodyReach;
  /** The first note that lies on the string and that the hand cannot have while it holds the chord. */
  readonly missed?: MissedNote;
}

/** How the fretting hand comes to a chord from the shape before, for the player that the lesson's level speaks to. */
export type Change = TimedMove;

export interface ChordScore {
  readonly written: string;
  readonly chord?: Chord;
  readonly silent: boolean;
  /** In whole notes from the start of the bar. */
  readonly start: Fraction;
  readonly length: Fraction;
  readonly held: boolean;
  readonly voicing?: Voicing;
  /** How many voicings satisfy the rule and the hand; undefined for a grip or exact frets. */
  readonly choices?: number;
  /** True where a limit of the search was reached: there may be more. */
  readonly searchCut?: boolean;
  readonly none?: NoVoicing;
  readonly contour?: ContourOutcome;
  /** Undefined for the first shape of a section. */
  readonly change?: Change;
}

/** `written`: a note of a tab. */
export type Voice = 'picking' | 'stroke' | 'melody' | 'written';

export interface NoteEvent {
  readonly string: number;
  readonly fret: number;
  /** What sounds, capo and tuning counted. */
  readonly midi: number;
  readonly pitch: Pitch;
  /** The same as the symbols name it: what claims speak of. */
  readonly shapePitch: Pitch;
  /** Over the chord that sounds at its start. */
  readonly degree?: Degree;
  /** In whole notes from the start of the bar. */
  readonly start: Fraction;
  /** As notated. */
  readonly length: Fraction;
  /** How long the string goes on sounding; at least `length` unless it is stopped. */
  readonly ringing: Fraction;
  readonly voice: Voice;
  /** Fretting finger: 1–4, 0 open; undefined for a melody note that the hand cannot have. */
  readonly finger?: number;
  /** How the hand has a melody note while it holds the chord, with what that costs; undefined for all else. */
  readonly how?: MelodyStep;
  readonly pluck?: PluckingFinger;
  /** The stroke that sounds it, with several strings at one start. */
  readonly stroke?: 'down' | 'up' | 'roll' | 'mute';
  readonly accent: boolean;
  readonly triplet: boolean;
  /** What is done to it besides sounding it; undefined for a plain plucked note. */
  readonly technique?: Technique;
  /** What is sung to it. */
  readonly syllable?: Syllable;
  /** Index of the chord in its bar. */
  readonly chord: number;
  /** Sounds the chord after that one, an eighth early: the next of the bar, or the first of the next bar. */
  readonly pushed?: true;
}

/** A pluck of the cell that finds no sounding string. */
export interface SilentPluck {
  /** Index of the cell in the plan, and of the note in the cell. */
  readonly cell: number;
  readonly note: number;
  /** The string aimed at; undefined where `bass`, `alt` or `top` found none. */
  readonly string?: number;
  /** Index of the chord in its bar. */
  readonly chord: number;
}

/** What is hard for the fretting hand in a bar that is written out. */
export type WrittenTrouble = {
  /** Index of the note in the written bar; of several at once the first. */
  readonly note: number;
  readonly voice: 'melody' | 'written';
} & (
  | { readonly kind: 'not-playable'; readonly whyNot?: Refusal }
  | { readonly kind: 'reach'; readonly zone: Zone; readonly pair?: WidestPair }
  | { readonly kind: 'change'; readonly change: Change }
  /** The hand cannot have it while it holds the chord, which is that of the bar with this index. */
  | { readonly kind: 'missed'; readonly chord: number; readonly missed: MissedNote }
);

/** A place in the bar where the rhythm has nothing new, for drawing: a rest. */
export interface Rest {
  readonly start: Fraction;
  readonly length: Fraction;
}

export interface BarScore {
  readonly number: number;
  readonly length: Fraction;
  readonly broken: boolean;
  readonly chords: readonly ChordScore[];
  /** By start, then from the lowest string up. */
  readonly events: readonly NoteEvent[];
  readonly rests: readonly Rest[];
  /** Of its tab, and of a melody that lies over no shape. */
  readonly troubles?: readonly WrittenTrouble[];
  /** Notes of the bar before that are held into this one: drawn tied. */
  readonly tied?: readonly { readonly string: number; readonly length: Fraction }[];
  readonly silentPlucks: readonly SilentPluck[];
  /** True where the cell's length and the bar's do not fit. */
  readonly cellMisfit: boolean;
}

export interface SectionScore {
  readonly bars: readonly BarScore[];
  /** 0–10: the mean of its voicings' difficulties, weighted by time. */
  readonly difficulty: number;
}

/** One for each section of the lesson, in the same order. */
export interface Score {
  readonly sections: readonly SectionScore[];
}
