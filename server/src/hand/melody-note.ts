/** One melody note over a held shape: every way of having it that leaves the rest of the shape alone, and the cheapest of them. */
import { indexOfString, stringAtIndex } from '../fretboard/frets.ts';
import type { FretList } from '../fretboard/frets.ts';
import type { Instrument } from '../fretboard/instrument.ts';
import { millimetresAt, neckFret, nutFret, stringSpacingAt, topFret } from '../fretboard/instrument.ts';
import type { Fingering, WidestPair } from './fingering.ts';
import type { Grip, Level } from './grip.ts';
import { gripOf, OPEN } from './grip.ts';
import { heldOf } from './held.ts';
import { holderOf, isBetter, trialOf } from './melody-trial.ts';
import type { Attempt, HeldShape, Trial, Wanted } from './melody-trial.ts';
import { FINGERS, INDEX, MELODY, MILLION } from './model.ts';
import type { HandSize, MelodyWay, Zone } from './model.ts';
import type { Hand, Held, Run } from './search.ts';
import { alongNeck, HANDS, reachOf } from './search.ts';

export type { HeldShape } from './melody-trial.ts';

export interface MelodyNote {
  /** In the player's numbers, 1 the highest. */
  readonly string: number;
  /** As written, 0 for the open string. */
  readonly fret: number;
  /** The strings of the shape that must go on sounding, as bits `1 << string`; the note's own is never asked. */
  readonly mustRing: number;
}

/** How a note is had. */
export interface MelodyStep {
  /** What stops the string: 1 to 4, 0 for an open string. */
  readonly finger: number;
  readonly way: MelodyWay;
  /** Fingers that leave the shape for the note, from the index up; the one that plays it is not among them. */
  readonly lifted: readonly number[];
  /** Strings of the shape that stop sounding, in the player's numbers, from the bass side. */
  readonly lost: readonly number[];
  /** How far the finger that plays must reach; `comfortable` where it lies at its fret already. */
  readonly zone: Zone;
  /** The finger that plays and the one that it is hardest to reach from; absent where it lies at its fret already. */
  readonly widest?: WidestPair;
  /** In whole millionths. */
  readonly cost: number;
}

/** The shape as one of its fingerings holds it; the frets must lie on the neck. */
export function holdShape(instrument: Instrument, frets: FretList, fingering: Fingering, size: HandSize): HeldShape {
  const grip = gripOf(instrument, frets);
  return heldShape(instrument, grip, HANDS[size], heldOf(grip, fingering.fingers));
}

/** A shape whose fingers are known already, and over which no note has been looked for yet. */
export const heldShape = (instrument: Instrument, grip: Grip, hand: Hand, held: Held): HeldShape => ({
  instrument,
  grip,
  hand,
  held,
  asked: [],
  outcomes: [],
});

/** Whether the instrument has the note at all. */
export const isOnNeck = ({ instrument, grip }: HeldShape, { string, fret }: MelodyNote): boolean =>
  string >= 1 && string <= grip.pressed.length && fret >= 0 && fret <= topFret(instrument, string);

/**
 * The cheapest way; undefined where the hand has none. Of equal costs the one wins that leaves more fingers on, then the cheaper
 * fingering of what results, then the lower finger. `forgiven` are rules of the hand that a search for reasons leaves out. At most
 * forty ways are tried: eight sets of fingers taken off, and after each nothing more, or one of four fingers set or laid flat.
 */
export function wayOf(shape: HeldShape, note: MelodyNote, forgiven = 0): MelodyStep | undefined {
  const best = cheapestTrial(shape, note, forgiven);
  return best && stepOf(shape, note, best);
}

/** How a note is had as one number, `NOT_HAD` or a sum of its parts: what a search that weighs many shapes asks for. */
export type Outcome = number;
export const NOT_HAD: Outcome = -1;

/** In whole millionths. */
export const costOfOutcome = (outcome: Outcome): number => Math.floor(outcome / (2 * FINGER_NUMBERS));
/** Whether the finger that plays lies in the extreme zone. */
export const isExtremeOutcome = (outcome: Outcome): boolean => Math.floor(outcome / FINGER_NUMBERS) % 2 === 1;
/** What stops the string: 1 to 4, 0 for an open string. */
export const fingerOfOutcome = (outcome: Outcome): number => outcome % FINGER_NUMBERS;

