/** What sets a string going: the kink that a finger pulls into it at one place, let go over a moment. */
import { Noise } from './noise.ts';

/** How the string is set going. */
export interface Strike {
  /** 0 to 1. */
  readonly force: number;
  /** Where along the sounding length, as a part of it from the bridge, above 0 and below 1. */
  readonly place: number;
  /** Over how long it is let go, in seconds: a soft fingertip needs longer and sounds darker. */
  readonly softness: number;
  /** How much of the nail's or plectrum's scrape is heard, as a part of the force. */
  readonly scrape: number;
  /** Which partials sound: every one of them for 1, every second for 2, as if a finger touched the node. */
  readonly partial: number;
  readonly seed: number;
}

const SCRAPE_SECONDS = 0.004;

/**
 * The force at the bridge over the first period or two, sample by sample. It goes up when the kink from the near side arrives and
 * down when that from the far side does: a comb in which every partial with a node at `place` is missing. Its sum is nought.
 */
export class Excitation {
  /** Samples since the string was let go, and until nothing more comes. */
  private at = 0;
  private end = 0;
  private period = 1;
  private place = 0.5;
  private width = 1;
  private force = 0;
  private partial = 1;
  private scrape = 0;
  private scrapeEnd = 1;
  private roughBefore = 0;
  private readonly noise = new Noise();

  /** `period` in samples. */
  begin(strike: Strike, period: number, rate: number): void {
    this.at = 0;
    this.period = period;
    this.place = strike.place;
    // What is let go over more than the way to the bridge would have no place any more.
    this.width = Math.max(2, Math.min(strike.softness * rate, period * 0.5));
    this.force = strike.force;
    this.partial = Math.max(1, strike.partial);
    this.scrape = strike.scrape * strike.force;
    this.scrapeEnd = Math.max(1, SCRAPE_SECONDS * rate);
    this.roughBefore = 0;
    this.noise.begin(strike.seed);
    const copies = this.partial === 1 ? 0 : period;
    this.end = Math.ceil(Math.max(period + this.width + copies, this.scrapeEnd));
  }

  stop(): void {
    this.at = this.end;
  }

  get isOver(): boolean {
    return this.at >= this.end;
  }

  next(): number {
    const { at, period, partial } = this;
    this.at++;
    let sum = 0;
    // Shifted by equal parts of the period and added, only partials with a node at the touched place are left.
    for (let copy = 0; copy < partial; copy++) sum += this.kink(at - (copy * period) / partial);
    return (this.force * sum) / partial + (at < this.scrapeEnd ? this.rough(at) : 0);
  }

  private kink(time: number): number {
    const { period, place } = this;
    if (time <= 0 || time >= period + this.width) return 0;
    const up = this.step(time);
    return up - this.step(time - place * period) - place * (up - this.step(time - period));
  }

  /** From 0 to 1 without a corner. */
  private step(time: number): number {
    if (time <= 0) return 0;
    if (time >= this.width) return 1;
    const part = time / this.width;
    return part * part * (3 - 2 * part);
  }

  /** Differences of noise, so that they add up to about nought. */
  private rough(at: number): number {
    const rough = this.noise.next() * (1 - at / this.scrapeEnd) * Math.min(1, at / 8);
    const difference = rough - this.roughBefore;
    this.roughBefore = rough;
    return this.scrape * difference;
  }
}
