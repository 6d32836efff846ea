/** Why no hand can hold a shape: the one thing that, mended, would make it playable, with strings, frets, fingers and millimetres. */
import type { FretList } from '../fretboard/frets.ts';
import { stringAtIndex } from '../fretboard/frets.ts';
import type { Instrument } from '../fretboard/instrument.ts';
import { stringCount } from '../fretboard/instrument.ts';
import type { Grip } from './grip.ts';
import { OPEN } from './grip.ts';
import { FINGERS, INDEX, STRAIGHT_FACTOR } from './model.ts';
import type { Hand, Held, Run } from './search.ts';
import {
  alongNeck,
  barreLengthOf,
  reachOf,
  RULE,
  runReaches,
  searchFingerings,
  stopsLowerBeside,
  stopsOpenBeside,
  straight,
} from './search.ts';

export type RefusalReason =
  /** The instrument lacks the string or the fret. */
  | 'off-the-neck'
  /** More fingers would be needed than a hand has, whatever lies between the strings. */
  | 'too-many-fingers'
  /** Only a barre could spare the fingers, and an open string must ring inside it. */
  | 'open-string-in-barre'
  /** Only a barre could spare the fingers, and a string inside it sounds a lower fret. */
  | 'lower-fret-in-barre'
  /** Two fingers would lie too far apart along the neck. */
  | 'too-wide'
  /** Two fingers would lie too far apart across the strings. */
  | 'too-far-across'
  /** A finger is too short for the strings that it would have to lie over. */
  | 'barre-too-long'
  /** A finger lying flat would stop an open string on its treble side. */
  | 'open-string-beside-barre'
  /** Another finger would have to stop a lower fret on the treble side of a barre. */
  | 'lower-fret-beside-barre'
  /** Another finger would have to bar strings beside the index on one fret. */
  | 'two-barres-on-one-fret'
  /** Several of these at once. */
  | 'several';

export interface Refusal {
  readonly reason: RefusalReason;
  /** The fingers in question, lower first: a pair, a barre's finger, or with `too-many-fingers` nothing. */
  readonly fingers: readonly number[];
  /** The frets in question as written: of the pair, of the barre, or all that are pressed. */
  readonly frets: readonly number[];
  /** The strings in question in the player's numbers, from the bass side: the ends of a barre, the string that is in its way. */
  readonly strings: readonly number[];
  /** How many fingers it would take; only with `too-many-fingers`. */
  readonly needed?: number;
  /** Along the neck (`barre-too-long`: across the strings, `too-far-across`: straight), to a tenth; the most this hand reaches. */
  readonly millimetres?: number;
  readonly limit?: number;
}

/** The first place of a fret list that the instrument lacks, as a refusal. */
export function offNeck(instrument: Instrument, frets: FretList, index: number): Refusal {
  const strings = index < stringCount(instrument) ? [stringAtIndex(index, stringCount(instrument))] : [];
  return { reason: 'off-the-neck', fingers: [], frets: [frets[index] ?? 0], strings };
}

/** Rules in the order in which a player would think of them; the first that alone stands in the way is the reason. */
const REASONS: readonly (readonly [number, RefusalReason])[] = [
  [RULE.reach, 'too-wide'],
  [RULE.openInBarre, 'open-string-in-barre'],
  [RULE.lowerInBarre, 'lower-fret-in-barre'],
  [RULE.openBesideBarre, 'open-string-beside-barre'],
  [RULE.lowerBesideBarre, 'lower-fret-beside-barre'],
  [RULE.barreLength, 'barre-too-long'],
  [RULE.secondBarre, 'two-barres-on-one-fret'],
  [RULE.straight, 'too-far-across'],
];

/** Why a grip that has no fingering has none. */
export function whyRefused(grip: Grip, hand: Hand): Refusal {
  const { levels } = grip;
  const lowest = levels[0];
  const highest = levels[levels.length - 1];
  const limit = reachOf(hand, INDEX, FINGERS).extreme;
  if (highest.place - lowest.place > limit) {
    const strings: readonly [number, number] = [lowest.strings[0], highest.strings[0]];
    return tooFar(grip, 'too-wide', [INDEX, FINGERS], strings, highest.place - lowest.place, limit);
  }
  const needed = fingersNeeded(grip);
  if (levels.length <= FINGERS) {
    for (const [rule, reason] of REASONS) {
      const held = leastBroken(grip, hand, rule);
      if (held) return worded(grip, hand, held, reason);
    }
  }
  const all = { fingers: [], frets: pressedFrets(grip), strings: [] };
  return needed > FINGERS ? { reason: 'too-many-fingers', ...all, needed } : { reason: 'several', ...all };
}

/** Of all fingerings that break this rule alone, the one that asks least of the hand; undefined where there is none. */
function leastBroken(grip: Grip, hand: Hand, rule: number): Held | undefined {
  const apart = rule === RULE.straight ? straight : alongNeck;
  let least: Held | undefined;
  let leastPart = Infinity;
  searchFingerings(grip, hand, rule, (held) => {
    const { part } = worstPair(hand, held, apart);
    if (part >= leastPart) return;
    leastPart = part;
    least = [...held];
  });
  return least;
}

