/** How a player counts an instant of a bar aloud: `1 & 2 &`, `1 e & a`, in 6/8 `1 2 3 4 5 6`. */
import type { Meter } from '../lesson/lesson.ts';
import type { BarScore } from '../realise/score.ts';
import { compare, dividedBy, equal, fraction, minus, plus, ZERO } from '../util/fraction.ts';
import type { Fraction } from '../util/fraction.ts';

/** What is said within a beat, by the part of it that has gone. Triplets are counted in three, other parts have no word. */
const WITHIN: readonly (readonly [Fraction, string])[] = [
  [fraction(1, 2), '&'],
  [fraction(1, 4), 'e'],
  [fraction(3, 4), 'a'],
  [fraction(1, 3), 'tri'],
  [fraction(2, 3), 'let'],
];

/** The number is of the meter's written units, so that 6/8 counts to six. A pick-up counts the end of its bar. */
export function countWord(start: Fraction, bar: BarScore, meter: Meter): string {
  const missing = minus(meter.bar, bar.length);
  const upbeat = bar.number === 0 && compare(missing, ZERO) > 0 ? missing : ZERO;
  const units = dividedBy(plus(start, upbeat), fraction(1, meter.unit));
  const whole = Math.floor(units.over / units.under);
  const part = minus(units, fraction(whole));
  if (equal(part, ZERO)) return `${whole + 1}`;
  return WITHIN.find(([gone]) => equal(gone, part))?.[1] ?? '·';
}
