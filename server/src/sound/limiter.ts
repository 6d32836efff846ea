/** Keeps the sum of all strings within what a loudspeaker can be sent: quieter while it is loud, and never a sample beyond ±1. */

/** From here on it is turned down. */
const LOUD = 0.7;
/** Above this the curve bends, so that what the turning down was too late for is rounded and not cut. */
const BENDS = 0.8;
/** Seconds in which it is turned down, and up again. */
const DOWN_SECONDS = 0.001;
const UP_SECONDS = 0.25;

export class Limiter {
  private level = 0;
  private readonly down: number;
  private readonly up: number;

  /** `rate` in samples a second. */
  constructor(rate: number) {
    this.down = 1 / Math.max(1, DOWN_SECONDS * rate);
    this.up = 1 / Math.max(1, UP_SECONDS * rate);
  }

  /** In place, both channels alike, so that nothing moves from side to side. */
  limit(left: Float32Array, right: Float32Array, from: number, count: number): void {
    for (let index = from; index < from + count; index++) {
      const one = left[index];
      const other = right[index];
      const loud = Math.max(one < 0 ? -one : one, other < 0 ? -other : other);
      this.level += (loud - this.level) * (loud > this.level ? this.down : this.up);
      const gain = this.level > LOUD ? LOUD / this.level : 1;
      left[index] = rounded(one * gain);
      right[index] = rounded(other * gain);
    }
  }
}

/** As it is up to {@link BENDS}, beyond that ever flatter and below 1. */
function rounded(value: number): number {
  const size = value < 0 ? -value : value;
  if (size <= BENDS) return value;
  const beyond = (size - BENDS) / (1 - BENDS);
  const result = BENDS + ((1 - BENDS) * beyond) / (1 + beyond);
  return value < 0 ? -result : result;
}
