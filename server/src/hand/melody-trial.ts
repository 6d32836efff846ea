/** One try at a melody note: a shape with some fingers changed, heard string by string and judged by the rules of every grip. */
import { stringAtIndex } from '../fretboard/frets.ts';
import type { Instrument } from '../fretboard/instrument.ts';
import { costOf } from './cost.ts';
import { widerZone, zoneOfReach } from './difficulty.ts';
import type { Grip } from './grip.ts';
import { OPEN, SILENT } from './grip.ts';
import { EXTREME_COST, FINGERS, FIRST_POSITION, INDEX, MELODY, MILLION } from './model.ts';
import type { MelodyWay, Zone } from './model.ts';
import type { Hand, Held, Run } from './search.ts';
import { alongNeck, barreHolds, pairHolds, reachOf } from './search.ts';

/** A shape as it is held with one of its fingerings. */
export interface HeldShape {
  readonly instrument: Instrument;
  readonly grip: Grip;
  readonly hand: Hand;
  readonly held: Held;
  /** Notes looked for already, each as one number, and parallel to them how they are had. */
  readonly asked: number[];
  readonly outcomes: number[];
}

/** What a try must bring about. */
export interface Wanted {
  /** Of the note's string in the fret list, and the fret of the neck that it must sound, or `OPEN`. */
  readonly index: number;
  readonly sounding: number;
  /** As bits `1 << string` in the player's numbers. */
  readonly mustRing: number;
  readonly forgiven: number;
}

export interface Attempt {
  readonly held: Held;
  readonly way: MelodyWay;
  /** Before lost strings and wide reaches are counted, in whole millionths. */
  readonly cost: number;
  /** How many fingers were taken off for it. */
  readonly removed: number;
}

export interface Trial extends Attempt {
  /** What stops the note's string; 0 where it rings open. */
  readonly finger: number;
  /** The finger that it is hardest for that one to reach from; 0 where it lies at its fret already, or alone. */
  readonly other: number;
  readonly zone: Zone;
  /** As bits `1 << index`. */
  readonly lost: number;
  /** What the resulting fingering costs, in whole millionths. */
  readonly rank: number;
}

/**
 * Undefined where the note does not come out, a string that must ring does not, a hand cannot do it, or it costs more than `most`
 * (whole millionths).
 */
export function trialOf(shape: HeldShape, attempt: Attempt, wanted: Wanted, most: number): Trial | undefined {
  const { held, way, removed } = attempt;
  if (attempt.cost > most) return undefined;
  const finger = holderOf(held, wanted.index);
  if ((held[finger]?.level.fret ?? OPEN) !== wanted.sounding || !isInOrder(held)) return undefined;
  const lost = lostStrings(shape.grip, held, wanted);
  if (lost === undefined) return undefined;
  const withLost = attempt.cost + Math.round(MELODY.lostString * count(lost) * MILLION);
  if (withLost > most) return undefined;
  const { zone: reached, other } = reachFor(shape, held, finger);
  if (withLost + ZONE_COST[reached] > most) return undefined;
  const grip = gripAfter(shape.grip, held, wanted, lost);
  if (!isHeld(grip, shape.hand, held, wanted.forgiven)) return undefined;
  const rank = costOf(grip, shape.hand, held);
  const isAwkward = held[finger] !== shape.held[finger] && rank > EXTREME_COST * MILLION;
  const zone = isAwkward ? widerZone(reached, 'extreme') : reached;
  return { held, way, removed, finger, other, zone, lost, rank, cost: withLost + ZONE_COST[zone] };
}

/** In whole millionths. */
const ZONE_COST: Readonly<Record<Zone, number>> = {
  comfortable: 0,
  stretch: MELODY.inStretch * MILLION,
  extreme: MELODY.inExtreme * MILLION,
  unplayable: MELODY.inExtreme * MILLION,
};

/** The cheaper, then the one that leaves more fingers on, then the cheaper fingering, then the lower finger. */
export const isBetter = (one: Trial, other: Trial): boolean =>
  (one.cost - other.cost || one.removed - other.removed || one.rank - other.rank || one.finger - other.finger) < 0;

