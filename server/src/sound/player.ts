/** Plays what a timeline asks for, from any place, once or round and round: the same for a file and for a loudspeaker. */
import { ACTION, ACTION_SIZE, dampingAt, JOIN, newTold, PLUCK, readAction, STOP, type Told } from './actions.ts';
import { PlayedInstrument } from './instrument.ts';
import type { SoundBeat } from './timeline.ts';

/** All that a player must be told of what it is to play. Plain data. */
export interface Rendition {
  /** The MIDI numbers of the open strings, string 1 first. */
  readonly open: readonly number[];
  /** See actions.ts; made for `speed`. */
  readonly actions: Float64Array;
  /** Two numbers a beat: when it comes, in seconds of the timeline, and 1 for the first of a bar, else 0. In order. */
  readonly beats: Float64Array;
  /** How long the timeline is, in its seconds. */
  readonly seconds: number;
  /** Seconds of the timeline in one second. */
  readonly speed: number;
}

export interface Start {
  /** In seconds of the timeline. */
  readonly at: number;
  /** The beats that are counted before, in order. */
  readonly countIn: readonly SoundBeat[];
}

export interface Loop {
  /** In seconds of the timeline; `to` above `from`. */
  readonly from: number;
  readonly to: number;
}

/** What sounds when the player is stopped or sent elsewhere is faded over this long, in seconds. */
export const FADE_SECONDS = 0.015;
/** After the last bar strings may ring on for this long before the hand is laid on them, in seconds. */
export const TAIL_SECONDS = 4;
/** Longer than any string takes to be still under the hand, in seconds. */
const STILL_SECONDS = 1.5;
/** A loop shorter than this would be a buzz. In seconds. */
const SHORTEST_LOOP = 0.05;
/** Notes may be due before the moment that they belong to, a grace note say, by at most this. In seconds. */
const EARLIEST = 2;
/** Times that are told apart by less than this are one. In seconds. */
const SAME = 1e-9;
/** For each string what it is told now and what it was told before, which may still be under way. */
const TOLD_KEPT = 4;

const NOTHING: Rendition = {
  open: [],
  actions: new Float64Array(0),
  beats: new Float64Array(0),
  seconds: 0,
  speed: 1,
};

export class Player {
  /** In seconds of the timeline; below the start while it is counted in. */
  position = 0;
  isPlaying = false;
  /** Whether the beats are heard. */
  metronome = false;

  private rendition = NOTHING;
  private instrument: PlayedInstrument;
  private told: readonly (readonly Told[])[] = [];
  private toldNext = 0;
  private action = 0;
  private beat = 0;
  /** Only what belongs to a moment from here on is played. */
  private from = 0;
  private counted: readonly SoundBeat[] = [];
  private countNext = 0;
  private loop: Loop | undefined;
  private isHandOn = false;
  private fadeLeft = 0;
  private readonly fade: number;
  private waiting: Start | undefined;
  private loading: Rendition | undefined;

  /** `rate` in samples a second. */
  constructor(private readonly rate: number) {
    this.instrument = new PlayedInstrument([], rate);
    this.fade = Math.max(1, Math.round(FADE_SECONDS * rate));
  }

  /**
   * Takes the place of what was played before. While it plays it goes on from where it is: so the tempo changes. On another
   * instrument it does not: what sounds is faded first, and it ends unless it is started again.
   */
  load(rendition: Rendition): void {
    const { open } = this.rendition;
    const isSame = open.length === rendition.open.length && open.every((midi, at) => midi === rendition.open[at]);
    if (this.isPlaying && (!isSame || this.loading)) {
      this.loading = rendition;
      if (this.fadeLeft === 0) this.fadeLeft = this.fade;
      return;
    }
    this.rendition = rendition;
    if (!isSame) {
      this.instrument = new PlayedInstrument(rendition.open, this.rate);
      this.told = rendition.open.map(() => Array.from({ length: TOLD_KEPT }, newTold));
    }
    this.find(this.position, 0);
  }

  /** Whether what sounds still is faded, and the position is that of something else. */
  get isLeaving(): boolean {
    return this.waiting !== undefined;
  }

  /** Begins there; what sounds already is faded first. */
  start(start: Start): void {
    if (this.isPlaying || this.fadeLeft > 0) {
      this.waiting = start;
      if (this.fadeLeft === 0) this.fadeLeft = this.fade;
      return;
    }
    this.waiting = undefined;
    this.instrument.silence();
    this.isPlaying = true;
    this.isHandOn = false;
    this.from = start.at;
    this.counted = start.countIn;
    this.countNext = 0;
    this.position = Math.min(start.at, start.countIn[0]?.at ?? start.at);
    this.find(start.at, EARLIEST);
  }

  stop(): void {
    this.waiting = undefined;
    if (this.isPlaying && this.fadeLeft === 0) this.fadeLeft = this.fade;
  }

  /** From now on round these seconds of the timeline, or on to the end. */
  round(loop: Loop | undefined): void {
    this.loop = loop && loop.to - loop.from >= SHORTEST_LOOP ? loop : undefined;
  }

