/**
 * Says what is wrong with a fingering. Written from the rules of the hand and not from the search: it takes a finished finger list
 * apart, string by string, with its own table of reaches and its own formula for the frets, so that the two can contradict each other.
 */
import type { FretList } from '../../server/src/fretboard/frets.ts';

export interface Neck {
  readonly scaleLength: number;
  /** A capo over all strings; 0 for none. */
  readonly capo: number;
}

const FACTOR = { small: 0.9, medium: 1, large: 1.1 };
/** Comfortable, stretch and extreme reach in mm of a medium hand. */
const REACHES = new Map([
  ['1 2', [36, 68, 76]],
  ['1 3', [68, 84, 100]],
  ['1 4', [82, 102, 130]],
  ['2 3', [36, 52, 72]],
  ['2 4', [64, 78, 90]],
  ['3 4', [36, 54, 72]],
]);
const LYING = [0, 60, 27, 29, 21];
/** What rounding in either of two correct calculations may differ by, in mm. */
const SLACK = 1e-9;

const wire = (neck: Neck, fret: number): number => neck.scaleLength * (1 - Math.pow(2, -fret / 12));

/** Where the tip of a finger lies, in mm from the nut: a quarter of the fret's width behind its wire. */
export function tip(neck: Neck, fret: number): number {
  const here = fret + neck.capo;
  return 0.75 * wire(neck, here) + 0.25 * wire(neck, here - 1);
}

const spacing = (neck: Neck, fret: number): number => 7.2 + (3.2 * tip(neck, fret)) / neck.scaleLength;

interface Lying {
  readonly finger: number;
  readonly fret: number;
  readonly strings: readonly number[];
}

/** Everything that is wrong; an empty list for a fingering that the rules allow. */
export function whatIsWrong(
  neck: Neck,
  frets: FretList,
  fingers: readonly (number | null)[],
  size: keyof typeof FACTOR,
): string[] {
  const wrong: string[] = [];
  if (fingers.length !== frets.length) return ['a finger list of another length'];
  frets.forEach((fret, string) => {
    const finger = fingers[string];
    if (fret === null && finger !== null) wrong.push('a finger on a silent string');
    if (fret === 0 && finger !== 0) wrong.push('a finger on an open string');
    if (fret !== null && fret > 0 && !(finger !== null && finger >= 1 && finger <= 4))
      wrong.push('no finger on a fret');
  });
  if (wrong.length > 0) return wrong;

  const lying: Lying[] = [];
  for (const finger of [1, 2, 3, 4]) {
    const strings = fingers.flatMap((each, string) => (each === finger ? [string] : []));
    if (strings.length === 0) continue;
    const fret = frets[strings[0]] ?? 0;
    if (strings.some((string) => frets[string] !== fret)) return ['one finger on two frets'];
    lying.push({ finger, fret, strings });
  }
  for (const one of lying) wrong.push(...barreFaults(frets, fingers, one, FACTOR[size]));
  for (const one of lying) {
    for (const other of lying) if (one.finger < other.finger) wrong.push(...pairFaults(neck, one, other, FACTOR[size]));
  }
  return wrong;
}

function barreFaults(frets: FretList, fingers: readonly (number | null)[], one: Lying, factor: number): string[] {
  const wrong: string[] = [];
  const from = one.strings[0];
  const to = one.strings[one.strings.length - 1];
  if (from === to) return [];
  const across = to - from + 1;
  for (let string = from + 1; string < to; string++) {
    const fret = frets[string];
    if (fret === 0) wrong.push('an open string inside a barre');
    else if (fret !== null && fret < one.fret) wrong.push('a lower fret inside a barre');
    else if (fret === one.fret && fingers[string] !== one.finger)
      wrong.push('two fingers on one fret across each other');
  }
  const treble = frets.slice(to + 1);
  if (treble.includes(0) && across > (one.finger === 1 ? 4 : 2)) wrong.push('an open string beside a barre');
  if (across > 3 && treble.some((fret) => fret !== null && fret > 0 && fret < one.fret)) {
    wrong.push('a lower fret beside a barre');
  }
  if ((across - 1) * 8 > LYING[one.finger] * factor + SLACK) wrong.push('a barre too long');
  return wrong;
}

function pairFaults(neck: Neck, one: Lying, other: Lying, factor: number): string[] {
  const wrong: string[] = [];
  if (other.fret < one.fret) wrong.push('a higher finger on a lower fret');
  const limit = (REACHES.get(`${one.finger} ${other.finger}`)?.[2] ?? 0) * factor;
  const along = Math.abs(tip(neck, other.fret) - tip(neck, one.fret));
  if (along > limit + SLACK) wrong.push(`fingers ${one.finger} and ${other.finger} ${along.toFixed(1)} mm apart`);
  const gaps = one.strings.flatMap((a) => other.strings.map((b) => Math.abs(a - b)));
  const inside = (a: Lying, b: Lying): boolean =>
    b.strings.some((string) => a.strings[0] < string && string < a.strings[a.strings.length - 1]);
  const strings = inside(one, other) || inside(other, one) ? 0 : Math.min(...gaps);
  const across = (strings * (spacing(neck, one.fret) + spacing(neck, other.fret))) / 2;
  if (Math.hypot(along, across) > 1.12 * limit + SLACK) wrong.push('fingers too far apart over the strings');
  if (one.finger === 1 && one.fret === other.fret) {
    if (other.strings[other.strings.length - 1] - other.strings[0] + 1 > 2) wrong.push('two barres on one fret');
  }
  return wrong;
}

/** The zone that the widest pair of a fingering lies in, by the table above. */
export function zoneOf(neck: Neck, frets: FretList, fingers: readonly (number | null)[], factor: number): number {
  let zone = 0;
  fingers.forEach((one, a) =>
    fingers.forEach((other, b) => {
      if (!one || !other || one >= other) return;
      const along = Math.abs(tip(neck, frets[b] ?? 0) - tip(neck, frets[a] ?? 0));
      const limits = REACHES.get(`${one} ${other}`) ?? [];
      zone = Math.max(zone, limits.filter((limit) => along > limit * factor + SLACK).length);
    }),
  );
  return zone;
}

/** Every finger list that the rules allow, found by trying all of them; for grips of at most six pressed strings. */
export function allAllowed(neck: Neck, frets: FretList, size: keyof typeof FACTOR): string[] {
  const pressed = frets.flatMap((fret, string) => (fret !== null && fret > 0 ? [string] : []));
  const allowed: string[] = [];
  const fingers = frets.map((fret): number | null => (fret === null ? null : 0));
  const fill = (at: number): void => {
    if (at === pressed.length) {
      if (whatIsWrong(neck, frets, fingers, size).length === 0)
        allowed.push(fingers.map((each) => each ?? 'x').join('-'));
      return;
    }
    for (let finger = 1; finger <= 4; finger++) {
      fingers[pressed[at]] = finger;
      fill(at + 1);
    }
  };
  fill(0);
  return allowed.sort();
}