/** The finger that decides what the string sounds: of all that lie over it the one at the highest fret; 0 where it is free. */
export function holderOf(held: Held, index: number): number {
  let holder = 0;
  for (let finger = INDEX; finger <= FINGERS; finger++) {
    const run = held[finger];
    if (!run || run.first > index || run.last < index) continue;
    if (holder === 0 || run.level.fret > (held[holder] as Run).level.fret) holder = finger;
  }
  return holder;
}

const soundingOn = (held: Held, index: number): number => held[holderOf(held, index)]?.level.fret ?? OPEN;

/** Higher fingers never lie on lower frets, and no two lie across each other on one. */
function isInOrder(held: Held): boolean {
  for (let higher = INDEX + 1; higher <= FINGERS; higher++) {
    const run = held[higher];
    if (!run) continue;
    for (let lower = INDEX; lower < higher; lower++) {
      const other = held[lower];
      if (!other) continue;
      if (other.level.fret > run.level.fret) return false;
      if (other.level.fret === run.level.fret && other.first <= run.last && run.first <= other.last) return false;
    }
  }
  return true;
}

/** Strings of the shape that no longer sound what they should; undefined where one of them must ring. */
function lostStrings(grip: Grip, held: Held, { index, mustRing }: Wanted): number | undefined {
  let lost = 0;
  for (let string = 0; string < grip.pressed.length; string++) {
    const fret = grip.pressed[string];
    if (string === index || fret === SILENT || soundingOn(held, string) === fret) continue;
    if (mustRing & (1 << stringAtIndex(string, grip.pressed.length))) return undefined;
    lost |= 1 << string;
  }
  return lost;
}

/** The shape with the note in it and without what is lost: what the rules of a grip look at. */
function gripAfter({ frets, pressed, unfingered, levels }: Grip, held: Held, wanted: Wanted, lost: number): Grip {
  const after: number[] = [];
  let lastOpen = -1;
  for (let index = 0; index < pressed.length; index++) {
    const fret = index === wanted.index ? wanted.sounding : lost & (1 << index) ? SILENT : pressed[index];
    after.push(fret);
    if (fret === OPEN) lastOpen = index;
  }
  let top = 0;
  for (let finger = INDEX; finger <= FINGERS; finger++) top = Math.max(top, held[finger]?.level.fretFromNut ?? 0);
  const firstPosition = lastOpen >= 0 && top <= FIRST_POSITION;
  return { frets, pressed: after, unfingered, levels, lastOpen, firstPosition };
}

/** By the rules of every grip. A level knows what lay lower in the shape; a barre is asked about what lies lower now. */
function isHeld(grip: Grip, hand: Hand, held: Held, forgiven: number): boolean {
  for (let finger = INDEX; finger <= FINGERS; finger++) {
    const run = held[finger];
    if (!run) continue;
    if (run.first < run.last) {
      const lastLower = lastBelow(grip.pressed, run.level.fret);
      if (!barreHolds(grip, hand, run, finger, forgiven, lastLower)) return false;
    }
    for (let lower = INDEX; lower < finger; lower++) {
      const other = held[lower];
      if (other && !pairHolds(hand, other, run, lower, finger, forgiven)) return false;
    }
  }
  return true;
}

function lastBelow(pressed: readonly number[], fret: number): number {
  let last = pressed.length - 1;
  while (last >= 0 && (pressed[last] <= OPEN || pressed[last] >= fret)) last--;
  return last;
}

/** How far the finger that plays must reach, and from which other, the farthest in that zone; nothing where it lies at its fret anyhow. */
function reachFor(shape: HeldShape, held: Held, finger: number): { readonly zone: Zone; readonly other: number } {
  const run = held[finger];
  if (!run || shape.held[finger]?.level.fret === run.level.fret) return { zone: 'comfortable', other: 0 };
  let zone: Zone = 'comfortable';
  let farthest = 0;
  let most = 0;
  for (let other = INDEX; other <= FINGERS; other++) {
    const beside = held[other];
    if (!beside || other === finger) continue;
    const along = alongNeck(run, beside);
    const here = zoneOfReach(reachOf(shape.hand, Math.min(finger, other), Math.max(finger, other)), along);
    const wider = widerZone(zone, here);
    if (wider === zone && (here !== zone || along <= most)) continue;
    zone = wider;
    most = along;
    farthest = other;
  }
  return { zone, other: farthest };
}

function count(bits: number): number {
  let number = 0;
  for (let left = bits; left !== 0; left &= left - 1) number++;
  return number;
}
