/** Exact fractions, in which all musical time is counted. One whole note is 1. */
export interface Fraction {
  /** Whole number; may be negative. */
  readonly over: number;
  /** Whole number above 0, without a common divisor with `over`. */
  readonly under: number;
}

const divisor = (a: number, b: number): number => (b === 0 ? Math.abs(a) : divisor(b, a % b));

/** The fraction over/under in lowest terms. `under` must not be 0 and both must be safe whole numbers. */
export function fraction(over: number, under = 1): Fraction {
  const by = divisor(over, under) * (under < 0 ? -1 : 1);
  return { over: over / by, under: under / by };
}

export const ZERO: Fraction = { over: 0, under: 1 };

export const plus = (a: Fraction, b: Fraction): Fraction =>
  fraction(a.over * b.under + b.over * a.under, a.under * b.under);
export const minus = (a: Fraction, b: Fraction): Fraction =>
  fraction(a.over * b.under - b.over * a.under, a.under * b.under);
export const times = (a: Fraction, b: Fraction): Fraction => fraction(a.over * b.over, a.under * b.under);
/** `b` must not be 0. */
export const dividedBy = (a: Fraction, b: Fraction): Fraction => fraction(a.over * b.under, a.under * b.over);
export const compare = (a: Fraction, b: Fraction): number => a.over * b.under - b.over * a.under;
export const equal = (a: Fraction, b: Fraction): boolean => a.over === b.over && a.under === b.under;
export const least = (a: Fraction, b: Fraction): Fraction => (compare(a, b) <= 0 ? a : b);
export const toNumber = (a: Fraction): number => a.over / a.under;
export const formatFraction = (a: Fraction): string => (a.under === 1 ? `${a.over}` : `${a.over}/${a.under}`);

/** Reads `3/8` or `2`; undefined for anything else, for 0 and for parts above 4096. */
export function parseFraction(text: string): Fraction | undefined {
  const match = /^(\d{1,4})(?:\/(\d{1,4}))?$/.exec(text);
  if (!match) return undefined;
  const over = Number(match[1]);
  const under = match[2] === undefined ? 1 : Number(match[2]);
  return over > 0 && under > 0 && under <= 4096 ? fraction(over, under) : undefined;
}
