/**
 * `playable at 96`: at that tempo, with the shapes as they were chosen, every shape can be held, every change has the time it needs
 * for the player that the level speaks to, as has a finger that plays two notes of a melody in a row, and no finger of the plucking
 * hand is asked for more than it can do.
 */
import type { SectionScore } from '../../realise/score.ts';
import { secondsOfWhole } from '../../realise/timeline.ts';
import { playerAtLevel, type Player } from '../../hand/model.ts';
import { pluckRemarks, speedOf, type PluckRemark, type RemarkKind, type TimedPluck } from '../../hand/plucking.ts';
import { FASTEST, SLOWEST } from '../../lesson/settings.ts';
import type { Tempo } from '../../lesson/lesson.ts';
import { plus, times, ZERO } from '../../util/fraction.ts';
import { fingerName, listed, quoted } from '../words.ts';
import type { Judgement, Predicate, Said } from './judgement.ts';
import { melodyObstacles } from './playable-melody.ts';
import { writtenObstacles, type WrittenObstacle } from './playable-written.ts';
import {
  barNamed,
  barsOn,
  chordNamed,
  nothingPlayed,
  shapesOn,
  untrue,
  type PlayedBar,
  type ShapedChord,
  type Stage,
} from './stage.ts';

/** What keeps a section from being played at a tempo. */
interface Obstacle {
  readonly place: PlayedBar;
  readonly truth: string;
  /** The fastest tempo, in beats a minute, at which it would be none; undefined where no tempo helps, and of plucks. */
  readonly fastest?: number;
}

export const playable: Predicate<Said<'playable'>> = {
  judge: ({ tempo }, stage): Judgement => {
    const shapes = shapesOn(stage);
    const obstacles = obstaclesAt(stage, tempo);
    if (obstacles.length > 0) {
      const fastest = fastestOf(stage, tempo);
      const instead = fastest === undefined ? '' : `; it is playable at ${fastest}`;
      const worst = worstOf(obstacles);
      const truth = `${worst.truth}${instead}`;
      const places = [worst, ...obstacles.filter((one) => one !== worst)].map(({ place }) => place);
      return untrue(places, fastest === undefined ? { truth } : { truth, repair: { tempo: `${fastest}` } });
    }
    if (shapes.missing !== undefined) return { undecided: shapes.missing };
    return isPlayed(stage) ? { holds: true } : nothingPlayed(stage);
  },
  why: (_, stage) => {
    const fastest = fastestOf(stage, FASTEST);
    const player = PLAYERS[playerAtLevel(stage.lesson.settings.level)];
    const whole = fastest === FASTEST ? 'at any tempo' : `up to ${fastest} beats a minute`;
    return `Every change has its time for ${player} ${whole}, and the plucking hand keeps up.`;
  },
  truths: (stage) => {
    const { missing } = shapesOn(stage);
    const fastest = missing === undefined && isPlayed(stage) ? fastestOf(stage, FASTEST) : undefined;
    if (fastest === undefined) return [];
    const own = Math.max(...stage.sections.map((index) => stage.lesson.sections[index].plan.tempo.perMinute));
    const player = PLAYERS[playerAtLevel(stage.lesson.settings.level)];
    const atOwn = own <= fastest ? [{ text: `playable at ${own}`, detail: `the tempo here, for ${player}` }] : [];
    const atMost = { text: `playable at ${fastest}`, detail: `the fastest for ${player}` };
    return own === fastest || fastest === FASTEST ? atOwn : [...atOwn, atMost];
  },
};

const isPlayed = (stage: Stage): boolean =>
  shapesOn(stage).shaped.length > 0 || barsOn(stage).some(({ bar }) => bar.tab ?? bar.melody);

const PLAYERS: Readonly<Record<Player, string>> = {
  beginner: 'a beginner',
  intermediate: 'an intermediate player',
  advanced: 'an advanced player',
};

