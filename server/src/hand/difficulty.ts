/** How hard a fingering is to hold, from 0 to 10, and how far it spreads the hand. Every weight is set by judgement: see the model. */
import type { Grip } from './grip.ts';
import { OPEN, SILENT } from './grip.ts';
import { DIFFICULTY, EXTREME_COST, FINGERS, INDEX, LITTLE, MILLION, STRINGS_APART_FREE } from './model.ts';
import type { Reach, Zone } from './model.ts';
import type { Hand, Held, Run } from './search.ts';
import { alongNeck, reachOf, spanOfRun, stringsBetween } from './search.ts';

/** The pair of fingers that is nearest its limit. */
export interface Spread {
  /** The least zone that every pair of fingers lies in. */
  readonly zone: Zone;
  /** That pair, the lower finger first; 0 and 0 where no two fingers lie on different frets. */
  readonly lower: number;
  readonly higher: number;
}

const ORDER: Readonly<Record<Zone, number>> = { comfortable: 0, stretch: 1, extreme: 2, unplayable: 3 };

export const widerZone = (one: Zone, other: Zone): Zone => (ORDER[one] >= ORDER[other] ? one : other);
export const narrowerZone = (one: Zone, other: Zone): Zone => (ORDER[one] <= ORDER[other] ? one : other);

/** The zone of two fingers that lie so far apart along the neck, in mm. */
export function zoneOfReach(reach: Reach, along: number): Zone {
  if (along <= reach.comfortable) return 'comfortable';
  if (along <= reach.stretch) return 'stretch';
  return along <= reach.extreme ? 'extreme' : 'unplayable';
}

/** The zone of a fingering whose cost is known (whole millionths), and the pair of fingers that decides it. */
export function spreadOf(hand: Hand, held: Held, cost: number): Spread {
  let worst: Zone = 'comfortable';
  let worstPart = 0;
  let lowerOfWorst = 0;
  let higherOfWorst = 0;
  for (let higher = INDEX + 1; higher <= FINGERS; higher++) {
    const run = held[higher];
    if (!run) continue;
    for (let lower = INDEX; lower < higher; lower++) {
      const other = held[lower];
      if (!other) continue;
      const reach = reachOf(hand, lower, higher);
      const along = alongNeck(other, run);
      const zone = zoneOfReach(reach, along);
      const part = along / reach.extreme;
      if (ORDER[zone] < ORDER[worst] || (zone === worst && part <= worstPart)) continue;
      worst = zone;
      worstPart = part;
      lowerOfWorst = lower;
      higherOfWorst = higher;
    }
  }
  const zone = cost > EXTREME_COST * MILLION ? widerZone(worst, 'extreme') : worst;
  return { zone, lower: lowerOfWorst, higher: higherOfWorst };
}

/** How hard the fingering is, in whole millionths of the scale from 0 to 10; a larger hand never makes it more. */
export function effortOf(grip: Grip, hand: Hand, held: Held, zone: Zone): number {
  let used = 0;
  let strain = 0;
  let barre = 0;
  let awkward = 0;
  let before = 0;
  for (let finger = INDEX; finger <= FINGERS; finger++) {
    const run = held[finger];
    if (!run) continue;
    used++;
    for (let lower = INDEX; lower < finger; lower++) {
      const other = held[lower];
      if (other) strain += strainOf(hand, other, run, lower, finger);
    }
    if (run.last > run.first) {
      barre += barreEffort(run, finger);
      awkward += awkwardBarre(grip, held, run, finger);
    }
    if (before > 0) awkward += awkwardStep(held[before] as Run, run);
    before = finger;
  }
  if (used === 0) return 0;
  const sum =
    DIFFICULTY.fingers[used] +
    (held[LITTLE] ? DIFFICULTY.littleFinger : 0) +
    DIFFICULTY.spread * strain +
    DIFFICULTY.barre * barre +
    awkward;
  const least = zone === 'extreme' ? DIFFICULTY.leastInExtreme : zone === 'stretch' ? DIFFICULTY.leastInStretch : 0;
  return Math.round(Math.min(DIFFICULTY.most, Math.max(least, sum)) * MILLION);
}

function strainOf(hand: Hand, lower: Run, higher: Run, lowerFinger: number, higherFinger: number): number {
  const { comfortable, extreme } = reachOf(hand, lowerFinger, higherFinger);
  const from = DIFFICULTY.spreadFrom * comfortable;
  const beyond = alongNeck(lower, higher) - from;
  if (beyond <= 0) return 0;
  const part = beyond / (extreme - from);
  return part * part;
}

function barreEffort(run: Run, finger: number): number {
  const span = spanOfRun(run);
  if (finger === INDEX) {
    const stiff = DIFFICULTY.besideNut[run.level.fretFromNut] ?? 0;
    if (span === 2) return DIFFICULTY.indexBarreOfTwo + stiff / 2;
    return DIFFICULTY.indexBarre + DIFFICULTY.indexBarreString * (span - 2) + stiff;
  }
  const plain = span === 2 ? DIFFICULTY.otherBarreOfTwo : DIFFICULTY.otherBarre;
  return plain + (finger === LITTLE ? DIFFICULTY.littleBarre : 0);
}

function awkwardBarre(grip: Grip, held: Held, run: Run, finger: number): number {
  let awkward = 0;
  const neighbour = grip.pressed[run.last + 1];
  if (neighbour !== undefined && neighbour >= OPEN && neighbour < run.level.fret) awkward += DIFFICULTY.trebleOfBarre;
  for (let string = run.first + 1; string < run.last; string++) {
    if (grip.pressed[string] === SILENT) awkward += DIFFICULTY.silentInBarre;
  }
  if (finger !== INDEX && held[INDEX]?.level === run.level) awkward += DIFFICULTY.secondBarreOnFret;
  return awkward;
}

function awkwardStep(lower: Run, higher: Run): number {
  const awkward = DIFFICULTY.stringsApart * Math.max(0, stringsBetween(lower, higher) - STRINGS_APART_FREE);
  if (lower.level === higher.level) return awkward + (higher.first < lower.first ? DIFFICULTY.reversed : 0);
  return awkward + DIFFICULTY.higherOnBassSide * Math.max(0, lower.first - higher.first - 1);
}
