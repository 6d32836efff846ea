/**
 * Says what is wrong with a melody note over a held shape. Written from the rules and not from the search: it writes the resulting
 * finger list out and hands it to the checker of fingerings, and can look through every way itself.
 */
import type { FretList } from '../../server/src/fretboard/frets.ts';
import { tip, whatIsWrong } from './checker.ts';
import type { Neck } from './checker.ts';

type Fingers = readonly (number | null)[];
type Size = 'small' | 'medium' | 'large';

/** What the checker needs to know of a step. */
export interface Played {
  readonly finger: number;
  readonly lifted: readonly number[];
  /** Player's numbers. */
  readonly lost: readonly number[];
}

export interface Wish {
  readonly neck: Neck;
  readonly size: Size;
  readonly frets: FretList;
  readonly fingers: Fingers;
  /** Player's number. */
  readonly string: number;
  readonly fret: number;
  /** Player's numbers of strings that must go on. */
  readonly ringing: readonly number[];
}

const REACH = new Map([
  ['1 2', 76],
  ['1 3', 100],
  ['1 4', 130],
  ['2 3', 72],
  ['2 4', 90],
  ['3 4', 72],
]);
const FACTOR = { small: 0.9, medium: 1, large: 1.1 };

/** Everything that is wrong with playing the note so; an empty list where nothing is. */
export function melodyFaults(wish: Wish, { finger, lifted, lost }: Played): string[] {
  const { neck, frets, fingers, string, fret, ringing, size } = wish;
  const at = frets.length - string;
  const lostAt = new Set(lost.map((each) => frets.length - each));
  const wrong: string[] = [];
  for (const each of lost) if (ringing.includes(each) && each !== string) wrong.push(`string ${each} must ring`);
  if ((fret === 0) !== (finger === 0)) wrong.push('an open string needs no finger, a fret one');
  const after = frets.map((each, index) => (index === at ? fret : lostAt.has(index) ? null : each));
  const set = fingers.map((each, index) => (index === at ? finger : lostAt.has(index) ? null : each));
  const lies = [at, ...strings(fingers, finger)];
  fingers.forEach((each, index) => {
    if (!each || index === at || lostAt.has(index) || !lifted.includes(each)) return;
    // The finger that lies flat over the note's string may take over what another held on that fret.
    const isTakenOver = frets[index] === fret && Math.min(...lies) < index && index < Math.max(...lies);
    if (isTakenOver) set[index] = finger;
    else wrong.push(`finger ${each} is still needed`);
  });
  if (lifted.includes(finger)) wrong.push('the finger that plays is off the strings');
  for (const each of [1, 2, 3, 4]) {
    const before = strings(fingers, each);
    if (before.length === 0 || lifted.includes(each)) continue;
    if (each === finger && !before.some((index) => index !== at && set[index] === finger)) continue;
    // A finger that stays lies where it lay: over all its strings, also where another stops one of them further up.
    const from = Math.min(...before, ...strings(set, each));
    const to = Math.max(...before, ...strings(set, each));
    const own = frets[before[0]] ?? 0;
    for (let index = from; index <= to; index++) {
      const sounds = after[index];
      if (sounds !== null && sounds < own) wrong.push(`finger ${each} lies over string ${frets.length - index}`);
    }
    if (finger === 0 || finger === each) continue;
    const apart = Math.abs(tip(neck, own) - tip(neck, fret));
    const pair = [each, finger].sort().join(' ');
    if (apart > (REACH.get(pair) ?? 0) * FACTOR[size] + 1e-9) wrong.push(`fingers ${pair} are too far apart`);
    if (each < finger ? own > fret : own < fret) wrong.push(`fingers ${pair} cross`);
  }
  return [...wrong, ...whatIsWrong(neck, after, set, size)];
}

const strings = (fingers: Fingers, finger: number): number[] =>
  fingers.flatMap((each, index) => (each === finger ? [index] : []));

/** Every way that leaves nothing wrong and loses no string: any finger or none, with the string's own finger on or off. */
export function waysThatLoseNothing(wish: Wish): Played[] {
  const { fingers, frets, string } = wish;
  const own = fingers[frets.length - string] ?? 0;
  const ways: Played[] = [];
  for (const lifted of own > 0 && strings(fingers, own).length === 1 ? [[], [own]] : [[]]) {
    for (const finger of [0, 1, 2, 3, 4]) {
      const used = strings(fingers, finger);
      const isFree = used.length === 0 || (finger === own && lifted.length > 0);
      const isThere = used.some((index) => frets[index] === wish.fret);
      if (finger > 0 && !isFree && !isThere) continue;
      const played = { finger, lifted: lifted.filter((each) => each !== finger), lost: [] };
      if (melodyFaults(wish, played).length === 0) ways.push(played);
    }
  }
  return ways;
}