  /** Writes `count` samples of each channel from index `from` on. Allocates nothing. */
  render(left: Float32Array, right: Float32Array, from: number, count: number): void {
    const to = from + count;
    for (let index = from; index < to;) {
      if (!this.isPlaying) {
        left.fill(0, index, to);
        right.fill(0, index, to);
        return;
      }
      const untilDue = this.due();
      const most = this.fadeLeft > 0 ? Math.min(to - index, this.fadeLeft) : to - index;
      const next = Math.min(most, untilDue);
      this.instrument.render(left, right, index, next);
      if (this.fadeLeft > 0) this.fadeOut(left, right, index, next);
      this.position += (next * this.rendition.speed) / this.rate;
      index += next;
    }
  }

  /** Does all that is due by now. How many samples there are until the next, at least 1. */
  private due(): number {
    for (;;) {
      const { loop } = this;
      if (loop && this.position >= loop.to - SAME) this.goRound(loop);
      this.strikeCounted();
      this.strikeBeats();
      this.act();
      const next = this.nextTime();
      if (next === undefined) this.endings();
      if (next === undefined) return Infinity;
      const wait = Math.ceil(((next - this.position) * this.rate) / this.rendition.speed - SAME);
      if (wait >= 1) return wait;
    }
  }

  private nextTime(): number | undefined {
    const { actions, beats, seconds } = this.rendition;
    let next = Infinity;
    if (this.countNext < this.counted.length) next = this.counted[this.countNext].at;
    if (this.action < actions.length) next = Math.min(next, actions[this.action + ACTION.time]);
    if (this.beat < beats.length) next = Math.min(next, beats[this.beat]);
    if (this.loop) next = Math.min(next, this.loop.to);
    else if (this.position < seconds - SAME) next = Math.min(next, seconds);
    return next === Infinity ? undefined : next;
  }

  private strikeCounted(): void {
    const { counted } = this;
    while (this.countNext < counted.length && counted[this.countNext].at <= this.position + SAME) {
      this.instrument.knock(counted[this.countNext].first);
      this.countNext++;
    }
  }

  private strikeBeats(): void {
    const { beats } = this.rendition;
    while (this.beat < beats.length && beats[this.beat] <= this.position + SAME) {
      if (this.metronome && beats[this.beat] >= this.from - SAME) this.instrument.knock(beats[this.beat + 1] === 1);
      this.beat += 2;
    }
  }

  private act(): void {
    const { actions } = this.rendition;
    while (this.action < actions.length && actions[this.action + ACTION.time] <= this.position + SAME) {
      const at = actions[this.action + ACTION.at];
      const isIn = at >= this.from - SAME && (!this.loop || at < this.loop.to - SAME);
      if (isIn) this.actOn(actions, this.action);
      this.action += ACTION_SIZE;
    }
  }

  private actOn(actions: Float64Array, index: number): void {
    const number = actions[index + ACTION.string];
    const string = this.instrument.string(number);
    if (!string) return;
    const kind = actions[index + ACTION.kind];
    if (kind === STOP) {
      string.stop();
      return;
    }
    this.toldNext = (this.toldNext + 1) % TOLD_KEPT;
    const told = this.told[number - 1][this.toldNext];
    readAction(actions, index, told);
    const midi = actions[index + ACTION.midi];
    const damping = dampingAt(actions, index);
    const fretted = actions[index + ACTION.fretted] === 1;
    const { strike, movement } = told;
    if (kind === PLUCK) string.pluck(strike, midi, damping, fretted, movement);
    else if (kind === JOIN) string.join(strike.force > 0 ? strike : undefined, midi, damping, fretted, movement);
  }

  private goRound({ from, to }: Loop): void {
    // What is plucked at the start of the loop takes its string over; whatever else rings would pile up round by round.
    this.instrument.stop();
    this.position = Math.max(from, this.position - (to - from));
    if (this.position >= to) this.position = from;
    this.from = from;
    this.find(from, EARLIEST);
  }

  /** After the last action: strings ring on for a while, then the hand is laid on them, then all is still. */
  private endings(): void {
    const { seconds, speed } = this.rendition;
    const since = (this.position - seconds) / speed;
    if (since >= TAIL_SECONDS && !this.isHandOn) {
      this.isHandOn = true;
      this.instrument.stop();
    }
    if (this.instrument.isAtRest || since >= TAIL_SECONDS + STILL_SECONDS) this.end();
  }

  private end(): void {
    this.instrument.silence();
    this.isPlaying = false;
    this.fadeLeft = 0;
    const { loading } = this;
    this.loading = undefined;
    if (loading) this.load(loading);
    if (this.waiting) this.start(this.waiting);
  }

  private fadeOut(left: Float32Array, right: Float32Array, from: number, count: number): void {
    for (let index = from; index < from + count; index++) {
      this.fadeLeft--;
      const level = this.fadeLeft / this.fade;
      left[index] *= level;
      right[index] *= level;
    }
    if (this.fadeLeft === 0) this.end();
  }

  /** Puts both lists where a moment begins; actions may be due before the moment that they belong to. In seconds. */
  private find(at: number, early: number): void {
    const { actions, beats } = this.rendition;
    this.action = firstFrom(actions, ACTION_SIZE, at - early);
    this.beat = firstFrom(beats, 2, at - SAME);
  }
}

/** The index of the first of the records of that many numbers whose first number is at least `time`. */
function firstFrom(records: Float64Array, size: number, time: number): number {
  let low = 0;
  let high = records.length / size;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (records[middle * size] < time) low = middle + 1;
    else high = middle;
  }
  return low * size;
}