/** The fastest whole tempo, at most `tempo`, without an obstacle; undefined where none is found. */
function fastestOf(stage: Stage, tempo: number): number | undefined {
  let low = SLOWEST;
  let high = Math.floor(tempo);
  if (shapedObstacles(stage, low).length > 0) return undefined;
  // What is too fast at one tempo is so at any faster one.
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (shapedObstacles(stage, middle).length > 0) high = middle - 1;
    else low = middle;
  }
  // Written notes are played anew for each tempo, which is dear: the time that is lacking says where to look.
  for (let tries = 0; tries < MOST_TRIES; tries++) {
    const written = stage.sections.flatMap((section) => writtenObstacles(stage, section, low));
    if (written.length === 0) return low;
    low = Math.floor(Math.min(low - 1, ...written.map(({ fastest = 0 }) => fastest)));
    if (low < SLOWEST) return undefined;
  }
  return undefined;
}

const MOST_TRIES = 6;

/** The one that asks for the slowest tempo, so that its figures tell why it is that tempo; else the first. */
function worstOf(obstacles: readonly Obstacle[]): Obstacle {
  return obstacles.reduce((worst, one) => ((one.fastest ?? Infinity) < (worst.fastest ?? 0) ? one : worst));
}

/** In the order in which they are played. */
function obstaclesAt(stage: Stage, tempo: number): readonly Obstacle[] {
  const found = [
    ...shapedObstacles(stage, tempo),
    ...stage.sections.flatMap((section) =>
      writtenObstacles(stage, section, tempo).map((one) => ({
        place: one.place,
        truth: told(stage, one, tempo),
        fastest: one.fastest,
      })),
    ),
  ];
  const mark = ({ section, bar }: PlayedBar): string => `${section} ${bar.number}`;
  const order = new Map(barsOn(stage).map((bar, index) => [mark(bar), index]));
  const at = ({ place }: Obstacle): number => order.get(mark(place)) ?? 0;
  return found.sort((a, b) => at(a) - at(b));
}

function told(stage: Stage, { place, trouble }: WrittenObstacle, tempo: number): string {
  const where = barNamed(stage, place);
  const tightest = trouble.kind === 'change' ? trouble.change.tightest : undefined;
  if (!tightest) return `in ${where} no ${stage.lesson.settings.hand} hand can hold the notes that are written`;
  return `in ${where} the ${fingerName(tightest.finger)} ${lacks(tightest.need, tightest.available, tempo)}`;
}

/** Of shapes and of the plucking hand, in whatever order. */
function shapedObstacles(stage: Stage, tempo: number): readonly Obstacle[] {
  const found: Obstacle[] = [];
  let before: ShapedChord | undefined;
  for (const chord of shapesOn(stage).shaped) {
    const truth = unplayable(stage, chord);
    if (truth !== undefined) found.push({ place: chord, truth });
    else found.push(...tooFast(stage, chord, before, tempo));
    before = chord;
  }
  for (const section of stage.sections)
    found.push(...plucksBeyond(stage, section, tempo), ...melodyTooFast(stage, section, tempo));
  return found;
}

function melodyTooFast(stage: Stage, section: number, perMinute: number): readonly Obstacle[] {
  const player = playerAtLevel(stage.lesson.settings.level);
  const tempo = { ...tempoOf(stage, section), perMinute };
  return melodyObstacles(stage, section, tempo, player).map(({ place, finger, frets: [from, to], need, available }) => {
    const way = `from fret ${from} to ${to} the ${fingerName(finger)}`;
    const truth = `in ${barNamed(stage, place)} ${way} ${lacks(need, available, perMinute)}`;
    return { place, truth, fastest: (perMinute * available) / need };
  });
}

function unplayable(stage: Stage, chord: ShapedChord): string | undefined {
  const { hand } = stage.lesson.settings;
  return chord.voicing.verdict.playable ? undefined : `no ${hand} hand can hold ${chordNamed(stage, chord)}`;
}

function tooFast(
  stage: Stage,
  chord: ShapedChord,
  before: ShapedChord | undefined,
  tempo: number,
): readonly Obstacle[] {
  const tightest = chord.score.change?.tightest;
  if (!tightest || before?.section !== chord.section) return [];
  // The need does not change with the tempo; the time there is does, for all fingers alike.
  const available = (tightest.available * tempoOf(stage, chord.section).perMinute) / tempo;
  if (tightest.need <= available) return [];
  const way = `from ${quoted(before.plan.written)} to ${chordNamed(stage, chord)}`;
  const truth = `${way} the ${fingerName(tightest.finger)} ${lacks(tightest.need, available, tempo)}`;
  return [{ place: chord, truth, fastest: (tempo * available) / tightest.need }];
}

