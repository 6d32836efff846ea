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
import type { Attempt, HeldShape, Trial } from './melody-trial.ts';
import { FINGERS, INDEX, MELODY, MILLION } from './model.ts';
import type { HandSize, MelodyWay, Zone } from './model.ts';
import type { Held, Run } from './search.ts';
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
  return { instrument, grip, hand: HANDS[size], held: heldOf(grip, fingering.fingers) };
}

/** Whether the instrument has the note at all. */
export const isOnNeck = ({ instrument, grip }: HeldShape, { string, fret }: MelodyNote): boolean =>
  string >= 1 && string <= grip.pressed.length && fret >= 0 && fret <= topFret(instrument, string);

/**
 * The cheapest way; undefined where the hand has none. Of equal costs the one wins that leaves more fingers on, then the cheaper
 * fingering of what results, then the lower finger. `forgiven` are rules of the hand that a search for reasons leaves out. At most
 * forty ways are tried: eight sets of fingers taken off, and after each nothing more, or one of four fingers set or laid flat.
 */
export function wayOf(shape: HeldShape, note: MelodyNote, forgiven = 0): MelodyStep | undefined {
  if (!isOnNeck(shape, note)) return undefined;
  const index = indexOfString(note.string, shape.grip.pressed.length);
  const level = note.fret === 0 ? undefined : levelOf(shape, note);
  if (level && !forgiven && isFarOff(shape, level, index, note.mustRing)) return undefined;
  const wanted = { index, sounding: level?.fret ?? OPEN, mustRing: note.mustRing, forgiven };
  let best: Trial | undefined;
  for (const removal of removalsFrom(shape, index, note.mustRing)) {
    if (best && best.cost < removal.least) continue;
    for (const attempt of attemptsAfter(shape, removal, index, level)) {
      if (best && best.cost < attempt.cost) continue;
      const trial = trialOf(shape, attempt, wanted);
      if (trial && (!best || isBetter(trial, best))) best = trial;
    }
  }
  return best && stepOf(shape, note, best);
}

function levelOf({ instrument, grip }: HeldShape, { string, fret }: MelodyNote): Level {
  const onNeck = neckFret(instrument, string, fret);
  const known = grip.levels.find((level) => level.fret === onNeck);
  if (known) return known;
  const place = millimetresAt(instrument, string, fret);
  const spacing = stringSpacingAt(instrument, place);
  return { fret: onNeck, fretFromNut: onNeck - nutFret(instrument), place, spacing, strings: [], lastLower: -1 };
}

/** Whether a finger that must stay lies so far away that no two fingers reach from it: most notes of other octaves, seen at a glance. */
function isFarOff({ held, hand, grip }: HeldShape, level: Level, index: number, mustRing: number): boolean {
  const farthest = reachOf(hand, INDEX, FINGERS).extreme;
  return held.some(
    (run) =>
      run !== undefined &&
      Math.abs(run.level.place - level.place) > farthest &&
      !(run.first === index && run.last === index) &&
      !mayStop(run, grip, index, mustRing),
  );
}

/** Fingers taken off before the note is looked for; 0 for none. */
interface Removal {
  /** The finger that holds the note's string and nothing else. */
  readonly lifted: number;
  /** A finger all of whose strings may stop. */
  readonly released: number;
  /** What a way that begins so costs at least, in whole millionths. */
  readonly least: number;
}

function removalsFrom({ held, grip }: HeldShape, index: number, mustRing: number): readonly Removal[] {
  const holder = holderOf(held, index);
  const run = held[holder];
  const lifted = run && run.first === run.last ? holder : 0;
  const removals = [removalOf(0, 0)];
  if (lifted > 0) removals.push(removalOf(lifted, 0));
  for (let released = INDEX; released <= FINGERS; released++) {
    const letGo = held[released];
    if (!letGo || released === lifted || !mayStop(letGo, grip, index, mustRing)) continue;
    removals.push(removalOf(0, released));
    if (lifted > 0) removals.push(removalOf(lifted, released));
  }
  return removals;
}

function removalOf(lifted: number, released: number): Removal {
  const least = released > 0 ? MELODY.release : lifted > 0 ? MELODY.lift : 0;
  return { lifted, released, least: Math.round(least * MILLION) };
}

function mayStop(run: Run, grip: Grip, note: number, mustRing: number): boolean {
  for (let index = run.first; index <= run.last; index++) {
    const string = stringAtIndex(index, grip.pressed.length);
    if (index !== note && grip.pressed[index] === run.level.fret && mustRing & (1 << string)) return false;
  }
  return true;
}

/** What can be done for the note once these fingers are off: nothing more, or one finger set on it or laid flat over it. */
function attemptsAfter(
  { held }: HeldShape,
  { lifted, released }: Removal,
  index: number,
  level: Level | undefined,
): readonly Attempt[] {
  const off = held.map((run, finger) => (finger === lifted || finger === released ? undefined : run));
  const under = off[holderOf(off, index)]?.level.fret ?? OPEN;
  const wanted = level?.fret ?? OPEN;
  // What lies over the string at a higher fret decides its sound, whatever is set below it.
  if (under > wanted) return [];
  if (!level || under === wanted) return [attemptOf(off, lifted > 0 ? 'lift' : 'already there', lifted, released)];
  const attempts: Attempt[] = [];
  const isBelow = lifted > 0 && level.fret < (held[lifted] as Run).level.fret;
  for (let finger = INDEX; finger <= FINGERS; finger++) {
    const run = off[finger];
    if (run ? run.level !== level : !hasRoom(off, finger, level)) continue;
    const after = off.slice();
    after[finger] = run
      ? { level, first: Math.min(run.first, index), last: Math.max(run.last, index) }
      : { level, first: index, last: index };
    if (run) attempts.push(attemptOf(after, 'flatten', lifted, released));
    else if (finger === lifted) attempts.push(attemptOf(after, 'slide', lifted, released));
    else if (lifted === 0) attempts.push(attemptOf(after, 'free finger', lifted, released));
    else attempts.push(attemptOf(after, isBelow ? 'lift' : 'free finger', lifted, released, MELODY.liftAndSet));
  }
  return attempts;
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
  if (released > 0) return { held, way: 'release', cost: Math.round(MELODY.release * MILLION), removed };
  return { held, way, cost: Math.round(cost * MILLION), removed };
}

const COSTS: Readonly<Record<MelodyWay, number>> = {
  'already there': 0,
  open: 0,
  lift: MELODY.lift,
  'free finger': MELODY.freeFinger,
  flatten: MELODY.flatten,
  slide: MELODY.slide,
  release: MELODY.release,
};

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
