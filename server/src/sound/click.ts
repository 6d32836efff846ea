/** The metronome: a short knock on wood, higher on the first beat of a bar. */
import { Resonator } from './resonator.ts';

const HERTZ = 1150;
const FIRST_HERTZ = 1720;
const WIDTH = 90;
const LEVEL = 0.34;
/** How long the knock itself lasts, in seconds. */
const KNOCK_SECONDS = 0.0012;
/** After this long the wood is silent, in seconds. */
const SOUNDS_SECONDS = 0.12;

export class Click {
  private readonly wood: Resonator;
  private readonly firstWood: Resonator;
  private readonly knock: number;
  private readonly sounds: number;
  private at: number;
  private isFirst = false;

  /** `rate` in samples a second. */
  constructor(rate: number) {
    this.wood = new Resonator(HERTZ, WIDTH, rate);
    this.firstWood = new Resonator(FIRST_HERTZ, WIDTH, rate);
    this.knock = Math.max(4, Math.round(KNOCK_SECONDS * rate));
    this.sounds = Math.round(SOUNDS_SECONDS * rate);
    this.at = this.sounds;
  }

  strike(isFirst: boolean): void {
    this.at = 0;
    this.isFirst = isFirst;
  }

  get isAtRest(): boolean {
    return this.at >= this.sounds;
  }

  silence(): void {
    this.at = this.sounds;
    this.wood.silence();
    this.firstWood.silence();
  }

  next(): number {
    if (this.isAtRest) return 0;
    const part = this.at / this.knock;
    // Up and down again, as much above nought as below.
    const force = part < 1 ? part * (1 - part) * (1 - 2 * part) * 60 : 0;
    this.at++;
    const wood = this.wood.next(this.isFirst ? 0 : force);
    const first = this.firstWood.next(this.isFirst ? force : 0);
    const left = this.sounds - this.at;
    // What is left of it after that long is faded, so that the end of it is silent.
    return LEVEL * (wood + first) * Math.min(1, (8 * left) / this.sounds);
  }
}
