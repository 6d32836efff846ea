/** A whole melody over a held shape: which fingering of the shape has room for it, how each note is had, and why one is not. */
import type { FretList } from '../fretboard/frets.ts';
import type { Instrument } from '../fretboard/instrument.ts';
import { midiAt, topFret } from '../fretboard/instrument.ts';
import type { Fingering, WidestPair } from './fingering.ts';
import {
  costOfOutcome,
  fingerOfOutcome,
  holdShape,
  isExtremeOutcome,
  isOnNeck,
  NOT_HAD,
  outcomeOf,
  wayOf,
} from './melody-note.ts';
import type { HeldShape, MelodyNote, MelodyStep } from './melody-note.ts';
import { MELODY, MILLION, MOST_MELODY_FINGERINGS } from './model.ts';
import type { HandSize } from './model.ts';
import { reachOf, RULE } from './search.ts';

export { heldShape, holdShape, wayOf } from './melody-note.ts';
export type { HeldShape, MelodyNote, MelodyStep } from './melody-note.ts';

/** A melody over one fingering. */
export interface HeldMelody {
  /** One for each note; undefined where the hand cannot have it. After each note the hand is back in the shape. */
  readonly steps: readonly (MelodyStep | undefined)[];
  readonly unreachable: number;
  /** Of the notes alone, in whole millionths. */
  readonly cost: number;
}

export interface PlayedMelody extends HeldMelody {
  /** Index of the fingering in the list that was given; -1 for an empty list. */
  readonly fingering: number;
}

/** How each note is had with this one fingering. */
export function melodyOver(shape: HeldShape, notes: readonly MelodyNote[]): HeldMelody {
  const steps: (MelodyStep | undefined)[] = [];
  let unreachable = 0;
  let cost = 0;
  for (const note of notes) {
    const step = wayOf(shape, note);
    steps.push(step);
    cost += step?.cost ?? MELODY.unreachable * MILLION;
    if (!step) unreachable++;
  }
  return { steps, unreachable, cost };
}

/** What a melody over one fingering comes to, without how each note is had. */
export interface MelodySum extends Pick<HeldMelody, 'unreachable' | 'cost'> {
  /** Whether some note is an extreme reach. */
  readonly isExtreme: boolean;
}

/** The same sums as of `melodyOver`, for a search that weighs many shapes and asks how the notes are had only for the one chosen. */
export function melodySum(shape: HeldShape, notes: readonly MelodyNote[]): MelodySum {
  let unreachable = 0;
  let cost = 0;
  let isExtreme = false;
  for (const note of notes) {
    const outcome = outcomeOf(shape, note);
    if (outcome === NOT_HAD) {
      unreachable++;
      cost += MELODY.unreachable * MILLION;
    } else {
      cost += costOfOutcome(outcome);
      isExtreme ||= isExtremeOutcome(outcome);
    }
  }
  return { unreachable, cost, isExtreme };
}

/** Whether the hand has every note, none of them with an extreme reach. */
export function isAtEase(shape: HeldShape, notes: readonly MelodyNote[]): boolean {
  for (const note of notes) {
    const outcome = outcomeOf(shape, note);
    if (outcome === NOT_HAD || isExtremeOutcome(outcome)) return false;
  }
  return true;
}

/** What stops the string of the note: 1 to 4, 0 for an open string; undefined where the hand cannot have it. */
export function fingerFor(shape: HeldShape, note: MelodyNote): number | undefined {
  const outcome = outcomeOf(shape, note);
  return outcome === NOT_HAD ? undefined : fingerOfOutcome(outcome);
}

/**
 * Tries the first fingerings of the list, which come cheapest first, with the whole melody. The one wins that leaves out fewest
 * notes, then the least sum of the fingering's difficulty and the notes, then the earlier. The frets must lie on the neck.
 */
export function playMelody(
  instrument: Instrument,
  frets: FretList,
  fingerings: readonly Fingering[],
  size: HandSize,
  notes: readonly MelodyNote[],
): PlayedMelody {
  let best: PlayedMelody | undefined;
  let least = Infinity;
  fingerings.slice(0, MOST_MELODY_FINGERINGS).forEach((fingering, at) => {
    const played = melodyOver(holdShape(instrument, frets, fingering, size), notes);
    const whole = played.cost + holdingCost(fingering, fingerings);
    if (best && (played.unreachable - best.unreachable || whole - least) >= 0) return;
    least = whole;
    best = { ...played, fingering: at };
  });
  return best ?? { steps: notes.map(() => undefined), unreachable: notes.length, cost: 0, fingering: -1 };
}

/**
 * What holding a shape with this of its fingerings costs, in whole millionths, on the scale of difficulties: how hard it is, and
 * how much less usual than the cheapest, which stands first in the list. Unusual fingers are worth only what they spare elsewhere.
 */
export const holdingCost = (fingering: Fingering, all: readonly Fingering[]): number =>
  fingering.effort + fingering.cost - (all[0] ?? fingering).cost;

/** Why a note cannot be had while the shape is held. */
export type Hindrance =
  /** The instrument lacks it. */
  | { readonly reason: 'off-the-neck' }
  /** Two fingers would lie further apart along the neck than this hand reaches. */
  | { readonly reason: 'too-far'; readonly pair: WidestPair; readonly limit: number }
  /** It can be had only if these strings, in the player's numbers, stop, and they must ring. */
  | { readonly reason: 'stops-strings'; readonly strings: readonly number[] }
  /** Every finger is needed where it lies, or would have to cross another. */
  | { readonly reason: 'no-finger' };

/** Asked only for a note that `wayOf` does not find. */
export function hindranceOf(shape: HeldShape, note: MelodyNote): Hindrance {
  if (!isOnNeck(shape, note)) return { reason: 'off-the-neck' };
  const far = wayOf(shape, note, RULE.reach | RULE.straight);
  if (far?.widest) {
    const [lower, higher] = far.widest.fingers;
    const limit = Math.round(reachOf(shape.hand, lower, higher).extreme * 10) / 10;
    return { reason: 'too-far', pair: far.widest, limit };
  }
  const stopping = wayOf(shape, { ...note, mustRing: 0 });
  const strings = stopping?.lost.filter((string) => note.mustRing & (1 << string)) ?? [];
  return strings.length > 0 ? { reason: 'stops-strings', strings } : { reason: 'no-finger' };
}

/** Something that the hand can play instead. */
export interface Choice {
  readonly string: number;
  readonly fret: number;
  readonly step: MelodyStep;
}

/** The same pitch on another string that need not ring: the cheapest, of two as cheap on the higher string. */
export function sameOnAnotherString(shape: HeldShape, note: MelodyNote): Choice | undefined {
  const { instrument, grip } = shape;
  const pitch = midiAt(instrument, note.string, note.fret);
  let best: Choice | undefined;
  for (let string = 1; string <= grip.pressed.length; string++) {
    if (string === note.string || note.mustRing & (1 << string)) continue;
    const fret = pitch - midiAt(instrument, string, 0);
    const step = wayOf(shape, { ...note, string, fret });
    if (step && (!best || step.cost < best.step.cost)) best = { string, fret, step };
  }
  return best;
}

/** The reachable fret nearest to the note on its own string, the lower of two as near. */
export function nearestOnString(shape: HeldShape, note: MelodyNote): Choice | undefined {
  const top = topFret(shape.instrument, note.string);
  for (let away = 1; away <= Math.max(note.fret, top - note.fret); away++) {
    for (const fret of [note.fret - away, note.fret + away]) {
      const step = wayOf(shape, { ...note, fret });
      if (step) return { string: note.string, fret, step };
    }
  }
  return undefined;
}
