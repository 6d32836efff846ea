/** What it costs a fretting hand to go from one shape to the next: the shift along the neck, the fingers' own ways, the time there is. */
import type { FretList } from '../fretboard/frets.ts';
import { FINGERS, HAND_FACTOR, INDEX, MILLION, type HandSize } from '../hand/model.ts';
import { binaryLogarithm } from '../util/logarithm.ts';
import type { Neck } from './neck.ts';

/** All set by judgement; lengths in mm, times in seconds. */
export const MOVEMENT = {
  /** From one finger to the next in a hand at rest, on a medium hand. */
  fingerApart: 24,
  /** A shift along the neck below this is a lean of the hand. */
  lean: 12,
  lifted: 4,
  otherString: 6,
  fromTheAir: 25,
  base: 0.06,
  shift: 0.07,
  shiftUnit: 20,
  way: 0.05,
  wayUnit: 8,
  newBarre: 0.05,
  barreStrings: 3,
  guide: 0.5,
  /** What a change that takes all the time there is costs beside difficulty, and the most that any change costs. */
  weight: 4,
  most: 8,
} as const;

export type Player = 'beginner' | 'intermediate' | 'advanced';

/** How many times an advanced player's time each needs, and for each finger beyond the first how much more, in seconds. */
const PLAYERS: Readonly<Record<Player, { readonly times: number; readonly aFinger: number }>> = {
  advanced: { times: 1, aFinger: 0.012 },
  intermediate: { times: 1.6, aFinger: 0.05 },
  beginner: { times: 3, aFinger: 0.15 },
};

/** `level` of a lesson, 1 to 5; a lesson that does not say it is for somebody in the middle. */
export const playerOf = (level: number | undefined): Player =>
  level === undefined || level === 3 ? 'intermediate' : level < 3 ? 'beginner' : 'advanced';

/** Where the fingers of a hand lie. By finger number; index 0 is never used. */
export interface Posture {
  /** In mm from the nut; -1 for a finger in the air. */
  readonly places: readonly number[];
  /** Indices into the fret list: the strings that a finger holds. */
  readonly first: readonly number[];
  readonly last: readonly number[];
  /** Where the index would lie, were the hand at rest; -1 with no finger down. */
  readonly hand: number;
}

/** `fingers` as in a fingering: 1 to 4, 0 for open strings, null for silent ones. */
export function postureOf(neck: Neck, frets: FretList, fingers: FretList, size: HandSize): Posture {
  const places = [-1, -1, -1, -1, -1];
  const first = [-1, -1, -1, -1, -1];
  const last = [-1, -1, -1, -1, -1];
  fingers.forEach((finger, index) => {
    if (!finger || finger > FINGERS || !frets[index]) return;
    places[finger] = neck.places[frets[index] + neck.capo[index]] ?? -1;
    if (first[finger] < 0) first[finger] = index;
    last[finger] = index;
  });
  let sum = 0;
  let used = 0;
  for (let finger = INDEX; finger <= FINGERS; finger++) {
    if (places[finger] < 0) continue;
    sum += places[finger] - (finger - 1) * MOVEMENT.fingerApart * HAND_FACTOR[size];
    used++;
  }
  return { places, first, last, hand: used === 0 ? -1 : sum / used };
}

/** The time that a change needs, in whole millionths of a second; 0 where every finger of the new shape lies there already. */
export function movementNeed(from: Posture, to: Posture, player: Player): number {
  const travel = from.hand < 0 || to.hand < 0 ? 0 : to.hand - from.hand;
  let moved = 0;
  let guides = 0;
  let farthest = 0;
  let newBarre = false;
  for (let finger = INDEX; finger <= FINGERS; finger++) {
    const place = to.places[finger];
    if (place < 0) continue;
    const before = from.places[finger];
    const sameString = before >= 0 && from.first[finger] === to.first[finger] && from.last[finger] === to.last[finger];
    if (sameString && before === place) continue;
    moved++;
    if (sameString) guides++;
    const way =
      before < 0
        ? MOVEMENT.fromTheAir
        : Math.abs(place - before - travel) + MOVEMENT.lifted + (sameString ? 0 : MOVEMENT.otherString);
    if (way > farthest) farthest = way;
    if (to.last[finger] - to.first[finger] >= MOVEMENT.barreStrings - 1) newBarre = true;
  }
  if (moved === 0) return 0;
  const shift = Math.abs(travel) < MOVEMENT.lean ? 0 : Math.abs(travel);
  const seconds =
    MOVEMENT.base +
    MOVEMENT.shift * binaryLogarithm(1 + shift / MOVEMENT.shiftUnit) +
    MOVEMENT.way * binaryLogarithm(1 + farthest / MOVEMENT.wayUnit) +
    (newBarre ? MOVEMENT.newBarre : 0);
  const { times, aFinger } = PLAYERS[player];
  const more = aFinger * (moved - 1 - MOVEMENT.guide * guides);
  return Math.max(0, Math.round((times * seconds + more) * MILLION));
}

/** The cost beside difficulties, in whole millionths, of a change that needs so much of the time there is (both in millionths of a second). */
export function movementCost(need: number, time: number): number {
  if (need === 0) return 0;
  const most = MOVEMENT.most * MILLION;
  if (time <= 0) return most;
  return Math.min(most, Math.round((MOVEMENT.weight * MILLION * need) / time));
}
