/** What a string loses on each way to and fro: how long a note lasts, and how much sooner its high partials die. */
import { arcTangent, cosine, sine, WHOLE_TURN } from '../util/circle.ts';
import { powerOfTwo } from '../util/power.ts';

/** What damps a string: nothing but itself, the side of the palm, a finger laid across it, the hand that ends a note. */
export type Damping = 'none' | 'palm' | 'dead' | 'stopped';

/** 60 dB as a power of two: a note has died away once it is a thousandth of what it was. */
const DIED_AWAY = 9.965784284662087;

/** How long an open string lasts towards 0 Hz, in seconds, and the pitch that lasts half as long. Set by judgement. */
const LONGEST = 20;
const HALF_AS_LONG = 110;
/** A fingertip takes more than a nut does. Set by judgement. */
const FRETTED = 0.8;
/** How far above the note the loss of high partials is set, in Hz. Set by judgement. */
const BRIGHT = 2000;
/** How long partials last there at most, in seconds, and as a part of how long the note itself does. Set by judgement. */
const BRIGHT_SECONDS = 1.5;
const BRIGHT_PART = 0.35;
/** Frequencies beyond this part of the rate are no place to set a loss at. */
const HIGHEST_PART = 0.45;

/** Seconds to die away under each damping: at the note's own pitch, and far above it. Set by judgement. */
const DAMPED: Readonly<Record<Exclude<Damping, 'none'>, readonly [number, number]>> = {
  palm: [0.45, 0.1],
  dead: [0.07, 0.03],
  stopped: [0.11, 0.05],
};

/** A loop that lets nought hertz through for ever would drift. */
const MOST_GAIN = 0.9999;

/** The loss of a loop: a gain and a one-pole low-pass, y = gain·(1 − pole)·x + pole·y before. Made anew in place, for the audio loop. */
export class Loss {
  gain = 0;
  pole = 0;

  /** For a note of `frequency` Hz at `rate` samples a second. */
  set(frequency: number, rate: number, damping: Damping, fretted: boolean): void {
    const own = (LONGEST / (1 + frequency / HALF_AS_LONG)) * (fretted ? FRETTED : 1);
    const [low, high] =
      damping === 'none'
        ? [own, Math.min(own * BRIGHT_PART, BRIGHT_SECONDS)]
        : [Math.min(own, DAMPED[damping][0]), DAMPED[damping][1]];
    const lasting = remaining(frequency, low);
    // How much less of a high partial than of the note itself is left after one period.
    const part = Math.min(1, remaining(frequency, Math.min(low, high)) / lasting);
    const here = cosine((WHOLE_TURN * frequency) / rate);
    const above = cosine(WHOLE_TURN * Math.min(HIGHEST_PART, (frequency + BRIGHT) / rate));
    this.pole = poleFor(part * part, here, above);
    const { pole } = this;
    const through = (1 - pole) / Math.sqrt(1 - 2 * pole * here + pole * pole);
    this.gain = Math.min(MOST_GAIN, lasting / through);
  }
}

/** What is left after one period of a sound that dies away in so many seconds. */
const remaining = (frequency: number, seconds: number): number => powerOfTwo(-DIED_AWAY / (frequency * seconds));

/**
 * The pole of a one-pole low-pass that lets through `part` of the power at the frequency with the cosine `above`, against that with
 * the cosine `here`: from |H|² = (1 − p)² / (1 − 2p·cos ω + p²), the root below 1 of A·p² − 2B·p + A = 0.
 */
function poleFor(part: number, here: number, above: number): number {
  const a = 1 - part;
  const b = here - part * above;
  if (a <= 0 || b <= a) return 0;
  return (b - Math.sqrt(b * b - a * a)) / a;
}

/** How late the low-pass lets a note of `frequency` Hz through, in samples. */
export function delayOfLoss(pole: number, frequency: number, rate: number): number {
  const angle = (WHOLE_TURN * frequency) / rate;
  return arcTangent((pole * sine(angle)) / (1 - pole * cosine(angle))) / angle;
}
