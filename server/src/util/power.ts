/** Powers of two from the four operations alone: the library's may differ in their last digits from machine to machine. */

const NATURAL_LOGARITHM_OF_TWO = 0.6931471805599453;

/** Terms of the series; the first one left out is below 1e-17. */
const TERMS = 18;

/** Beyond these a double holds nothing but nought or infinity. */
const LOWEST = -1000;
const HIGHEST = 1000;

/** 2 to the `exponent`, good to about fifteen digits; exponents are taken to lie between −1000 and 1000. */
export function powerOfTwo(exponent: number): number {
  const bounded = Math.min(HIGHEST, Math.max(LOWEST, exponent));
  const whole = Math.floor(bounded);
  const natural = (bounded - whole) * NATURAL_LOGARITHM_OF_TWO;
  let result = 1;
  for (let term = TERMS; term > 0; term--) result = 1 + (result * natural) / term;
  for (let step = whole; step > 0; step--) result *= 2;
  for (let step = whole; step < 0; step++) result /= 2;
  return result;
}