/** Melodies come back to their notes, and one octave of a contour to those of another: the shape remembers what it was asked. */
export function outcomeOf(shape: HeldShape, note: MelodyNote): Outcome {
  const { asked, outcomes } = shape;
  const key = (note.mustRing * STRING_NUMBERS + note.string) * FRET_NUMBERS + note.fret;
  const known = asked.indexOf(key);
  if (known >= 0) return outcomes[known];
  if (asked.length >= MOST_NOTES_REMEMBERED) asked.length = outcomes.length = 0;
  const best = cheapestTrial(shape, note, 0);
  const outcome = best ? (best.cost * 2 + Number(best.zone === 'extreme')) * FINGER_NUMBERS + best.finger : NOT_HAD;
  asked.push(key);
  outcomes.push(outcome);
  return outcome;
}

/** Notes that a shape remembers at a time: more than a melody has over one chord, and soon looked through. */
const MOST_NOTES_REMEMBERED = 32;
/** More than there are, so that several of them make one whole number. */
const STRING_NUMBERS = 16;
const FRET_NUMBERS = 64;
const FINGER_NUMBERS = 8;

function cheapestTrial(shape: HeldShape, note: MelodyNote, forgiven: number): Trial | undefined {
  if (!isOnNeck(shape, note)) return undefined;
  const { held, grip } = shape;
  const { mustRing } = note;
  const index = indexOfString(note.string, grip.pressed.length);
  const level = note.fret === 0 ? undefined : levelOf(shape, note);
  if (level && !forgiven && isFarOff(shape, level, index, mustRing)) return undefined;
  const wanted = { index, sounding: level?.fret ?? OPEN, mustRing, forgiven };
  // The finger that holds the note's string and nothing else.
  const holder = holderOf(held, index);
  const run = held[holder];
  const single = run && run.first === run.last ? holder : 0;
  let best: Trial | undefined;
  for (let released = 0; released <= FINGERS; released++) {
    if (released > 0) {
      const letGo = held[released];
      if (!letGo || released === single || !mayStop(letGo, grip, index, mustRing)) continue;
    }
    best = bestAfter(shape, 0, released, wanted, level, best);
    if (single > 0) best = bestAfter(shape, single, released, wanted, level, best);
  }
  return best;
}

/** Frets that the shape itself does not press, by the instrument and the fret on the neck; they are the same on every string. */
const levels = new WeakMap<Instrument, Level[]>();

function levelOf({ instrument, grip }: HeldShape, { string, fret }: MelodyNote): Level {
  const onNeck = neckFret(instrument, string, fret);
  for (const level of grip.levels) if (level.fret === onNeck) return level;
  let known = levels.get(instrument);
  if (!known) levels.set(instrument, (known = []));
  return (known[onNeck] ??= levelAt(instrument, string, fret, onNeck));
}

function levelAt(instrument: Instrument, string: number, fret: number, onNeck: number): Level {
  const place = millimetresAt(instrument, string, fret);
  const spacing = stringSpacingAt(instrument, place);
  return { fret: onNeck, fretFromNut: onNeck - nutFret(instrument), place, spacing, strings: [], lastLower: -1 };
}

/** Whether a finger that must stay lies so far away that no two fingers reach from it: most notes of other octaves, seen at a glance. */
function isFarOff({ held, hand, grip }: HeldShape, level: Level, index: number, mustRing: number): boolean {
  const farthest = reachOf(hand, INDEX, FINGERS).extreme;
  for (let finger = INDEX; finger <= FINGERS; finger++) {
    const run = held[finger];
    if (!run || Math.abs(run.level.place - level.place) <= farthest) continue;
    if (!(run.first === index && run.last === index) && !mayStop(run, grip, index, mustRing)) return true;
  }
  return false;
}

function mayStop(run: Run, grip: Grip, note: number, mustRing: number): boolean {
  for (let index = run.first; index <= run.last; index++) {
    const string = stringAtIndex(index, grip.pressed.length);
    if (index !== note && grip.pressed[index] === run.level.fret && mustRing & (1 << string)) return false;
  }
  return true;
}

/**
 * The best so far, or what is better once these fingers are off (0 for none): nothing more, or one finger set on the note or laid
 * flat over it. `lifted` holds the note's string and nothing else; all strings of `released` may stop.
 */