interface WorstPair {
  /** 0 and 0 where a single finger is used. */
  readonly lower: number;
  readonly higher: number;
  /** Their distance as a part of the most that this hand reaches with them; above 1 where it does not. */
  readonly part: number;
}

function worstPair(hand: Hand, held: Held, apart: (one: Run, other: Run) => number): WorstPair {
  let worst: WorstPair = { lower: 0, higher: 0, part: 0 };
  for (let higher = INDEX + 1; higher <= FINGERS; higher++) {
    for (let lower = INDEX; lower < higher; lower++) {
      const one = held[lower];
      const other = held[higher];
      if (!one || !other) continue;
      const part = apart(one, other) / reachOf(hand, lower, higher).extreme;
      if (part > worst.part) worst = { lower, higher, part };
    }
  }
  return worst;
}

function worded(grip: Grip, hand: Hand, held: Held, reason: RefusalReason): Refusal {
  if (reason === 'too-wide' || reason === 'too-far-across') {
    const apart = reason === 'too-wide' ? alongNeck : straight;
    const { lower, higher } = worstPair(hand, held, apart);
    const one = held[lower] as Run;
    const other = held[higher] as Run;
    const limit = reachOf(hand, lower, higher).extreme * (reason === 'too-wide' ? 1 : STRAIGHT_FACTOR);
    return tooFar(grip, reason, [lower, higher], [one.first, other.first], apart(one, other), limit);
  }
  for (let finger = INDEX; finger <= FINGERS; finger++) {
    const run = held[finger];
    if (!run || run.first === run.last) continue;
    const inTheWay = stringInTheWay(grip, hand, held, finger, reason);
    if (inTheWay === undefined) continue;
    const ends = numbered(grip, [run.first, run.last]);
    const refusal = { reason, fingers: [finger], frets: writtenFrets(grip, [run.first]), strings: ends };
    if (reason === 'two-barres-on-one-fret') return { ...refusal, fingers: [INDEX, finger] };
    if (reason !== 'barre-too-long') return { ...refusal, strings: [...ends, ...numbered(grip, [inTheWay])] };
    return { ...refusal, millimetres: inTenths(barreLengthOf(run)), limit: inTenths(hand.barreLength[finger]) };
  }
  return { reason, fingers: [], frets: pressedFrets(grip), strings: [] };
}

/** The string by which this finger's barre breaks the rule; for a barre that is wrong by itself its own last. */
function stringInTheWay(grip: Grip, hand: Hand, held: Held, finger: number, reason: RefusalReason): number | undefined {
  const run = held[finger] as Run;
  const { fret } = run.level;
  const isLower = (string: number): boolean => grip.pressed[string] > OPEN && grip.pressed[string] < fret;
  const firstFrom = (start: number, end: number, wanted: (string: number) => boolean): number | undefined => {
    for (let string = start; string < end; string++) if (wanted(string)) return string;
    return undefined;
  };
  switch (reason) {
    case 'open-string-in-barre':
      return firstFrom(run.first + 1, run.last, (string) => grip.pressed[string] === OPEN);
    case 'lower-fret-in-barre':
      return firstFrom(run.first + 1, run.last, isLower);
    case 'open-string-beside-barre':
      if (!stopsOpenBeside(grip, run, finger)) return undefined;
      return firstFrom(run.last + 1, grip.pressed.length, (string) => grip.pressed[string] === OPEN);
    case 'lower-fret-beside-barre':
      return stopsLowerBeside(run) ? firstFrom(run.last + 1, grip.pressed.length, isLower) : undefined;
    case 'barre-too-long':
      return barreLengthOf(run) > hand.barreLength[finger] ? run.last : undefined;
    default:
      return finger !== INDEX && held[INDEX]?.level === run.level ? run.last : undefined;
  }
}

function tooFar(
  grip: Grip,
  reason: RefusalReason,
  fingers: readonly [number, number],
  strings: readonly [number, number],
  millimetres: number,
  limit: number,
): Refusal {
  return {
    reason,
    fingers,
    frets: writtenFrets(grip, strings),
    strings: numbered(grip, strings),
    millimetres: inTenths(millimetres),
    limit: inTenths(limit),
  };
}

const inTenths = (millimetres: number): number => Math.round(millimetres * 10) / 10;

const writtenFrets = (grip: Grip, strings: readonly number[]): number[] =>
  strings.map((string) => grip.frets[string] ?? 0);

const numbered = (grip: Grip, strings: readonly number[]): number[] =>
  strings.map((string) => stringAtIndex(string, grip.pressed.length));

const pressedFrets = (grip: Grip): number[] => grip.levels.map((level) => grip.frets[level.strings[0]] ?? 0);

/** How many fingers the grip takes where every barre that may lie does lie. */
function fingersNeeded(grip: Grip): number {
  let needed = 0;
  for (const level of grip.levels) {
    needed++;
    for (let at = 1; at < level.strings.length; at++) {
      if (!runReaches(grip, level, level.strings[at - 1], level.strings[at], 0)) needed++;
    }
  }
  return needed;
}
