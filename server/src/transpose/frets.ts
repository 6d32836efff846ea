/** Frets as they are written, so many frets higher: signs of a melody or tab, and fret lists. */
import type { FretList } from '../fretboard/frets.ts';

/** A sign of a melody or tab, without the numbers that are no frets: what stands behind a point. */
const FRET = /(?<![\d.])\d+/g;
/** A harmonic over a string that is open or pressed: `<12>`, `2<14>`. */
const HARMONIC = /^(.*?)(\d*)<(\d+)>(.*)$/su;

/** The frets that a sign presses, 0 for an open string, and the places that it touches. */
export interface SignFrets {
  readonly pressed: readonly number[];
  readonly touched: readonly number[];
}

export function fretsOf(sign: string): SignFrets {
  const harmonic = HARMONIC.exec(sign);
  if (!harmonic) return { pressed: (sign.match(FRET) ?? []).map(Number), touched: [] };
  return { pressed: [Number(harmonic[2] || 0)], touched: [Number(harmonic[3])] };
}

/** The sign with all its frets moved. A harmonic of the open string becomes one of a pressed string, and back. */
export function movedSign(sign: string, frets: number): string {
  const harmonic = HARMONIC.exec(sign);
  if (!harmonic) return sign.replace(FRET, (fret) => `${Number(fret) + frets}`);
  const [, before, pressed, touched, after] = harmonic;
  const fret = Number(pressed || 0) + frets;
  return `${before}${fret === 0 ? '' : fret}<${Number(touched) + frets}>${after}`;
}

const LARGEST_DIGIT = 9;

/**
 * The list with every string moved, open ones too. Hyphens come where a fret has two digits, and go again where none has any
 * longer; a list of single digits that is written with hyphens keeps them.
 */
export function movedFretList(written: string, list: FretList, frets: number): string {
  const moved = list.map((fret) => (fret === null ? null : fret + frets));
  const short = moved.every((fret) => (fret ?? 0) <= LARGEST_DIGIT);
  const byChoice = written.includes('-') && list.every((fret) => (fret ?? 0) <= LARGEST_DIGIT);
  const silent = /X/.test(written) && !/x/.test(written) ? 'X' : 'x';
  return moved.map((fret) => fret ?? silent).join(short && !byChoice ? '' : '-');
}
