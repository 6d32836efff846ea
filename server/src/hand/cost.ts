/** What a fingering costs beside the other fingerings of its shape, as a sum of its traits. Says nothing of how hard the shape is. */
import type { Grip } from './grip.ts';
import { OPEN, SILENT } from './grip.ts';
import { COST, FINGERS, INDEX, LITTLE, MILLION, STRINGS_APART_FREE } from './model.ts';
import type { Hand, Held, Run } from './search.ts';
import { alongNeck, reachOf, spanOfRun, stringsBetween } from './search.ts';

/** The cost in whole millionths, 0 for no finger at all; a larger hand never makes it larger. */
export function costOf(grip: Grip, hand: Hand, held: Held): number {
  let cost = held[INDEX] ? 0 : COST.noIndex;
  let before = 0;
  for (let finger = INDEX; finger <= FINGERS; finger++) {
    const run = held[finger];
    if (!run) continue;
    cost += COST.finger + (finger === LITTLE ? COST.littleFinger : 0);
    if (run.last > run.first) cost += barreCost(grip, run, finger);
    if (before > 0) cost += consecutiveCost(held[before] as Run, run, before, finger);
    for (let lower = INDEX; lower < finger; lower++) {
      const other = held[lower];
      if (other) cost += spreadCost(hand, other, run, lower, finger);
    }
    if (grip.firstPosition) cost += COST.awayFromOwnFret * Math.abs(finger - run.level.fretFromNut);
    before = finger;
  }
  const index = held[INDEX];
  if (index) cost += onFretOfIndex(held, index);
  return before === 0 ? 0 : Math.round(cost * MILLION);
}

function spreadCost(hand: Hand, lower: Run, higher: Run, lowerFinger: number, higherFinger: number): number {
  const { comfortable, stretch } = reachOf(hand, lowerFinger, higherFinger);
  const beyond = alongNeck(lower, higher) - comfortable;
  if (beyond <= 0) return 0;
  const part = beyond / (stretch - comfortable);
  return COST.spread * part * part;
}

function barreCost(grip: Grip, run: Run, finger: number): number {
  let cost: number = COST.barre[finger];
  if (finger !== INDEX) cost += COST.barreString * (spanOfRun(run) - 2);
  for (let string = run.first + 1; string < run.last; string++) {
    if (grip.pressed[string] === SILENT) cost += COST.silentInBarre;
    else if (grip.pressed[string] !== run.level.fret) cost += COST.higherInBarre;
  }
  const neighbour = grip.pressed[run.last + 1];
  if (neighbour === OPEN) cost += COST.openBesideBarre;
  else if (neighbour > OPEN && neighbour < run.level.fret) cost += COST.lowerBesideBarre;
  return cost;
}

/** What the step from one used finger to the next costs; the higher number never lies on the lower fret. */
function consecutiveCost(lower: Run, higher: Run, lowerFinger: number, higherFinger: number): number {
  const frets = higher.level.fret - lower.level.fret;
  const fingers = higherFinger - lowerFinger;
  let cost = COST.stringsApart * Math.max(0, stringsBetween(lower, higher) - STRINGS_APART_FREE);
  if (frets === 0) {
    cost += COST.pairOnOneFret + COST.skippedOnOneFret * (fingers - 1);
    if (higher.first < lower.first) cost += COST.reversed;
    return cost;
  }
  if (frets > fingers) cost += COST.fretBeyondFinger * (frets - fingers);
  else cost += COST.skippedOnTwoFrets * (fingers - frets);
  return cost + COST.higherOnBassSide * Math.max(0, lower.first - higher.first);
}

function onFretOfIndex(held: Held, index: Run): number {
  let cost = 0;
  for (let finger = INDEX + 1; finger <= FINGERS; finger++) {
    const run = held[finger];
    if (!run || run.level !== index.level) continue;
    if (run.last > run.first) cost += COST.secondBarreOnFret;
    else if (index.last > index.first) cost += COST.singleBesideBarre;
  }
  return cost;
}
