/** What the author claims of the lesson: sentences that must be true. Here they are read; what is true is found elsewhere. */
import type { Chord } from '../theory/chord.ts';
import type { Key } from '../theory/key.ts';
import type { NoteName, Pitch } from '../theory/note.ts';
import type { Span } from '../util/span.ts';
import type { Tone } from './lesson.ts';
import type { Scope, Source } from './reader.ts';

/** A note with or without its octave: `B3`, `B`. */
export interface ClaimedNote {
  readonly name: NoteName;
  readonly pitch?: Pitch;
  readonly text: string;
}

/** A place that a claim speaks of; chords are counted from 1, the bar 0 is the pick-up. */
interface BarClaim {
  readonly bar: number;
  /** 1 where the claim names none. */
  readonly chord: number;
}

export type Claimed =
  | { readonly kind: 'playable'; readonly tempo: number }
  | { readonly kind: 'reach'; readonly most: number }
  | { readonly kind: 'no-barre' | 'same-contour' | 'thumb-alternates' }
  | { readonly kind: 'scale'; readonly key: Key }
  | { readonly kind: 'frets'; readonly lowest: number; readonly highest: number }
  | { readonly kind: 'common-tone'; readonly note: ClaimedNote }
  | { readonly kind: 'open'; readonly strings: readonly number[] }
  | {
      readonly kind: 'melody-starts';
      readonly tone: Tone;
      readonly except?: { readonly first: number; readonly last: number };
    }
  | { readonly kind: 'melody-notes'; readonly notes: readonly ClaimedNote[]; readonly bar: number }
  | ({ readonly kind: 'is'; readonly symbol: string; readonly claimed: Chord } & BarClaim)
  | ({ readonly kind: 'tones'; readonly tones: readonly Tone[] } & BarClaim)
  | ({ readonly kind: 'adds'; readonly string: number; readonly tone: Tone } & BarClaim);

export interface Claim {
  readonly says: Claimed;
  /** Index in the lesson's sections; undefined where the claim speaks of the whole lesson. */
  readonly section?: number;
  /** The claim without its keyword. */
  readonly span: Span;
  /** The words that a fix would put the truth in place of, by what they say: `tempo`, `chord`, `tones`, `tone`, `most`, … */
  readonly words: Readonly<Record<string, Span>>;
}

/** `claim …` statements in the order of the text; those that cannot be read give a problem. Sections are looked up in `scope`. */
export function readClaims(
  _sources: readonly Source[],
  _scope: Scope,
  _sections: readonly { readonly name: string }[],
): readonly Claim[] {
  return [];
}
