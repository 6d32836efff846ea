/** How the hand gets from one fingered shape to the next: how far, with which fingers, and how long a player needs for it. */
import { binaryLogarithm } from '../util/logarithm.ts';
import { CHANGE_COST, FINGERS, INDEX, MILLION, MOST_CHANGE_COST, MOVEMENT, PACES, PLAYERS } from './model.ts';
import type { Pace, Player } from './model.ts';
import { spanOfRun } from './search.ts';
import type { Hand, Held, Run } from './search.ts';

export interface Move {
  /** The least time, in whole millionths of a second; 0 where no finger is set anew. */
  readonly need: number;
  /** How far the hand as a whole goes along the neck, in mm, upwards positive; 0 where it only leans. */
  readonly shift: number;
  /** Fingers that are set anew, guides among them, from the index up. */
  readonly moved: readonly number[];
  /** Of those, the ones that keep a string and so lead the hand. */
  readonly guides: readonly number[];
  /** Fingers that stay where they are. */
  readonly stays: readonly number[];
}

/** A move in numbers, with the fingers as sets of bits. */
export interface Measured {
  /** How far the hand goes, be it so little that it only leans. */
  readonly travel: number;
  /** The longest way that a finger has of its own, in mm. */
  readonly way: number;
  readonly moved: number;
  readonly guides: number;
  readonly stays: number;
  readonly newBarre: boolean;
}

/** Both shapes must be held on the same instrument. */
export function moveBetween(from: Held, to: Held, player: Player, hand: Hand): Move {
  const { travel, moved, guides, stays } = measureMove(from, to, hand);
  return {
    need: needFor(from, to, player, hand),
    shift: Math.abs(travel) < MOVEMENT.leastShift ? 0 : travel,
    moved: fingersIn(moved),
    guides: fingersIn(guides),
    stays: fingersIn(stays),
  };
}

/** The same `need` alone, for searches that compare many moves: whole millionths of a second. */
export function needFor(from: Held, to: Held, player: Player, hand: Hand): number {
  const { travel, way, moved, guides, newBarre } = measureMove(from, to, hand);
  return moved === 0 ? 0 : timeFor(travel, way, newBarre, count(moved), count(guides), player);
}

/** The formula itself: a hand that travels so far, a finger's own way, and how many fingers are set, in whole millionths of a second. */
export function timeFor(
  travel: number,
  way: number,
  newBarre: boolean,
  moved: number,
  guides: number,
  player: Player,
): number {
  let seconds = MOVEMENT.start + MOVEMENT.perWay * binaryLogarithm(1 + way / MOVEMENT.wayUnit);
  const shift = Math.abs(travel);
  if (shift >= MOVEMENT.leastShift) seconds += MOVEMENT.perShift * binaryLogarithm(1 + shift / MOVEMENT.shiftUnit);
  if (newBarre) seconds += MOVEMENT.newBarre;
  const { times, finger } = PLAYERS[player];
  return Math.round((times * seconds + finger * (moved - 1 - MOVEMENT.guide * guides)) * MILLION);
}

/** How a change that needs `need` goes in the time `available`, both in the same unit. */
export function paceOf(need: number, available: number): Pace {
  if (need <= 0) return 'easy';
  for (const [pace, part] of PACES) if (need <= part * available) return pace;
  return 'not playable';
}

/** What the change costs beside the difficulty of shapes, in whole millionths; `need` and `available` in the same unit. */
export function movementCost(need: number, available: number): number {
  if (need <= 0) return 0;
  const cost = available > 0 ? (CHANGE_COST * need) / available : MOST_CHANGE_COST;
  return Math.round(Math.min(MOST_CHANGE_COST, cost) * MILLION);
}

export function measureMove(from: Held, to: Held, hand: Hand): Measured {
  const travel = travelBetween(from, to, hand);
  let way = 0;
  let moved = 0;
  let guides = 0;
  let stays = 0;
  let newBarre = false;
  for (let finger = INDEX; finger <= FINGERS; finger++) {
    const goal = to[finger];
    if (!goal) continue;
    const start = from[finger];
    if (start && staysPut(start, goal)) {
      stays |= 1 << finger;
      continue;
    }
    moved |= 1 << finger;
    way = Math.max(way, ownWay(start, goal, travel));
    if (start && start.level.fret !== goal.level.fret && sharesString(start, goal)) guides |= 1 << finger;
    if (isLongBarre(goal) && !(start && isLongBarre(start))) newBarre = true;
  }
  return { travel, way, moved, guides, stays, newBarre };
}

/** How far the hand goes; one that holds nothing before or after is taken to wait where it is wanted. */
function travelBetween(from: Held, to: Held, hand: Hand): number {
  const start = positionOf(from, hand);
  const goal = positionOf(to, hand);
  return start === undefined || goal === undefined ? 0 : goal - start;
}

/** Where the index would lie if every finger lay at rest, in mm from the nut: the mean over the fingers that press. */
function positionOf(held: Held, hand: Hand): number | undefined {
  let sum = 0;
  let used = 0;
  for (let finger = INDEX; finger <= FINGERS; finger++) {
    const run = held[finger];
    if (!run) continue;
    sum += run.level.place - (finger - INDEX) * MOVEMENT.fingerSpacing * hand.factor;
    used++;
  }
  return used === 0 ? undefined : sum / used;
}

/** A finger that held at least these strings at this fret need not do anything. */
const staysPut = (start: Run, goal: Run): boolean =>
  start.level.fret === goal.level.fret && start.first <= goal.first && start.last >= goal.last;

const sharesString = (one: Run, other: Run): boolean => one.first <= other.last && other.first <= one.last;

export const isLongBarre = (run: Run): boolean => spanOfRun(run) >= MOVEMENT.newBarreStrings;

/** A finger's way, in mm, beside that of the hand which carries it. */
export function ownWay(start: Run | undefined, goal: Run, travel: number): number {
  if (!start) return MOVEMENT.fromTheAir;
  const along = Math.abs(goal.level.place - start.level.place - travel);
  return along + MOVEMENT.lift + (sharesString(start, goal) ? 0 : MOVEMENT.otherString);
}

function fingersIn(bits: number): number[] {
  const fingers: number[] = [];
  for (let finger = INDEX; finger <= FINGERS; finger++) if (bits & (1 << finger)) fingers.push(finger);
  return fingers;
}

function count(bits: number): number {
  let number = 0;
  for (let left = bits; left !== 0; left &= left - 1) number++;
  return number;
}
