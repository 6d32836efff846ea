/** How the fretting hand plays notes that are written out: a fingering for each moment, so that the way from moment to moment is easiest. */
import { indexOfString } from '../fretboard/frets.ts';
import { stringCount } from '../fretboard/instrument.ts';
import { changeBetween, changeCost, type FingerTimes, type TimedShape } from '../hand/change.ts';
import { judgeShape, type Fingering, type ShapeVerdict } from '../hand/fingering.ts';
import { gripOf } from '../hand/grip.ts';
import { heldOf } from '../hand/held.ts';
import { holdingCost } from '../hand/melody.ts';
import { FINGERS, MILLION, playerAtLevel, type Player } from '../hand/model.ts';
import { moveBetween } from '../hand/movement.ts';
import { HANDS, reachOf, type Hand, type Held } from '../hand/search.ts';
import type { Settings } from '../lesson/lesson.ts';
import type { RealiseCache } from './cache.ts';
import type { Change } from './score.ts';

/** What a single note costs by its finger, on the scale of difficulties. [set] */
const LINE_COST = [0, 0, 0.05, 0.1, 0.3];
/** What it costs when the hand leans to a note out of its row of frets. [set] */
const LEAN_COST = 0.1;
/** Fingerings of one moment that are looked at: all four fingers for a single note, and the usual ones of a chord. */
const MOST_FINGERINGS = 12;

/** Every finger is wanted when the moment comes, and free for the next from then on: nobody hears how a note ends that another covers. */
const AT_ONCE: FingerTimes = {
  first: Array.from({ length: FINGERS + 1 }, () => 0),
  last: Array.from({ length: FINGERS + 1 }, () => 0),
};

/** A string that a finger presses at a moment. */
export interface Pressed {
  /** Player's number. */
  readonly string: number;
  readonly fret: number;
  /** As the author wrote it. */
  readonly finger?: number;
}

export interface Moment {
  /** From the start of the section, in whole millionths of a second. */
  readonly at: number;
  readonly pressed: readonly Pressed[];
}

/** How the hand has one moment. */
export interface HeldMoment {
  /** By string; undefined where no hand can hold what is asked for at once. */
  readonly fingers?: ReadonlyMap<number, number>;
  readonly verdict: ShapeVerdict;
  /** The fingering taken: its zone may be wider than the verdict's where the author names the fingers. */
  readonly fingering?: Fingering;
  /** From the moment before that has a finger down; undefined for the first. */
  readonly change?: Change;
}

/** The ways of pressing some strings at once. */
export interface WrittenGrip {
  readonly verdict: ShapeVerdict;
  readonly states: readonly WrittenState[];
}

interface WrittenState {
  readonly fingering: Fingering;
  /** In whole millionths, on the scale of difficulties. */
  readonly cost: number;
  readonly held: Held;
}

/** Parallel to `moments`, which must be in order of time. Moments at which no finger presses hold nothing. */
export function handsFor(
  moments: readonly Moment[],
  settings: Settings,
  cache: RealiseCache,
): readonly (HeldMoment | undefined)[] {
  const { hand, level, instrument } = settings;
  const player = playerAtLevel(level);
  const strings = stringCount(instrument);
  const held = moments.map(({ pressed }) => (pressed.length === 0 ? undefined : heldAt(pressed, settings, cache)));
  const row = moments.flatMap((moment, index): Step | readonly [] => {
    const here = held[index];
    if (!here || here.states.length === 0) return [];
    return {
      index,
      at: moment.at,
      states: here.states,
      timed: here.states.map(({ held: fingers }) => ({ held: fingers, times: AT_ONCE })),
    };
  });
  const chosen = easiestWay(row, player, HANDS[hand]);
  const played: (HeldMoment | undefined)[] = held.map((here) => here && { verdict: here.verdict });
  row.forEach(({ index, at, states, timed }, place) => {
    const state = states[chosen[place]];
    const before = row[place - 1];
    const fingers = new Map<number, number>();
    for (const { string } of moments[index].pressed) {
      const finger = state.fingering.fingers[indexOfString(string, strings)];
      if (finger) fingers.set(string, finger);
    }
    const from = before?.timed[chosen[place - 1]];
    const to = timed[chosen[place]];
    played[index] = {
      fingers,
      verdict: held[index]!.verdict,
      fingering: state.fingering,
      ...(from && { change: changeOver(from, to, at - before.at, player, HANDS[hand]) }),
    };
  });
  return played;
}

/** A moment at which fingers press, with its ways of doing so. */
interface Step {
  /** Index of the moment. */
  readonly index: number;
  readonly at: number;
  readonly states: readonly WrittenState[];
  readonly timed: readonly TimedShape[];
}

