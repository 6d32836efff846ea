/** Frets as they are written, so many frets higher: signs of a melody or tab, and fret lists. */
import type { FretList } from '../fretboard/frets.ts';

/** In a sign of a melody or tab: a harmonic over an open or pressed string, the bend by a quarter tone, which is no fret, a fret. */
const NUMBERS = /(\d*)<(\d+)>|b1\/4|\d+/g;

/** The frets that a sign presses, 0 for an open string, and the places that it touches. */
export interface SignFrets {
  readonly pressed: readonly number[];
  readonly touched: readonly number[];
}

export function fretsOf(sign: string): SignFrets {
  const pressed: number[] = [];
  const touched: number[] = [];
  for (const [found, under, harmonic] of sign.matchAll(NUMBERS)) {
    if (harmonic !== undefined) touched.push(Number(harmonic));
    if (!found.startsWith('b')) pressed.push(Number(harmonic === undefined ? found : under || 0));
  }
  return { pressed, touched };
}

/** The sign with all its frets moved. A harmonic of the open string becomes one of a pressed string, and back. */
export function movedSign(sign: string, frets: number): string {
  return sign.replace(NUMBERS, (found: string, under: string | undefined, touched: string | undefined) => {
    if (found.startsWith('b')) return found;
    if (touched === undefined) return `${Number(found) + frets}`;
    const fret = Number(under || 0) + frets;
    return `${fret === 0 ? '' : fret}<${Number(touched) + frets}>`;
  });
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