/** Both in millionths of a second. Two figures that read alike would contradict what is said of them. */
const lacks = (need: number, available: number, tempo: number): string =>
  `needs ${seconds(Math.max(need, available + HUNDREDTH))} s and at ${tempo} has ${available <= 0 ? 'none' : seconds(available)}`;

const HUNDREDTH = 10_000;

const seconds = (millionths: number): string => (Math.round(millionths / HUNDREDTH) / 100).toFixed(2);

const tempoOf = ({ lesson }: Stage, section: number): Tempo => lesson.sections[section].plan.tempo;

const HINDERING: ReadonlySet<RemarkKind> = new Set<RemarkKind>([
  'finger-fast',
  'hand-fast',
  'two-places',
  'one-string',
]);
const NAMES = { p: 'thumb', i: 'index', m: 'middle', a: 'ring finger', c: 'little finger' } as const;

function plucksBeyond(stage: Stage, section: number, tempo: number): readonly Obstacle[] {
  const played = stage.score.sections[section];
  if (!played) return [];
  const bars = barsOn({ ...stage, sections: [section] });
  const { remarks, barOf } = heardAt(played, { ...tempoOf(stage, section), perMinute: tempo });
  return remarks.flatMap((remark) => {
    const place = bars[barOf[remark.at]];
    const truth = place && beyond(stage, remark, place, tempo);
    return truth === undefined ? [] : { place, truth };
  });
}

function beyond(stage: Stage, remark: PluckRemark, place: PlayedBar, tempo: number): string | undefined {
  const { kind, fingers, strings, rate = 0, rates } = remark;
  if (!HINDERING.has(kind)) return undefined;
  const who = `the ${listed(fingers.map((finger) => NAMES[finger]))}`;
  const where = barNamed(stage, place);
  if (!rates) {
    // A finger may brush over neighbouring strings.
    const isBrush = strings.length > 1 && strings.every((string, at) => at === 0 || strings[at - 1] - string === 1);
    return isBrush ? undefined : `in ${where} ${who} would pluck string ${listed(strings.map(String))} at one moment`;
  }
  const speed = speedOf(rate, rates);
  const isBeginner = playerAtLevel(stage.lesson.settings.level) === 'beginner';
  if (speed !== 'beyond' && !(isBeginner && speed === 'hard')) return undefined;
  const does = fingers.length === 1 ? 'plucks' : 'pluck';
  const most = inTenths(isBeginner ? rates.hard : rates.limit);
  // Two figures that read alike would contradict what is said of them.
  const shown = Math.max(inTenths(rate), inTenths(most + 0.1));
  return `in ${where} ${who} ${does} ${shown} notes a second at ${tempo}, and ${most} is the most`;
}

const inTenths = (rate: number): number => Math.round(rate * 10) / 10;

interface Heard {
  readonly remarks: readonly PluckRemark[];
  /** The bar of each pluck, by its index in the section. */
  readonly barOf: readonly number[];
}

/** A section's score outlives the versions of a lesson; of each the tempo last asked for is kept. */
const lastHeard = new WeakMap<SectionScore, { readonly perMinute: number; readonly heard: Heard }>();

function heardAt(played: SectionScore, tempo: Tempo): Heard {
  const known = lastHeard.get(played);
  if (known?.perMinute === tempo.perMinute) return known.heard;
  const heard = listen(played, tempo);
  lastHeard.set(played, { perMinute: tempo.perMinute, heard });
  return heard;
}

function listen(played: SectionScore, tempo: Tempo): Heard {
  const second = secondsOfWhole(tempo);
  const plucks: TimedPluck[] = [];
  const barOf: number[] = [];
  let start = ZERO;
  played.bars.forEach((bar, index) => {
    for (const event of bar.events) {
      if (!event.pluck) continue;
      plucks.push({ finger: event.pluck, string: event.string, onset: times(plus(start, event.start), second) });
      barOf.push(index);
    }
    start = plus(start, bar.length);
  });
  return { remarks: pluckRemarks(plucks), barOf };
}
