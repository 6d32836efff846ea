/** A plucked string as a digital waveguide: a loop as long as one period, with what the string loses on the way round. */
import { sine, WHOLE_TURN } from '../util/circle.ts';
import { Excitation, type Strike } from './excitation.ts';
import { delayOfLoss, Loss, type Damping } from './loss.ts';
import { hertz } from './pitch.ts';

/** How a sounding string is bent and shaken, in seconds from the start of the note. */
export interface Movement {
  /** Where the pitch comes from, in semitones beside the note, and how long the way is: a slide. */
  readonly glideFrom: number;
  readonly glideSeconds: number;
  /** How far the string is bent, in semitones; 0 for not at all. */
  readonly bend: number;
  /** When the bend begins and how long it takes to come up; a length of 0 is bent before it is plucked. */
  readonly bendAt: number;
  readonly bendSeconds: number;
  /** When it begins to be let down, and how long that takes; infinity where it stays up. */
  readonly releaseAt: number;
  readonly releaseSeconds: number;
  readonly vibrato: boolean;
}

export const STILL: Movement = {
  glideFrom: 0,
  glideSeconds: 0,
  bend: 0,
  bendAt: 0,
  bendSeconds: 0,
  releaseAt: Infinity,
  releaseSeconds: 0,
  vibrato: false,
};

/** The longest loop, in samples: room for a note below 6 Hz at 48 kHz. A power of two. */
const ROOM = 8192;
const MASK = ROOM - 1;
/** Interpolation reads two samples to either side. */
const SHORTEST = 4;
const LONGEST = ROOM - 8;

/** The fingertip is on the string for this long before it lets go: until then what sounded before is faded. In seconds. */
export const TOUCH_SECONDS = 0.0025;
/** Losses and pitches change over this long, so that nothing jumps. In seconds. */
const CHANGE_SECONDS = 0.006;
/** How often a moving pitch is worked out, in samples; between them it goes straight on. */
const STRIDE = 32;

/** Quieter than this the string is at rest: far below the last bit of sixteen. */
const INAUDIBLE = 1e-5;
/** A string is listened to for at least its longest period before it is taken to be at rest, in samples. */
const LISTEN = ROOM;

/** A finger shakes a string sideways, which can only raise it. Set by judgement. */
const VIBRATO_HERTZ = 5.5;
const VIBRATO_SEMITONES = 0.35;
const VIBRATO_AFTER = 0.15;
const VIBRATO_GROWS = 0.2;

const NOTHING = 0;
const STRIKING = 1;
const JOINING = 2;

export class PluckedString {
  private readonly loop = new Float64Array(ROOM);
  private write = 0;
  private filtered = 0;
  private readonly excitation = new Excitation();
  private readonly wanted = new Loss();

  /** In samples: what the interpolated line delays. */
  private delay = 100;
  private delayStep = 0;
  private gain = 0;
  private gainStep = 0;
  private pole = 0;
  private poleStep = 0;
  private changeLeft = 0;

  private midi = 60;
  private movement = STILL;
  /** Samples since the note began. */
  private age = 0;
  private isMoving = false;
  private strideLeft = 0;

  private awaited = NOTHING;
  private touchLeft = 0;
  private readonly touch: number;
  private readonly change: number;
  private nextStrike: Strike | undefined;
  private nextMidi = 60;
  private nextMovement = STILL;
  private nextDamping: Damping = 'none';
  private nextFretted = false;

  private loudest = 0;
  private listened = 0;
  private isAwake = false;

  /** `rate` in samples a second. */
  constructor(private readonly rate: number) {
    this.touch = Math.max(1, Math.round(TOUCH_SECONDS * rate));
    this.change = Math.max(1, Math.round(CHANGE_SECONDS * rate));
  }

  get isAtRest(): boolean {
    return !this.isAwake && this.awaited === NOTHING;
  }

  /** A finger takes the string now and lets it go {@link TOUCH_SECONDS} later; what sounded before is gone by then. */
  pluck(strike: Strike, midi: number, damping: Damping, fretted: boolean, movement: Movement): void {
    this.await(STRIKING, strike, midi, damping, fretted, movement);
  }

