/** The ways of holding a chord that a sequence chooses among: a voicing with one of its fingerings, and what it costs by itself. */
import type { FretList } from '../fretboard/frets.ts';
import type { Fingering, ShapeVerdict } from '../hand/fingering.ts';
import type { Grip } from '../hand/grip.ts';
import type { HeldShape } from '../hand/melody.ts';
import type { Held } from '../hand/search.ts';
import type { Voicing } from './score.ts';

/** States a chord at most: a prototype lost nothing by it. */
export const MOST_STATES = 48;
/** Fingerings of one voicing that may be worth their cost for what comes next. */
export const FINGERINGS_A_VOICING = 3;

export interface HandState {
  readonly frets: FretList;
  readonly verdict: ShapeVerdict;
  /** Undefined where no hand can hold the shape. */
  readonly fingering?: Fingering;
  /** Difficulty, preference and the melody above, in whole millionths. */
  readonly cost: number;
  readonly grip: Grip;
  readonly held: Held;
  /** The same for a melody to lie over; undefined where no hand can hold the shape. */
  readonly shape?: HeldShape;
  /** The lowest fret pressed, counted on the neck. */
  readonly position: number;
}

/** What a sequence needs to know of one chord. */
export interface Choices {
  /** The same for the same choices; names the tables kept between two of them. */
  readonly id: number;
  /** At most `MOST_STATES`, the lower position first, then the lexically smaller fret list, then the cheaper fingering. */
  readonly states: readonly HandState[];
}

/** Where a chord's ways of being held come from. */
export interface Source extends Choices {
  /** Whether there is a way at all: cheaper to ask than for the states. */
  readonly isPlayable: boolean;
  /** As many with a dozen fingerings of each voicing, the cheapest first: what a melody looks through for one that has room. */
  readonly roomyStates: readonly HandState[];
  voicingOf(state: HandState): Voicing;
}

type Tied = Pick<HandState, 'position' | 'frets' | 'fingering'>;

/** Ties between equal sums fall to what comes first in this order. */
export function inTieOrder(one: Tied, other: Tied): number {
  return (
    one.position - other.position ||
    compareFrets(one.frets, other.frets) ||
    (one.fingering?.cost ?? 0) - (other.fingering?.cost ?? 0) ||
    compareFrets(one.fingering?.fingers ?? [], other.fingering?.fingers ?? [])
  );
}

/** From the lowest string on; a silent string comes before an open one. */
export function compareFrets(one: FretList, other: FretList): number {
  for (let index = 0; index < one.length; index++) {
    const difference = (one[index] ?? -1) - (other[index] ?? -1);
    if (difference !== 0) return difference;
  }
  return 0;
}
