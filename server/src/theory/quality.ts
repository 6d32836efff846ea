/** The quality of a chord as degrees, and the one spelling in which every set of degrees is written. */
import type { Degree } from './interval.ts';
import { degreeDistance } from './interval.ts';

const DEGREES = new Map<string, Degree>();

/** The one frozen object for a degree, so that equal degrees are the same object inside the theory layer. */
export function degreeOf(number: number, accidental = 0): Degree {
  const key = `${number},${accidental}`;
  let degree = DEGREES.get(key);
  if (!degree) {
    degree = Object.freeze({ number, accidental });
    // Numbers and accidentals come from our own tables alone, so the map stays small.
    DEGREES.set(key, degree);
  }
  return degree;
}

/** The degrees of a chord, with quick answers about them. Holds each degree once. */
export class DegreeSet {
  readonly degrees: readonly Degree[];

  constructor(degrees: readonly Degree[]) {
    this.degrees = [...new Set(degrees)].sort((a, b) => degreeDistance(a) - degreeDistance(b) || a.number - b.number);
  }

  has(number: number, accidental = 0): boolean {
    return this.degrees.some((degree) => degree.number === number && degree.accidental === accidental);
  }

  any(number: number): boolean {
    return this.degrees.some((degree) => degree.number === number);
  }
}

/** Degrees that the trade leaves out without another name: the fifth, the ninth of a 13 or 11, the third of an 11. */
export function isOptional(set: DegreeSet, degree: Degree): boolean {
  const { number, accidental } = degree;
  const seventh = set.any(7);
  if (isAltered(set)) return number === 5 || number === 9;
  if (number === 5) return accidental === 0 && (set.any(3) || set.any(2) || set.any(4) || seventh || set.any(6));
  if (number === 9) return accidental === 0 && seventh && (set.has(13) || set.has(11));
  return number === 3 && accidental === 0 && set.has(7, -1) && set.has(9) && set.has(11);
}

/** Root, third, seventh, and two each of fifths and ninths. */
const ALTERED_SIZE = 7;

/** `7alt`: a dominant with both altered fifths and both altered ninths, of which a player picks. */
function isAltered(set: DegreeSet): boolean {
  const fifths = set.has(5, -1) && set.has(5, 1);
  const ninths = set.has(9, -1) && set.has(9, 1);
  return set.degrees.length === ALTERED_SIZE && set.has(1) && set.has(3) && set.has(7, -1) && fifths && ninths;
}

interface Parts {
  /** What comes before every change: `m`, `maj9`, `6/9`, `dim7`. */
  readonly head: string;
  /** Degrees that `head` has said already. */
  readonly said: readonly Degree[];
  /** Whether one change may follow without parentheses, as in `7b9`. */
  readonly plain: boolean;
}

const ROOT = degreeOf(1);
const THIRD = degreeOf(3);
const MINOR_THIRD = degreeOf(3, -1);
const FIFTH = degreeOf(5);
const FLAT_FIFTH = degreeOf(5, -1);
const SHARP_FIFTH = degreeOf(5, 1);
const SIXTH = degreeOf(6);
const SEVENTH = degreeOf(7);
const FLAT_SEVENTH = degreeOf(7, -1);
const DIMINISHED_SEVENTH = degreeOf(7, -2);
const NINTH = degreeOf(9);
const ELEVENTH = degreeOf(11);
const THIRTEENTH = degreeOf(13);

/** Sevenths and what is stacked on them: `7`, `9`, `11`, `13`, each only where all that it promises is there. */
function stack(set: DegreeSet, dominant: boolean): { number: string; said: readonly Degree[] } {
  const ninth = set.has(9);
  // A dominant 13 may alter its ninth (`13b9`); everything else needs the natural one.
  const alteredNinth = dominant && set.has(3) && (set.has(9, -1) || set.has(9, 1));
  if (set.has(13) && (ninth || alteredNinth)) return { number: '13', said: ninth ? [NINTH, THIRTEENTH] : [THIRTEENTH] };
  if (ninth && set.has(11) && set.any(3)) return { number: '11', said: [NINTH, ELEVENTH] };
  return ninth ? { number: '9', said: [NINTH] } : { number: '7', said: [] };
}