  /** The fretting hand alone makes another note of what sounds, as late as a pluck would: hammer-on, pull-off, slide. */
  join(strike: Strike | undefined, midi: number, damping: Damping, fretted: boolean, movement: Movement): void {
    // What is joined to a string that is still under the finger is let go together with it.
    if (this.awaited === STRIKING) this.await(STRIKING, this.nextStrike, midi, damping, fretted, movement);
    else this.await(JOINING, strike, midi, damping, fretted, movement);
  }

  /** The hand ends what sounds. It dies away fast, and not at once. */
  stop(): void {
    if (this.awaited === STRIKING) {
      this.nextDamping = 'dead';
      return;
    }
    this.awaited = NOTHING;
    this.damp('stopped', true);
  }

  /** At rest at once: for when nothing can be heard anyway. */
  silence(): void {
    this.loop.fill(0);
    this.filtered = 0;
    this.excitation.stop();
    this.awaited = NOTHING;
    this.isAwake = false;
    this.isMoving = false;
  }

  private await(
    what: number,
    strike: Strike | undefined,
    midi: number,
    damping: Damping,
    fretted: boolean,
    movement: Movement,
  ): void {
    // Plucks that come faster than a finger can let go are one pluck, the last.
    if (this.awaited === NOTHING) this.touchLeft = this.touch;
    this.awaited = what;
    this.nextStrike = strike;
    this.nextMidi = midi;
    this.nextDamping = damping;
    this.nextFretted = fretted;
    this.nextMovement = movement;
  }

  private begin(): void {
    const isStruck = this.awaited === STRIKING || !this.isAwake;
    this.awaited = NOTHING;
    this.midi = this.nextMidi;
    this.movement = this.nextMovement;
    this.age = 0;
    const { glideSeconds, bend, vibrato } = this.movement;
    this.isMoving = glideSeconds > 0 || bend !== 0 || vibrato;
    this.strideLeft = 0;
    const frequency = hertz(this.midi + this.offset(0));
    if (isStruck) {
      this.loop.fill(0);
      this.filtered = 0;
      this.wanted.set(hertz(this.midi), this.rate, this.nextDamping, this.nextFretted);
      this.gain = this.wanted.gain;
      this.pole = this.wanted.pole;
      this.changeLeft = 0;
      this.delay = this.delayFor(frequency);
      this.delayStep = 0;
    } else this.damp(this.nextDamping, this.nextFretted);
    if (this.nextStrike) this.excitation.begin(this.nextStrike, this.rate / frequency, this.rate);
    this.isAwake = true;
    this.loudest = 0;
    this.listened = 0;
  }

  /** Other losses and, with them, the length of the string that the note wants now: over a moment that is short and not nought. */
  private damp(damping: Damping, fretted: boolean): void {
    this.wanted.set(hertz(this.midi), this.rate, damping, fretted);
    this.changeLeft = this.change;
    this.gainStep = (this.wanted.gain - this.gain) / this.change;
    this.poleStep = (this.wanted.pole - this.pole) / this.change;
    if (this.isMoving) return;
    const frequency = hertz(this.midi + this.offset(this.age));
    this.delayStep = (this.delayFor(frequency, this.wanted.pole) - this.delay) / this.change;
  }

  /** In samples: a period less what the loss delays. */
  private delayFor(frequency: number, pole = this.changeLeft > 0 ? this.wanted.pole : this.pole): number {
    const delay = this.rate / frequency - delayOfLoss(pole, frequency, this.rate);
    return Math.min(LONGEST, Math.max(SHORTEST, delay));
  }

  /** Semitones beside the note at so many samples after its start. */
  private offset(age: number): number {
    const { glideFrom, glideSeconds, bend, bendAt, bendSeconds, releaseAt, releaseSeconds, vibrato } = this.movement;
    const seconds = age / this.rate;
    let semitones = seconds < glideSeconds ? glideFrom * (1 - seconds / glideSeconds) : 0;
    if (bend !== 0) {
      const up = eased(seconds - bendAt, bendSeconds);
      const down = eased(seconds - releaseAt, releaseSeconds);
      semitones += bend * (up - down);
    }
    if (vibrato && seconds > VIBRATO_AFTER) {
      const grown = Math.min(1, (seconds - VIBRATO_AFTER) / VIBRATO_GROWS);
      const turn = (seconds - VIBRATO_AFTER) * VIBRATO_HERTZ - 0.25;
      semitones += VIBRATO_SEMITONES * grown * 0.5 * (1 + sine(WHOLE_TURN * turn));
    }
    return semitones;
  }

