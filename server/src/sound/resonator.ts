/** Something that rings at one pitch when it is knocked: a mode of the body, the wood of a metronome. */
import { cosine, HALF_TURN, WHOLE_TURN } from '../util/circle.ts';
import { powerOfTwo } from '../util/power.ts';

const BINARY_LOGARITHM_OF_E = 1.4426950408889634;

/** Two poles and zeros at 0 Hz and half the rate, so that at its own pitch a steady tone comes through as it went in. */
export class Resonator {
  private readonly back: number;
  private readonly backTwice: number;
  private readonly level: number;
  private before = 0;
  private beforeThat = 0;
  private inBefore = 0;
  private inBeforeThat = 0;

  /** `frequency` and the width of the peak in Hz, `rate` in samples a second. */
  constructor(frequency: number, width: number, rate: number) {
    const radius = powerOfTwo((-HALF_TURN * width * BINARY_LOGARITHM_OF_E) / rate);
    this.back = 2 * radius * cosine((WHOLE_TURN * frequency) / rate);
    this.backTwice = -radius * radius;
    this.level = (1 - radius * radius) / 2;
  }

  next(input: number): number {
    const out = this.level * (input - this.inBeforeThat) + this.back * this.before + this.backTwice * this.beforeThat;
    this.inBeforeThat = this.inBefore;
    this.inBefore = input;
    this.beforeThat = this.before;
    this.before = out;
    return out;
  }

  silence(): void {
    this.before = 0;
    this.beforeThat = 0;
    this.inBefore = 0;
    this.inBeforeThat = 0;
  }
}
