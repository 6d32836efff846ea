/** All ways in which four fingers can hold a grip: each fret's strings cut into runs, a finger to each run, checked as it grows. */
import type { Grip, Level } from './grip.ts';
import { OPEN, SILENT } from './grip.ts';
import {
  BARRE_BESIDE_LOWER,
  BARRE_LENGTH,
  BARRE_SPACING,
  FINGERS,
  HAND_FACTOR,
  INDEX,
  INDEX_BARRE_BESIDE_OPEN,
  MOST_FINGERING_STEPS,
  OTHER_BARRE_BESIDE_OPEN,
  REACH,
  SECOND_BARRE_ON_FRET,
  STRAIGHT_FACTOR,
} from './model.ts';
import type { HandSize, Reach } from './model.ts';

/** The strings that one finger presses at one fret, from the first to the last, and what it lies across between them. */
export interface Run {
  readonly level: Level;
  /** Indices into the fret list, `first` on the bass side. */
  readonly first: number;
  readonly last: number;
}

/** What each finger holds, by its number; index 0 is never used. */
export type Held = readonly (Run | undefined)[];

/** A rule that a fingering may break; each is one bit, so that a search can be told to forgive some. */
export const RULE = {
  reach: 1,
  straight: 2,
  barreLength: 4,
  openBesideBarre: 8,
  lowerBesideBarre: 16,
  secondBarre: 32,
  openInBarre: 64,
  lowerInBarre: 128,
} as const;

/** Reach and barre lengths of one size of hand, in mm. */
export interface Hand {
  /** Times a medium hand. */
  readonly factor: number;
  /** By `lower finger * 5 + higher finger`. */
  readonly reach: readonly Reach[];
  readonly barreLength: readonly number[];
}

export const reachOf = (hand: Hand, lower: number, higher: number): Reach => hand.reach[lower * 5 + higher];

export const HANDS: Readonly<Record<HandSize, Hand>> = {
  small: handOf(HAND_FACTOR.small),
  medium: handOf(HAND_FACTOR.medium),
  large: handOf(HAND_FACTOR.large),
};

function handOf(factor: number): Hand {
  const reach: Reach[] = [];
  for (const [pair, { comfortable, stretch, extreme }] of Object.entries(REACH)) {
    const at = Number(pair[0]) * 5 + Number(pair[2]);
    reach[at] = { comfortable: comfortable * factor, stretch: stretch * factor, extreme: extreme * factor };
  }
  return { factor, reach, barreLength: BARRE_LENGTH.map((length) => length * factor) };
}

/** The strings that a run lies across, from its first to its last. */
export const spanOfRun = (run: Run): number => run.last - run.first + 1;

/** How far two fingers lie apart along the neck, in mm. */
export const alongNeck = (one: Run, other: Run): number => Math.abs(one.level.place - other.level.place);

/**
 * Calls `found` with every fingering that breaks no rule but those in `forgiven`; the list it gets is used again after the call.
 * Returns the steps taken, at most `MOST_FINGERING_STEPS`: after them the rest is not looked at.
 */
export function searchFingerings(grip: Grip, hand: Hand, forgiven: number, found: (held: Held) => void): number {
  const { levels } = grip;
  const held: (Run | undefined)[] = [undefined, undefined, undefined, undefined, undefined];
  let steps = 0;

  const placeFrom = (levelAt: number, stringAt: number, floor: number, free: number): void => {
    if (levelAt === levels.length) {
      found(held);
      return;
    }
    const level = levels[levelAt];
    const later = levels.length - 1 - levelAt;
    const first = level.strings[stringAt];
    for (let end = stringAt; end < level.strings.length; end++) {
      const last = level.strings[end];
      if (end > stringAt && !runReaches(grip, level, level.strings[end - 1], last, forgiven)) return;
      const whole = end === level.strings.length - 1;
      // The run itself, at least one more for the rest of this fret, and one for each higher fret must find fingers.
      if (1 + (whole ? 0 : 1) + later > free) continue;
      const run: Run = { level, first, last };
      for (let finger = floor + 1; finger <= FINGERS; finger++) {
        if (held[finger]) continue;
        if (steps >= MOST_FINGERING_STEPS) return;
        steps++;
        if (!barreHolds(grip, hand, run, finger, forgiven)) continue;
        held[finger] = run;
        if (pairsHold(hand, held, finger, forgiven)) {
          if (whole) placeFrom(levelAt + 1, 0, highestHeld(held), FINGERS - highestHeld(held));
          else placeFrom(levelAt, end + 1, floor, free - 1);
        }
        held[finger] = undefined;
      }
    }
  };

  placeFrom(0, 0, 0, FINGERS);
  return steps;
}

