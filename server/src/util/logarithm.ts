/** The binary logarithm from the four operations alone: the library's may differ in its last digits from machine to machine. */

const NATURAL_LOGARITHM_OF_TWO = 0.6931471805599453;

/** Terms of the series; the first one left out is below (1/3)^31 / 31, smaller than a double can tell beside 1. */
const TERMS = 15;

/** log₂ of `value`, which must be above 0 and finite; exact for powers of two, else good to about fifteen digits. */
export function binaryLogarithm(value: number): number {
  let whole = 0;
  let part = value;
  for (; part >= 2; part /= 2) whole++;
  for (; part < 1; part *= 2) whole--;
  // With z = (part − 1) / (part + 1), at most a third: ln part = 2 · (z + z³/3 + z⁵/5 + …).
  const z = (part - 1) / (part + 1);
  const square = z * z;
  let sum = 0;
  for (let term = TERMS - 1; term >= 0; term--) sum = sum * square + 1 / (2 * term + 1);
  return whole + (2 * z * sum) / NATURAL_LOGARITHM_OF_TWO;
}