function bestAfter(
  shape: HeldShape,
  lifted: number,
  released: number,
  wanted: Wanted,
  level: Level | undefined,
  best: Trial | undefined,
): Trial | undefined {
  if (best && best.cost < (released > 0 ? COSTS.release : lifted > 0 ? COSTS.lift : 0)) return best;
  const off = without(shape.held, lifted, released);
  const under = off[holderOf(off, wanted.index)]?.level.fret ?? OPEN;
  // What lies over the string at a higher fret decides its sound, whatever is set below it.
  if (under > wanted.sounding) return best;
  if (!level || under === wanted.sounding) {
    const attempt = attemptOf(off, lifted > 0 ? 'lift' : 'already there', lifted, released);
    return betterOf(shape, attempt, wanted, best);
  }
  const { index } = wanted;
  const isBelow = lifted > 0 && level.fret < (shape.held[lifted] as Run).level.fret;
  for (let finger = INDEX; finger <= FINGERS; finger++) {
    const run = off[finger];
    if (run ? run.level !== level : !hasRoom(off, finger, level)) continue;
    const after = off.slice();
    after[finger] = run
      ? { level, first: Math.min(run.first, index), last: Math.max(run.last, index) }
      : { level, first: index, last: index };
    let attempt: Attempt;
    if (run) attempt = attemptOf(after, 'flatten', lifted, released);
    else if (finger === lifted) attempt = attemptOf(after, 'slide', lifted, released);
    else if (lifted === 0) attempt = attemptOf(after, 'free finger', lifted, released);
    else attempt = attemptOf(after, isBelow ? 'lift' : 'free finger', lifted, released, LIFT_AND_SET);
    best = betterOf(shape, attempt, wanted, best);
  }
  return best;
}

function without(held: Held, lifted: number, released: number): Held {
  if (lifted === 0 && released === 0) return held;
  const off = held.slice();
  off[lifted] = undefined;
  off[released] = undefined;
  return off;
}

function betterOf(shape: HeldShape, attempt: Attempt, wanted: Wanted, best: Trial | undefined): Trial | undefined {
  if (!best) return trialOf(shape, attempt, wanted, Infinity);
  const trial = trialOf(shape, attempt, wanted, best.cost);
  return trial && isBetter(trial, best) ? trial : best;
}

/** Whether a finger can come down at this fret between its neighbours: none crosses another along the neck. */
function hasRoom(held: Held, finger: number, { fret }: Level): boolean {
  for (let other = INDEX; other <= FINGERS; other++) {
    const run = held[other];
    if (run && (other < finger ? run.level.fret > fret : run.level.fret < fret)) return false;
  }
  return true;
}

function attemptOf(held: Held, way: MelodyWay, lifted: number, released: number, cost = COSTS[way]): Attempt {
  const removed = Number(lifted > 0) + Number(released > 0);
  return released > 0 ? { held, way: 'release', cost: COSTS.release, removed } : { held, way, cost, removed };
}

const inMillionths = (cost: number): number => Math.round(cost * MILLION);

const COSTS: Readonly<Record<MelodyWay, number>> = {
  'already there': 0,
  open: 0,
  lift: inMillionths(MELODY.lift),
  'free finger': inMillionths(MELODY.freeFinger),
  flatten: inMillionths(MELODY.flatten),
  slide: inMillionths(MELODY.slide),
  release: inMillionths(MELODY.release),
};
const LIFT_AND_SET = inMillionths(MELODY.liftAndSet);

function stepOf(shape: HeldShape, { fret }: MelodyNote, trial: Trial): MelodyStep {
  const { grip, held: before } = shape;
  const { finger, held, lost, zone } = trial;
  const lifted: number[] = [];
  for (let other = INDEX; other <= FINGERS; other++) {
    if (before[other] && !held[other]) lifted.push(other);
  }
  const strings: number[] = [];
  for (let index = 0; index < grip.pressed.length; index++) {
    if (lost & (1 << index)) strings.push(stringAtIndex(index, grip.pressed.length));
  }
  const way = trial.way === 'already there' && finger === 0 ? 'open' : trial.way;
  const widest = trial.other > 0 ? widestOf(shape, trial, fret) : undefined;
  return { finger, way, lifted, lost: strings, zone, ...(widest && { widest }), cost: trial.cost };
}

/** The lower finger first, as everywhere. */
function widestOf({ grip }: HeldShape, { held, finger, other }: Trial, fret: number): WidestPair {
  const apart = alongNeck(held[finger] as Run, held[other] as Run);
  const millimetres = Math.round(apart * 10) / 10;
  const otherFret = grip.frets[(held[other] as Run).first] ?? 0;
  if (finger < other) return { fingers: [finger, other], frets: [fret, otherFret], millimetres };
  return { fingers: [other, finger], frets: [otherFret, fret], millimetres };
}
