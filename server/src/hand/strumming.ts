/** The strumming arm: how fast a row of strokes swings it to and fro. Knows no strings. */
import { toNumber, type Fraction } from '../util/fraction.ts';
import { MILLION, SWINGS } from './model.ts';
import type { Rates } from './model.ts';
import { speedOf, type Speed } from './plucking.ts';

export interface TimedStroke {
  /** A muted stroke falls whichever way the arm comes; a roll is the fingers' own and swings no arm. */
  readonly kind: 'down' | 'up' | 'mute' | 'roll';
  /** In seconds from any moment. */
  readonly onset: Fraction;
}

export interface StrokeRemark {
  /** Both strokes the same way, so that the arm goes back unheard between them, or one each way. */
  readonly way: 'down' | 'up' | 'to and fro';
  /** Strokes a second, and what they are measured by. */
  readonly rate: number;
  readonly rates: Rates;
  /** Index of the later of the two strokes. */
  readonly at: number;
}

/** Strokes a second where each is one swing, and where two share one. */
export const ONE_WAY: Rates = SWINGS;
export const TO_AND_FRO: Rates = {
  comfortable: 2 * SWINGS.comfortable,
  hard: 2 * SWINGS.hard,
  limit: 2 * SWINGS.limit,
};

/** Strokes that follow upon each other faster than is easy to keep up, in the order of time, in which they must be given. */
export function strokeRemarks(strokes: readonly TimedStroke[]): readonly StrokeRemark[] {
  const remarks: StrokeRemark[] = [];
  strokes.forEach(({ kind, onset }, at) => {
    const before = strokes[at - 1];
    if (!before || kind === 'roll' || before.kind === 'roll') return;
    const seconds = toNumber(onset) - toNumber(before.onset);
    if (seconds <= 0) return;
    const way = kind === before.kind && kind !== 'mute' ? kind : 'to and fro';
    const rates = way === 'to and fro' ? TO_AND_FRO : ONE_WAY;
    // To a millionth, so that what is exactly at a limit is not beyond it for the way its times were added up.
    const rate = Math.round(MILLION / seconds) / MILLION;
    if (FAST.has(speedOf(rate, rates))) remarks.push({ way, rate, rates, at });
  });
  return remarks;
}

const FAST: ReadonlySet<Speed> = new Set<Speed>(['hard', 'beyond']);
