/** Noise that is the same every time: a pluck's scrape, from a seed. */

/** Steps of a 32-bit shift register; see G. Marsaglia, "Xorshift RNGs", 2003. */
export class Noise {
  private state = 1;

  /** The same whole number gives the same noise; any will do. */
  begin(seed: number): void {
    this.state = (Math.imul(seed + 1, 0x9e3779b1) ^ 0x5bd1e995) | 0 || 1;
  }

  /** From −1 up to 1. */
  next(): number {
    let { state } = this;
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    this.state = state;
    return state / 0x80000000;
  }
}