function headOf(set: DegreeSet): Parts {
  const minor = set.has(3, -1);
  const fifth = set.has(5);
  if (minor && set.has(5, -1) && !fifth) {
    const said = [MINOR_THIRD, FLAT_FIFTH];
    if (set.has(7, -2)) return { head: 'dim7', said: [...said, DIMINISHED_SEVENTH], plain: false };
    if (set.has(7)) return { head: 'dim(maj7)', said: [...said, SEVENTH], plain: false };
    if (!set.has(7, -1) && !set.has(6)) return { head: 'dim', said, plain: false };
  }
  const letter = minor ? 'm' : '';
  const third = minor ? MINOR_THIRD : THIRD;
  if (set.has(7, -1)) {
    const { number, said } = stack(set, true);
    return { head: letter + number, said: [third, FIFTH, FLAT_SEVENTH, ...said], plain: true };
  }
  if (set.has(7)) {
    const { number, said } = stack(set, false);
    const head = minor ? `m(maj${number})` : `maj${number}`;
    return { head, said: [third, FIFTH, SEVENTH, ...said], plain: !minor };
  }
  if (set.has(6)) {
    const ninth = set.has(9);
    return {
      head: `${letter}6${ninth ? '/9' : ''}`,
      said: [third, FIFTH, SIXTH, ...(ninth ? [NINTH] : [])],
      plain: false,
    };
  }
  if (set.has(3) && set.has(5, 1) && !fifth) return { head: 'aug', said: [THIRD, SHARP_FIFTH], plain: false };
  const none = !set.any(3) && !set.has(2) && !set.has(4);
  if (none && fifth) return { head: '5', said: [FIFTH], plain: false };
  return { head: letter, said: [third, FIFTH], plain: false };
}

const signs: Readonly<Record<string, string>> = { '-2': 'bb', '-1': 'b', '0': '', '1': '#', '2': '##' };

/** What the set holds beyond its head, in the words and the order in which it is written. */
function changesOf(set: DegreeSet, parts: Parts): { altered: string[]; added: string[]; suspended: string } {
  const altered: string[] = [];
  const added: string[] = [];
  const seventh = set.any(7) && parts.head !== 'dim7' && parts.head !== 'dim(maj7)';
  let suspended = '';
  for (const degree of set.degrees) {
    const { number, accidental } = degree;
    if (degree === ROOT || parts.said.includes(degree)) continue;
    const text = signs[accidental] + number;
    if (number === 2 || number === 4) suspended = `sus${number}`;
    else if (number === 5 || (number === 6 && accidental !== 0)) altered.push(text);
    else if (number === 7) added.push(accidental === 0 ? 'addmaj7' : `add${text}`);
    else if (accidental === 0) added.push(`add${text}`);
    // Beside a natural ninth that the head has said (`C9`) an altered one is an addition, not a change.
    else if (seventh && !parts.said.includes(degreeOf(number))) altered.push(text);
    else if (seventh || !parts.head.startsWith('6')) added.push(`add${text}`);
    else altered.push(text);
  }
  return { altered, added, suspended };
}

/** The canonical suffix of a chord: what stands between root and slash. Every suffix it writes reads back to the set. */
export function formatQuality(set: DegreeSet): string {
  if (isAltered(set)) return '7alt';
  const parts = headOf(set);
  const { altered, added, suspended } = changesOf(set, parts);
  const rootless = !set.has(1) ? ['no1'] : [];
  const thirdless = !set.any(3) && suspended === '' && parts.head !== '5' ? ['no3'] : [];
  const fifthless = !set.any(5) ? ['no5'] : [];
  const without = [...thirdless, ...fifthless, ...rootless];
  let suffix = parts.head;
  if (altered.length + added.length === 0) {
    suffix += suspended;
  } else if (altered.length === 1 && added.length === 0 && parts.plain) {
    suffix += altered[0] + suspended;
  } else if (altered.length === 0 && added.length === 1 && /^add\d/.test(added[0])) {
    suffix += suspended + added[0];
  } else {
    return `${suffix}${suspended}(${[...altered, ...added, ...without].join(',')})`;
  }
  return without.length > 0 ? `${suffix}(${without.join(',')})` : suffix;
}