  private aim(): void {
    this.strideLeft = STRIDE;
    const goal = this.delayFor(hertz(this.midi + this.offset(this.age + STRIDE)));
    this.delayStep = (goal - this.delay) / STRIDE;
  }

  /** Writes `count` samples of what the bridge is moved by into `out`. Allocates nothing. */
  render(out: Float64Array, count: number): void {
    for (let index = 0; index < count;) {
      const isQuiet = this.awaited === NOTHING && !this.isMoving && this.changeLeft === 0 && this.excitation.isOver;
      if (this.isAwake && isQuiet) index = this.ringOn(out, index, count);
      else out[index++] = this.step();
    }
  }

  /** One sample while something is being done to the string. */
  private step(): number {
    let fade = 1;
    if (this.awaited !== NOTHING) {
      if (this.touchLeft <= 0) this.begin();
      else {
        if (this.awaited === STRIKING) fade = this.touchLeft / this.touch;
        this.touchLeft--;
      }
    }
    if (!this.isAwake) return 0;
    if (this.isMoving) {
      if (this.strideLeft === 0) this.aim();
      this.strideLeft--;
      this.delay += this.delayStep;
    }
    if (this.changeLeft > 0) {
      this.gain += this.gainStep;
      this.pole += this.poleStep;
      if (!this.isMoving) this.delay += this.delayStep;
      this.changeLeft--;
    }
    this.age++;
    const { loop, write } = this;
    const whole = Math.floor(this.delay);
    const part = this.delay - whole;
    const at = write - whole + 1 + ROOM;
    const value = between(part, loop[at & MASK], loop[(at - 1) & MASK], loop[(at - 2) & MASK], loop[(at - 3) & MASK]);
    this.filtered = this.gain * (1 - this.pole) * value + this.pole * this.filtered;
    const moved = this.filtered + (this.excitation.isOver ? 0 : this.excitation.next());
    loop[write] = moved;
    this.write = (write + 1) & MASK;
    const loud = moved < 0 ? -moved : moved;
    if (loud > this.loudest) this.loudest = loud;
    this.listened++;
    if (this.listened >= LISTEN) this.judge();
    return moved * fade;
  }

  /** The same for a string that is left alone, for as long as nothing is to be judged. The next index. */
  private ringOn(out: Float64Array, from: number, count: number): number {
    const { loop, pole } = this;
    const through = this.gain * (1 - pole);
    const whole = Math.floor(this.delay);
    const part = this.delay - whole;
    const to = Math.min(count, from + LISTEN - this.listened);
    let { write, filtered, loudest } = this;
    for (let index = from; index < to; index++) {
      const at = write - whole + 1 + ROOM;
      const value = between(part, loop[at & MASK], loop[(at - 1) & MASK], loop[(at - 2) & MASK], loop[(at - 3) & MASK]);
      filtered = through * value + pole * filtered;
      loop[write] = filtered;
      write = (write + 1) & MASK;
      const loud = filtered < 0 ? -filtered : filtered;
      if (loud > loudest) loudest = loud;
      out[index] = filtered;
    }
    this.write = write;
    this.filtered = filtered;
    this.loudest = loudest;
    this.age += to - from;
    this.listened += to - from;
    if (this.listened >= LISTEN) this.judge();
    return to;
  }

  /** Whether anything was to be heard lately. */
  private judge(): void {
    if (this.loudest < INAUDIBLE && this.excitation.isOver) this.silence();
    this.loudest = 0;
    this.listened = 0;
  }
}

/**
 * Between the second and the third of four samples, by Lagrange's polynomial through all of them: as good as exact for a note's own
 * pitch, and smooth while that moves. `part` from 0 up to 1.
 */
function between(part: number, first: number, second: number, third: number, fourth: number): number {
  const below = part - 1;
  const further = part - 2;
  const above = part + 1;
  return (
    (below * further * (above * second * 3 - part * first) - above * part * (further * third * 3 - below * fourth)) / 6
  );
}

/** From 0 to 1 over so many seconds, without a corner; 1 at once where it takes none. */
function eased(since: number, seconds: number): number {
  if (since >= seconds) return 1;
  if (since <= 0) return 0;
  const part = since / seconds;
  return part * part * (3 - 2 * part);
}
