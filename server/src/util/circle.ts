/** Sine, cosine and arc tangent from the four operations and the square root: the library's may differ from machine to machine. */

export const HALF_TURN = 3.141592653589793;
export const WHOLE_TURN = 6.283185307179586;
const QUARTER_TURN = HALF_TURN / 2;

/** Terms of the sine's series; on a quarter turn the first one left out is below 1e-17. */
const SINE_TERMS = 10;
/** Terms of the arc tangent's, for values up to 0.2: the first one left out is below 1e-17. */
const TANGENT_TERMS = 12;

/** The sine of an angle in radians, good to about fifteen digits for angles up to some thousands of turns. */
export function sine(angle: number): number {
  let rest = angle - Math.round(angle / WHOLE_TURN) * WHOLE_TURN;
  if (rest > QUARTER_TURN) rest = HALF_TURN - rest;
  else if (rest < -QUARTER_TURN) rest = -HALF_TURN - rest;
  const square = rest * rest;
  let sum = 1;
  for (let term = SINE_TERMS; term > 0; term--) sum = 1 - (sum * square) / (2 * term * (2 * term + 1));
  return rest * sum;
}

export const cosine = (angle: number): number => sine(angle + QUARTER_TURN);

/** The angle in radians, between a quarter turn either way, whose tangent this is. */
export function arcTangent(tangent: number): number {
  // Halving the angle three times leaves a tangent of at most 0.2, where few terms do.
  let part = tangent;
  for (let halving = 0; halving < 3; halving++) part /= 1 + Math.sqrt(1 + part * part);
  const square = part * part;
  let sum = 0;
  for (let term = TANGENT_TERMS - 1; term >= 0; term--) sum = 1 / (2 * term + 1) - square * sum;
  return 8 * part * sum;
}