function highestHeld(held: Held): number {
  for (let finger = FINGERS; finger > 0; finger--) if (held[finger]) return finger;
  return 0;
}

/** Whether one finger may lie from a pressed string to the next one of the same fret: what is between them must not have to sound lower. */
export function runReaches(grip: Grip, level: Level, from: number, to: number, forgiven: number): boolean {
  for (let string = from + 1; string < to; string++) {
    const fret = grip.pressed[string];
    if (fret === SILENT || fret > level.fret) continue;
    if (!(forgiven & (fret === OPEN ? RULE.openInBarre : RULE.lowerInBarre))) return false;
  }
  return true;
}

/** What a finger lying flat over several strings may not do. `lastLower` is the last string that is held at a lower fret. */
export function barreHolds(
  grip: Grip,
  hand: Hand,
  run: Run,
  finger: number,
  forgiven: number,
  lastLower = run.level.lastLower,
): boolean {
  if (run.first === run.last) return true;
  if (barreLengthOf(run) > hand.barreLength[finger] && !(forgiven & RULE.barreLength)) return false;
  if (stopsOpenBeside(grip, run, finger) && !(forgiven & RULE.openBesideBarre)) return false;
  return !stopsLowerBeside(run, lastLower) || (forgiven & RULE.lowerBesideBarre) !== 0;
}

/** From the first string's middle to the last one's, in mm. */
export const barreLengthOf = (run: Run): number => (run.last - run.first) * BARRE_SPACING;

/** A barre so long that the finger cannot stand up at its end, where a string on its treble side must ring open. */
export const stopsOpenBeside = (grip: Grip, run: Run, finger: number): boolean =>
  grip.lastOpen > run.last && spanOfRun(run) > (finger === INDEX ? INDEX_BARRE_BESIDE_OPEN : OTHER_BARRE_BESIDE_OPEN);

/** The same where a string on its treble side is held at a lower fret. */
export const stopsLowerBeside = (run: Run, lastLower = run.level.lastLower): boolean =>
  lastLower > run.last && spanOfRun(run) > BARRE_BESIDE_LOWER;

/** Whether the finger just placed can lie where it does beside each of the others. */
export function pairsHold(hand: Hand, held: Held, placed: number, forgiven: number): boolean {
  const run = held[placed] as Run;
  for (let finger = INDEX; finger <= FINGERS; finger++) {
    const other = held[finger];
    if (!other || finger === placed) continue;
    const holds =
      finger < placed
        ? pairHolds(hand, other, run, finger, placed, forgiven)
        : pairHolds(hand, run, other, placed, finger, forgiven);
    if (!holds) return false;
  }
  return true;
}

/** Whether two fingers can lie so beside each other, the lower one first. */
export function pairHolds(
  hand: Hand,
  lower: Run,
  higher: Run,
  lowerFinger: number,
  higherFinger: number,
  forgiven: number,
): boolean {
  const { extreme } = reachOf(hand, lowerFinger, higherFinger);
  if (alongNeck(lower, higher) > extreme) {
    if (!(forgiven & RULE.reach)) return false;
  } else if (straight(lower, higher) > STRAIGHT_FACTOR * extreme && !(forgiven & RULE.straight)) return false;
  if (lowerFinger !== INDEX || lower.level !== higher.level || forgiven & RULE.secondBarre) return true;
  return spanOfRun(higher) <= SECOND_BARRE_ON_FRET;
}

/** How far two fingers lie apart straight over the strings, in mm, from the nearest ends of their runs. */
export function straight(one: Run, other: Run): number {
  const along = alongNeck(one, other);
  const across = stringsBetween(one, other) * ((one.level.spacing + other.level.spacing) / 2);
  return Math.sqrt(along * along + across * across);
}

/** Strings from the nearest end of one run to the nearest of the other; 0 where they lie over each other. */
export const stringsBetween = (one: Run, other: Run): number =>
  Math.max(0, one.first - other.last, other.first - one.last);
