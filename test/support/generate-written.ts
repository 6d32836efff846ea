/** Melodies and tabs of generated lessons: every sign that they take, and bars that are exactly full. */
import type { Dice } from './dice.ts';
import { range, type Ground } from './generate-parts.ts';

/** The frets that a melody wanders over. */
const HIGHEST = 12;

/** A sign and the fret that sounds at its end; none behind what nothing can be joined to. */
interface Written {
  readonly text: string;
  readonly fret?: number;
}

/** `last` is the fret that sounds on the string; `joined` where slides may be joined to a note, as in a tab. */
function sign(dice: Dice, last: number | undefined, joined: boolean): Written {
  const fret = dice.between(0, HIGHEST);
  if (dice.chance(50)) return { text: `${fret}`, fret };
  if (last !== undefined && dice.chance(35)) {
    const up = Math.min(HIGHEST, last + dice.between(1, 3));
    const down = Math.max(0, last - dice.between(1, 3));
    if (up > last && dice.chance(50)) return { text: `${dice.pick(['h', '/'])}${up}`, fret: up };
    if (down < last) return { text: `${dice.pick(['p', '\\'])}${down}`, fret: down };
  }
  const low = Math.max(1, fret);
  return dice.pick<Written>([
    { text: '-', fret: last },
    { text: 'r' },
    { text: 'x' },
    { text: `(${fret})`, fret },
    { text: `${fret}>`, fret },
    { text: `${fret}~`, fret },
    { text: `(${fret})~`, fret },
    { text: dice.pick(['<5>', '<7>', '<12>']) },
    { text: `${low}<${low + 12}>` },
    { text: `${low}b${low + 2}`, fret: low },
    { text: `${low}b${low + 2}r${low}`, fret: low },
    { text: `${low}pb${low + 2}`, fret: low },
    { text: `${low}b1/4~`, fret: low },
    { text: `s${fret}`, fret },
    { text: `t${HIGHEST}`, fret: HIGHEST },
    { text: `g${low - 1}h${low}`, fret: low },
    { text: `${fret}h${fret + 2}p${fret}`, fret },
    { text: joined ? `${fret}/${fret + 2}\\${fret}` : `${fret + 2}\\${fret}`, fret },
  ]);
}

/** Three bars at most, over one line or two. `pickup`: the first of them lasts a quarter. */
export function melody({ dice, eighths, strings }: Ground, name: string, pickup: boolean): string {
  let last: number | undefined;
  let string = 1;
  // Three in the time of two, so that half as many notes again fill the bar.
  const inTriplets = !pickup && eighths % 2 === 0 && dice.chance(10);
  const note = (): string => {
    const written = sign(dice, last, false);
    last = written.fret;
    return written.text;
  };
  const bar = (length: number): string => {
    const words: string[] = [];
    for (let eighth = 0; eighth < length;) {
      const left = length - eighth;
      if (strings > 1 && dice.chance(8)) {
        string = string === 1 ? 2 : 1;
        last = undefined;
        words.push(`${string}:`);
      }
      if (dice.chance(4)) words.push(`g${dice.between(1, 9)}`);
      if (!inTriplets && left >= 2 && dice.chance(6)) {
        words.push(`triplet(${note()} ${note()} ${note()})`);
        eighth += 2;
      } else {
        const long = !inTriplets && left >= 2 && dice.chance(30);
        words.push(note() + (long ? ' 1/4' : ''));
        eighth += long ? 2 : 1;
      }
    }
    return words.join(' ');
  };
  const on = dice.chance(60);
  const full = inTriplets ? (eighths >> 1) * 3 : eighths;
  const bars = [...(pickup ? [bar(2)] : []), bar(full), bar(full)];
  if (!on) bars[0] = `1: ${bars[0]}`;
  const lines = dice.chance(40) ? [bars.slice(0, 1), bars.slice(1)] : [bars];
  return [
    `melody ${name}${on ? ' on 1' : ''}`,
    `  each 1/8${inTriplets ? ' triplet' : ''}`,
    ...lines.map((some) => `  ${some.join(' | ')}`),
  ].join('\n');
}

/** One system or two, with whatever rows of marks a player writes under them. */
export function tab(ground: Ground, name: string): string {
  const { dice, strings } = ground;
  const used = dice.some(range(1, strings), Math.min(strings, dice.between(1, 4)));
  const inTriplets = ground.eighths % 2 === 0 && dice.chance(10);
  const steps = inTriplets ? (ground.eighths >> 1) * 3 : ground.eighths;
  const lines = [`tab ${name}`, `  each 1/8${inTriplets ? ' triplet' : ''}`, ...system(ground, used, steps)];
  if (dice.chance(40)) lines.push(...(dice.chance(50) ? [''] : []), ...system(ground, used, steps));
  return lines.join('\n');
}

function system({ dice, beats, tonic }: Ground, used: readonly number[], steps: number): readonly string[] {
  const bars = dice.between(1, 3);
  const row = (write: () => string[]): string =>
    Array.from({ length: bars }, (_, bar) => (bar > 0 && dice.chance(10) ? '...' : write().join(' '))).join(' | ');
  const marks = (...words: readonly string[]): string =>
    row(() => Array.from({ length: steps }, () => dice.pick(words)));
  const strings = (): string =>
    row(() => {
      let last: number | undefined;
      return Array.from({ length: steps }, () => {
        if (dice.chance(35)) return '-';
        const written = sign(dice, last, true);
        last = written.fret;
        return written.text;
      });
    });
  const chord = (bar: number): string => {
    if (bar > 0 && dice.chance(15)) return '%';
    if (dice.chance(8)) return 'N.C.';
    return beats > 1 && dice.chance(25) ? `${tonic}${' /'.repeat(beats - 2)} ${tonic}7` : tonic;
  };
  return [
    ...(dice.chance(60)
      ? [
          `  chords ${range(0, bars - 1)
            .map(chord)
            .join(' | ')}`,
        ]
      : []),
    ...used.map((string) => `  ${string} | ${strings()} |`),
    ...(dice.chance(40) ? [`  pluck ${marks('p', 'i', 'm', 'a', 'c', 'p+a', '-', '-')}`] : []),
    ...(dice.chance(40) ? [`  fingers ${marks('0', '1', '2', '3', '4', '3+1', '-')}`] : []),
    ...(dice.chance(25) ? [`  palm ${marks('*', '-')}`] : []),
  ];
}
