/** Swing: pairs of equal notes that are played long and short, two to one. */
import { compare, dividedBy, fraction, minus, plus, times, type Fraction } from '../util/fraction.ts';

const TWO = fraction(2, 1);
/** What a half of the pair lasts, as a part of what is written. */
const LONG = fraction(4, 3);
const SHORT = fraction(2, 3);

/**
 * When a moment of a bar comes where notes of the length `swing` are swung, in whole notes from the start of the bar. Pairs are
 * counted from there; what is left over at the end of an odd bar stays as it is written.
 */
export function swungAt(moment: Fraction, swing: Fraction | undefined, bar: Fraction): Fraction {
  if (!swing || swing.over <= 0) return moment;
  const pair = times(swing, TWO);
  const { over, under } = dividedBy(moment, pair);
  const start = times(pair, fraction(Math.floor(over / under), 1));
  if (compare(plus(start, pair), bar) > 0) return moment;
  const into = minus(moment, start);
  if (compare(into, swing) <= 0) return plus(start, times(into, LONG));
  return plus(start, plus(times(swing, LONG), times(minus(into, swing), SHORT)));
}
