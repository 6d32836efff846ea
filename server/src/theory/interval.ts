/** Degrees of a chord: `R`, `b3`, `#11`. Numbers count from the root's own major scale. */
import { formatAccidental, LETTER_SEMITONES } from './note.ts';

export interface Degree {
  /** 1 … 13; 8, 10 and 12 never occur. */
  readonly number: number;
  /** Semitones away from the major scale on the root: −1 for the `b` of `b3`. */
  readonly accidental: number;
}

const DEGREE = /^(#{1,2}|♯{1,2}|b{1,2}|♭{1,2})?(R|\d{1,2})$/u;
const NUMBERS: ReadonlySet<number> = new Set([1, 2, 3, 4, 5, 6, 7, 9, 11, 13]);

/** Reads `R` or `1`, `2` … `7`, `9`, `11`, `13`, each with up to two flats or sharps; the root takes none. */
export function parseDegree(text: string): Degree | undefined {
  const match = DEGREE.exec(text);
  if (!match) return undefined;
  const signs = match[1] ?? '';
  const number = match[2] === 'R' ? 1 : Number(match[2]);
  if (!NUMBERS.has(number) || (number === 1 && signs !== '')) return undefined;
  const sharp = signs.startsWith('#') || signs.startsWith('♯');
  return { number, accidental: sharp ? signs.length : -signs.length || 0 };
}

/** Writes a degree; the root as `R` or as `1`. */
export function formatDegree(degree: Degree, root: 'R' | '1'): string {
  if (degree.number === 1 && degree.accidental === 0) return root;
  return formatAccidental(degree.accidental) + degree.number;
}

/** Semitones above the root, within one octave: 0–11. The 9 and the 2 both give 2. */
export function degreeSemitones(degree: Degree): number {
  return (LETTER_SEMITONES[(degree.number - 1) % 7] + degree.accidental + 12) % 12;
}

/** Semitones above the root without folding the octave: 14 for the 9, 21 for the 13. May be −1 for a flattened root. */
export function degreeDistance(degree: Degree): number {
  const steps = degree.number - 1;
  return 12 * Math.floor(steps / 7) + LETTER_SEMITONES[steps % 7] + degree.accidental;
}

export function sameDegree(a: Degree, b: Degree): boolean {
  return a.number === b.number && a.accidental === b.accidental;
}

const ORDINALS: readonly string[] =
  'first root second third fourth fifth sixth seventh octave ninth tenth eleventh twelfth thirteenth'.split(' ');

/** Players say "minor third" but "flat ninth", and qualify the third and the seventh, which come in two kinds. */
const OWN_WORDS: Readonly<Record<string, string>> = {
  b2: 'minor second',
  '3': 'major third',
  b3: 'minor third',
  '7': 'major seventh',
  bb7: 'diminished seventh',
};

/** The interval in the words that players use: "root", "minor third", "fifth", "flat seventh", "sharp eleventh". */
export function intervalWord(degree: Degree): string {
  const own = OWN_WORDS[formatDegree(degree, '1')];
  if (own !== undefined) return own;
  const ordinal = ORDINALS[degree.number] ?? String(degree.number);
  if (degree.accidental === 0) return ordinal;
  const size = Math.abs(degree.accidental) > 1 ? 'double ' : '';
  return `${size}${degree.accidental < 0 ? 'flat' : 'sharp'} ${ordinal}`;
}
