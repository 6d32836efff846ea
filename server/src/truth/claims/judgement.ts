/** What can come of looking whether a claim holds, and what each kind of claim must know how to say. */
import type { Claimed, ClaimKind } from '../../lesson/claims.ts';
import type { Stage } from './stage.ts';

/** A bar, as counted in its section, or one of several chords of it. */
export interface ClaimedPlace {
  /** Index in the lesson's sections. */
  readonly section: number;
  readonly bar: number;
  /** From 1; only where the bar has several chords. */
  readonly chord?: number;
}

export interface Untrue {
  readonly holds: false;
  /** What is true instead, as half a sentence without a full stop, its bar named in it. */
  readonly truth: string;
  /** The first bar that breaks the claim; undefined where none does more than another. */
  readonly bar?: ClaimedPlace;
  /** Further bars that break it, in order; chords of one bar count as one. */
  readonly others: readonly ClaimedPlace[];
  /** What would be true in the place of the claim's `words`. */
  readonly repair?: Readonly<Record<string, string>>;
}

export interface Undecided {
  readonly holds?: undefined;
  /** Why, as half a sentence without a full stop. */
  readonly undecided: string;
  /** True where no mistake is to blame: the lesson has nothing that the claim could speak of. */
  readonly nothing?: true;
}

export type Judgement = { readonly holds: true } | Untrue | Undecided;

/** A sentence that is true, as it would be claimed, and a few words on it. */
export interface TrueClaim {
  /** Without `claim`. */
  readonly text: string;
  readonly detail: string;
  /** The section that it names. */
  readonly named?: string;
}

export type Said<Kind extends ClaimKind> = Extract<Claimed, { readonly kind: Kind }>;

/** One kind of claim. */
export interface Predicate<Says extends Claimed = Claimed> {
  judge(says: Says, stage: Stage): Judgement;
  /** Why a claim that holds is true: a sentence or two. */
  why(says: Says, stage: Stage): string;
  /** What could be claimed of this kind and is true. */
  truths(stage: Stage): readonly TrueClaim[];
  /** Whether its sentences begin with their section, as those about a chord do. */
  readonly leads?: true;
}
