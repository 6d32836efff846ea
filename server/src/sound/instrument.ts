/** A whole instrument: its strings, the body they shake, a metronome beside it, and what goes to the two loudspeakers. */
import { Click } from './click.ts';
import { Limiter } from './limiter.ts';
import { hertz } from './pitch.ts';
import { Resonator } from './resonator.ts';
import { PluckedString } from './string.ts';

/** Samples that are worked out at once. */
const BLOCK = 256;

/** How loud one string is: six at full force stay below what must be turned down, as long as they do not all peak at once. */
const STRING_LEVEL = 0.34;
/** How far the outermost strings stand from the middle; 1 would be one loudspeaker alone. */
const WIDTH = 0.35;

/**
 * What the body adds: its modes as multiples of the pitch of the lowest string, the width of each as a part of its pitch, and how
 * much it adds. About those of a guitar, whose air rings near 100 Hz and whose top near 200. Set by judgement.
 */
const MODES: readonly (readonly [multiple: number, width: number, level: number])[] = [
  [1.22, 0.12, 0.5],
  [2.4, 0.09, 0.6],
  [4.9, 0.1, 0.3],
];
/** A body is no smaller or larger than these lowest strings want, in Hz. */
const LOWEST_BODY = 55;
const HIGHEST_BODY = 150;

/** Below this nothing is music, in Hz: what would push a loudspeaker to one side is taken away. */
const STEADY_HERTZ = 6;

export class PlayedInstrument {
  private readonly strings: readonly PluckedString[];
  private readonly toLeft: readonly number[];
  private readonly toRight: readonly number[];
  private readonly modes: readonly Resonator[];
  private readonly limiter: Limiter;
  private readonly click: Click;
  private readonly one = new Float64Array(BLOCK);
  private readonly sum = new Float64Array(BLOCK);
  private readonly left = new Float64Array(BLOCK);
  private readonly right = new Float64Array(BLOCK);
  private readonly steady: number;
  private leftBefore = 0;
  private leftOut = 0;
  private rightBefore = 0;
  private rightOut = 0;

  /** `open`: the MIDI numbers of the open strings, string 1 first. `rate` in samples a second. */
  constructor(open: readonly number[], rate: number) {
    this.strings = open.map(() => new PluckedString(rate));
    const sides = open.map((_, index) => (open.length < 2 ? 0 : WIDTH * (1 - (2 * index) / (open.length - 1))));
    this.toLeft = sides.map((side) => STRING_LEVEL * Math.sqrt(1 - side));
    this.toRight = sides.map((side) => STRING_LEVEL * Math.sqrt(1 + side));
    const lowest = Math.min(HIGHEST_BODY, Math.max(LOWEST_BODY, hertz(open.length === 0 ? 40 : Math.min(...open))));
    this.modes = MODES.map(([multiple, width]) => new Resonator(multiple * lowest, multiple * lowest * width, rate));
    this.limiter = new Limiter(rate);
    this.click = new Click(rate);
    this.steady = 1 - (6.283185307179586 * STEADY_HERTZ) / rate;
  }

  /** String 1 is the highest; undefined for one that is not there. */
  string(number: number): PluckedString | undefined {
    return this.strings[number - 1];
  }

  knock(isFirst: boolean): void {
    this.click.strike(isFirst);
  }

  /** The hand is laid on all strings. */
  stop(): void {
    for (let index = 0; index < this.strings.length; index++) this.strings[index].stop();
  }

  /** At rest at once, for when nothing of it can be heard. */
  silence(): void {
    for (let index = 0; index < this.strings.length; index++) this.strings[index].silence();
    for (let index = 0; index < this.modes.length; index++) this.modes[index].silence();
    this.click.silence();
    this.leftBefore = this.leftOut = this.rightBefore = this.rightOut = 0;
  }

  get isAtRest(): boolean {
    for (let index = 0; index < this.strings.length; index++) if (!this.strings[index].isAtRest) return false;
    return this.click.isAtRest;
  }

  /** Writes `count` samples of each channel from index `from` on. Allocates nothing. */
  render(left: Float32Array, right: Float32Array, from: number, count: number): void {
    for (let done = 0; done < count; done += BLOCK) this.block(left, right, from + done, Math.min(BLOCK, count - done));
    this.limiter.limit(left, right, from, count);
  }

  private block(left: Float32Array, right: Float32Array, from: number, count: number): void {
    this.sum.fill(0);
    this.left.fill(0);
    this.right.fill(0);
    for (let number = 0; number < this.strings.length; number++) {
      const string = this.strings[number];
      if (string.isAtRest) continue;
      string.render(this.one, count);
      const toLeft = this.toLeft[number];
      const toRight = this.toRight[number];
      for (let index = 0; index < count; index++) {
        const value = this.one[index];
        this.sum[index] += value;
        this.left[index] += toLeft * value;
        this.right[index] += toRight * value;
      }
    }
    for (let index = 0; index < count; index++) {
      let shared = this.click.next();
      for (let mode = 0; mode < this.modes.length; mode++) {
        shared += STRING_LEVEL * MODES[mode][2] * this.modes[mode].next(this.sum[index]);
      }
      const one = this.left[index] + shared;
      const other = this.right[index] + shared;
      this.leftOut = one - this.leftBefore + this.steady * this.leftOut;
      this.rightOut = other - this.rightBefore + this.steady * this.rightOut;
      this.leftBefore = one;
      this.rightBefore = other;
      left[from + index] = this.leftOut;
      right[from + index] = this.rightOut;
    }
  }
}
