/** Measures the pitch of samples without knowing how they were made, and without being told what it should be. */

/** In Hz: what is looked for lies between these. */
const LOWEST = 26;
const HIGHEST = 2200;

/** Samples over which two stretches are laid on each other to find the period. */
const COMPARED = 3072;
/** A period is taken where the likeness comes this near to the best: what fits two periods fits one. */
const AS_GOOD = 0.93;

/**
 * In Hz, from at least a second of samples. First the period by autocorrelation with a parabola through the best lag; then, from the
 * phase of the fundamental in two stretches ever farther apart, its frequency: half a second apart a hundredth of a turn is 0.02 Hz.
 */
export function pitchOf(samples: Float32Array, rate: number, from: number, seconds: number): number {
  let frequency = rate / periodOf(samples, rate, from);
  const window = Math.round((seconds * rate) / 2);
  for (const apart of [0.02, 0.1, seconds / 2]) {
    const step = Math.round(apart * rate);
    const turn =
      phaseAt(samples, rate, from + step, window, frequency) - phaseAt(samples, rate, from, window, frequency);
    const nearest = turn - Math.round(turn / (2 * Math.PI)) * 2 * Math.PI;
    frequency += (nearest * rate) / (2 * Math.PI * step);
  }
  return frequency;
}

/** How far `one` lies above `other`, in cents. */
export const cents = (one: number, other: number): number => 1200 * Math.log2(one / other);

/** In samples, with a fraction. */
function periodOf(samples: Float32Array, rate: number, from: number): number {
  const shortest = Math.floor(rate / HIGHEST);
  const longest = Math.ceil(rate / LOWEST);
  const likeness: number[] = [];
  for (let lag = 0; lag <= longest + 1; lag++) likeness.push(lag < shortest - 1 ? 0 : likenessAt(samples, from, lag));
  let best = 0;
  for (let lag = shortest; lag <= longest; lag++) best = Math.max(best, likeness[lag]);
  for (let lag = shortest; lag <= longest; lag++) {
    const here = likeness[lag];
    if (here < best * AS_GOOD || here < likeness[lag - 1] || here < likeness[lag + 1]) continue;
    const bow = likeness[lag - 1] - 2 * here + likeness[lag + 1];
    return lag + (bow === 0 ? 0 : (likeness[lag - 1] - likeness[lag + 1]) / (2 * bow));
  }
  throw new Error('no pitch is there');
}

/** 1 where both stretches are the same, 0 where they have nothing to do with each other. */
function likenessAt(samples: Float32Array, from: number, lag: number): number {
  let product = 0;
  let power = 0;
  for (let index = from; index < from + COMPARED; index++) {
    const one = samples[index];
    const other = samples[index + lag];
    product += one * other;
    power += one * one + other * other;
  }
  return power === 0 ? 0 : (2 * product) / power;
}

/** In radians, against a turning pointer of `frequency` that is at 0 at sample 0; with Hann's window. */
function phaseAt(samples: Float32Array, rate: number, from: number, count: number, frequency: number): number {
  const { real, imaginary } = partialAt(samples, rate, from, count, frequency);
  return Math.atan2(imaginary, real);
}

/** How strong a partial of `frequency` Hz is in a stretch. */
export function strengthAt(
  samples: Float32Array,
  rate: number,
  from: number,
  seconds: number,
  frequency: number,
): number {
  const { real, imaginary } = partialAt(samples, rate, from, Math.round(seconds * rate), frequency);
  return Math.hypot(real, imaginary);
}

function partialAt(
  samples: Float32Array,
  rate: number,
  from: number,
  count: number,
  frequency: number,
): { readonly real: number; readonly imaginary: number } {
  const angle = (2 * Math.PI * frequency) / rate;
  // The pointer and the window's own are turned step by step: a sine for each sample would take most of the time.
  let real = 0;
  let imaginary = 0;
  let x = Math.cos(angle * from);
  let y = -Math.sin(angle * from);
  const turnX = Math.cos(angle);
  const turnY = -Math.sin(angle);
  let windowX = 1;
  let windowY = 0;
  const windowTurnX = Math.cos((2 * Math.PI) / count);
  const windowTurnY = Math.sin((2 * Math.PI) / count);
  for (let index = 0; index < count; index++) {
    const value = samples[from + index] * (0.5 - 0.5 * windowX);
    real += value * x;
    imaginary += value * y;
    [x, y] = [x * turnX - y * turnY, x * turnY + y * turnX];
    [windowX, windowY] = [windowX * windowTurnX - windowY * windowTurnY, windowX * windowTurnY + windowY * windowTurnX];
  }
  return { real: (4 * real) / count, imaginary: (4 * imaginary) / count };
}