/** Index of the way taken at each step: the least sum, by dynamic programming; of equal sums the way that comes first. */
function easiestWay(row: readonly Step[], player: Player, hand: Hand): readonly number[] {
  const cameFrom: number[][] = [];
  let sums: readonly number[] = row[0]?.states.map(({ cost }) => cost) ?? [];
  for (let at = 1; at < row.length; at++) {
    const before = row[at - 1];
    const { states, timed, at: time } = row[at];
    const from: number[] = [];
    sums = states.map(({ cost }, to) => {
      let least = Infinity;
      sums.forEach((sum, state) => {
        const whole = sum + wayCost(before.timed[state], timed[to], time - before.at, player, hand);
        if (whole >= least) return;
        least = whole;
        from[to] = state;
      });
      return least + cost;
    });
    cameFrom.push(from);
  }
  let state = sums.indexOf(Math.min(...sums));
  const chosen = [state];
  for (let at = cameFrom.length - 1; at >= 0; at--) chosen.push((state = cameFrom[at][state]));
  return chosen.reverse();
}

/**
 * What the way costs, in whole millionths. Over a line of notes the fingers wait where they will be wanted: while the hand stays
 * where it is, setting a finger that was free costs next to nothing.
 */
function wayCost(from: TimedShape, to: TimedShape, gap: number, player: Player, hand: Hand): number {
  const { shift, moved } = moveBetween(from.held, to.held, player, hand);
  if (moved.some((finger) => from.held[finger])) return changeCost(from, to, gap, player, hand);
  // A finger a fret is what every hand is trained to, however wide the frets are.
  if (indexFret(from.held) === indexFret(to.held)) return 0;
  return shift === 0 ? LEAN_COST * MILLION : changeCost(from, to, gap, player, hand);
}

const changeOver = (from: TimedShape, to: TimedShape, gap: number, player: Player, hand: Hand): Change =>
  changeBetween(from, to, gap, player, hand, isSettled(from.held, to.held, hand));

/**
 * Whether the hand need not go anywhere: each finger that presses afterwards lies within easy reach of those that pressed before, or
 * a finger a fret from them. Where the fingers of single notes are is no measure of it: the frets down there are wider than a hand at
 * rest, and closer in the middle of a chord.
 */
function isSettled(from: Held, to: Held, hand: Hand): boolean {
  for (let before = 1; before <= FINGERS; before++) {
    const start = from[before];
    for (let after = 1; start && after <= FINGERS; after++) {
      const goal = to[after];
      if (!goal) continue;
      const [low, high] = before <= after ? [start.level, goal.level] : [goal.level, start.level];
      const [lower, higher] = [Math.min(before, after), Math.max(before, after)];
      if (high.fret - low.fret === higher - lower) continue;
      if (higher === lower || high.fret < low.fret) return false;
      if (high.place - low.place > reachOf(hand, lower, higher).comfortable) return false;
    }
  }
  return true;
}

/** The fret over which the index lies, a finger a fret, by the lowest finger down; NaN where none is. */
function indexFret(held: Held): number {
  for (let finger = 1; finger <= FINGERS; finger++) {
    const run = held[finger];
    if (run) return run.level.fret - (finger - 1);
  }
  return NaN;
}

/** The ways of pressing these strings: with the fingers that the author names, or without where no hand can do so. */
function heldAt(pressed: readonly Pressed[], settings: Settings, cache: RealiseCache): WrittenGrip {
  const { instrument, hand } = settings;
  const name = JSON.stringify([
    instrument,
    hand,
    pressed.map(({ string, fret, finger }) => [string, fret, finger ?? 0]),
  ]);
  return cache.written.get(name, (): WrittenGrip => {
    const strings = stringCount(instrument);
    const frets: (number | null)[] = Array.from({ length: strings }, () => null);
    for (const { string, fret } of pressed) frets[indexOfString(string, strings)] = fret;
    const verdict = judgeShape(instrument, frets, hand);
    const named = verdict.fingerings.filter(({ fingers }) =>
      pressed.every(({ string, finger }) => finger === undefined || fingers[indexOfString(string, strings)] === finger),
    );
    const grip = gripOf(instrument, frets);
    const fingerings = named.length > 0 ? named : verdict.fingerings;
    const isLine = pressed.length === 1;
    const states = fingerings.slice(0, MOST_FINGERINGS).map((fingering) => ({
      fingering,
      cost: isLine ? lineCost(fingering) : holdingCost(fingering, verdict.fingerings),
      held: heldOf(grip, fingering.fingers),
    }));
    return { verdict, states };
  });
}

/** A single note is as good with any finger, a little less so with the weaker ones. */
const lineCost = ({ fingers }: Fingering): number =>
  LINE_COST[Math.max(...fingers.map((finger) => finger ?? 0))] * MILLION;
