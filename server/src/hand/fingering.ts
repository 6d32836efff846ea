/** Whether a hand can hold a shape, how far it must spread and how hard that is, with every fingering that will do. */
import type { FretList } from '../fretboard/frets.ts';
import type { Instrument } from '../fretboard/instrument.ts';
import { costOf } from './cost.ts';
import { effortOf, narrowerZone, spreadOf } from './difficulty.ts';
import type { Spread } from './difficulty.ts';
import type { Grip } from './grip.ts';
import { gripOf, placeOffNeck } from './grip.ts';
import { DIFFICULTY, FINGERS, INDEX, MILLION } from './model.ts';
import type { HandSize, Zone } from './model.ts';
import type { Refusal } from './refusal.ts';
import { offNeck, whyRefused } from './refusal.ts';
import type { Hand, Held, Run } from './search.ts';
import { alongNeck, HANDS, searchFingerings } from './search.ts';

export type { HandSize, Zone } from './model.ts';
export type { Refusal, RefusalReason } from './refusal.ts';

/** Two fingers on different frets, the lower finger first. */
export interface WidestPair {
  readonly fingers: readonly [number, number];
  /** As written, so counted from a capo where one lies. */
  readonly frets: readonly [number, number];
  /** Between the fingertips along the neck, to a tenth. */
  readonly millimetres: number;
}

export interface Fingering {
  /** In the order of the fret list: 1 to 4 index to little finger, 0 open, null silent. */
  readonly fingers: readonly (number | null)[];
  /** Ranks the fingerings of one shape, in whole millionths; says nothing beside another shape's. */
  readonly cost: number;
  readonly zone: Zone;
  /** 0 to 10, to a tenth, for showing. */
  readonly difficulty: number;
  /** The same before rounding, in whole millionths, for sums and comparisons. */
  readonly effort: number;
  /** The two fingers nearest their limit; absent where all fingers lie on one fret. */
  readonly widest?: WidestPair;
}

export interface ShapeVerdict {
  readonly playable: boolean;
  /** The least zone over all fingerings; `unplayable` where there is none. */
  readonly zone: Zone;
  /** The least difficulty over all fingerings, 0 to 10, to a tenth; 10 where there is none. */
  readonly difficulty: number;
  /** The same before rounding, in whole millionths. */
  readonly effort: number;
  /** All that will do, the cheapest, which is the one to show, first. Ties: fewer fingers, then the smaller finger list. */
  readonly fingerings: readonly Fingering[];
  /** Of the cheapest fingering in the verdict's zone. */
  readonly widest?: WidestPair;
  /** Why no hand of this size can hold it; absent where one can. */
  readonly whyNot?: Refusal;
  /** Steps that the search took, at most `MOST_FINGERING_STEPS`. */
  readonly steps: number;
}

/**
 * Judges a shape, given as written frets from the lowest string to the highest. Anything at all may be given: what is not on the
 * neck is refused with its reason. Open strings alone are playable, of difficulty 0.
 */
export function judgeShape(instrument: Instrument, frets: FretList, handSize: HandSize): ShapeVerdict {
  const off = placeOffNeck(instrument, frets);
  if (off !== undefined) return refused(() => offNeck(instrument, frets, off), 0);
  const grip = gripOf(instrument, frets);
  const hand = HANDS[handSize];
  const fingerings: Fingering[] = [];
  const steps =
    grip.levels.length > FINGERS
      ? 0
      : searchFingerings(grip, hand, 0, (held) => fingerings.push(fingeringOf(grip, hand, held)));
  if (fingerings.length === 0) return refused(() => whyRefused(grip, hand), steps);
  fingerings.sort(inOrder);
  let { zone, effort } = fingerings[0];
  for (const each of fingerings) {
    zone = narrowerZone(zone, each.zone);
    effort = Math.min(effort, each.effort);
  }
  const widest = fingerings.find((each) => each.zone === zone)?.widest;
  return { playable: true, zone, difficulty: inTenths(effort), effort, fingerings, widest, steps };
}

/** The reason is worked out when it is asked for: a search for voicings meets far more refusals than anybody reads. */
function refused(reason: () => Refusal, steps: number): ShapeVerdict {
  let whyNot: Refusal | undefined;
  return {
    playable: false,
    zone: 'unplayable',
    difficulty: DIFFICULTY.most,
    effort: DIFFICULTY.most * MILLION,
    fingerings: [],
    get whyNot() {
      return (whyNot ??= reason());
    },
    steps,
  };
}

function fingeringOf(grip: Grip, hand: Hand, held: Held): Fingering {
  const fingers = grip.unfingered.slice();
  for (let finger = INDEX; finger <= FINGERS; finger++) {
    const run = held[finger];
    if (!run) continue;
    const { fret } = run.level;
    for (let string = run.first; string <= run.last; string++) {
      if (grip.pressed[string] === fret) fingers[string] = finger;
    }
  }
  const cost = costOf(grip, hand, held);
  const spread = spreadOf(hand, held, cost);
  const { zone } = spread;
  const effort = effortOf(grip, hand, held, zone);
  const widest = spread.lower > 0 ? widestOf(grip, held, spread) : undefined;
  return { fingers, cost, zone, difficulty: inTenths(effort), effort, widest };
}

const inTenths = (effort: number): number => Math.round(effort / (MILLION / 10)) / 10;

function widestOf(grip: Grip, held: Held, spread: Spread): WidestPair {
  const lower = held[spread.lower] as Run;
  const higher = held[spread.higher] as Run;
  return {
    fingers: [spread.lower, spread.higher],
    frets: [grip.frets[lower.first] ?? 0, grip.frets[higher.first] ?? 0],
    millimetres: Math.round(alongNeck(lower, higher) * 10) / 10,
  };
}

function inOrder(one: Fingering, other: Fingering): number {
  if (one.cost !== other.cost) return one.cost - other.cost;
  const used = fingersUsed(one) - fingersUsed(other);
  if (used !== 0) return used;
  for (let string = 0; string < one.fingers.length; string++) {
    const difference = (one.fingers[string] ?? 0) - (other.fingers[string] ?? 0);
    if (difference !== 0) return difference;
  }
  return 0;
}

const fingersUsed = (fingering: Fingering): number => new Set(fingering.fingers.filter((finger) => finger)).size;
