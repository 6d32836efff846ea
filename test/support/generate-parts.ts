/** The parts of generated lessons, in realistic measure: shapes, grips, progressions, cells and contours; melodies and tabs. */
import { Dice } from './dice.ts';
import { melody, tab } from './generate-written.ts';

export interface Ground {
  readonly dice: Dice;
  /** How many strings the instrument has. */
  readonly strings: number;
  readonly standard: boolean;
  readonly meter: string;
  /** Beats in a bar, as they are counted. */
  readonly beats: number;
  /** Eighths in a bar. */
  readonly eighths: number;
  readonly tonic: string;
  readonly mode: string;
  readonly names: Names;
}

export const TUNINGS: readonly (readonly [name: string, strings: number])[] = [
  ['standard', 6],
  ['standard', 6],
  ['standard', 6],
  ['drop-d', 6],
  ['dadgad', 6],
  ['open-g', 6],
  ['half-step-down', 6],
  ['ukulele', 4],
  ['bass', 4],
  ['seven-string', 7],
  ['D2 A2 D3 G3 A3 D4', 6],
  ['Eb2 Ab2 Db3 Gb3 Bb3 Eb4', 6],
  ['C3 G3 D4 A4', 4],
  ['B0 E1 A1 D2 G2', 5],
];

export const METERS: readonly (readonly [meter: string, beats: number, eighths: number])[] = [
  ['4/4', 4, 8],
  ['4/4', 4, 8],
  ['3/4', 3, 6],
  ['2/4', 2, 4],
  ['6/8', 2, 6],
  ['12/8', 4, 12],
  ['5/4', 5, 10],
  ['7/8', 7, 7],
];

export const MAJOR_TONICS = ['C', 'G', 'D', 'A', 'E', 'F', 'Bb', 'Eb'];
export const MINOR_TONICS = ['A', 'E', 'B', 'F#', 'D', 'G', 'C'];

/** The steps of the tonic's major scale, as letters: enough to write chords that belong to the key. */
const SCALES: Readonly<Record<string, readonly string[]>> = {
  C: ['C', 'D', 'E', 'F', 'G', 'A', 'B'],
  G: ['G', 'A', 'B', 'C', 'D', 'E', 'F#'],
  D: ['D', 'E', 'F#', 'G', 'A', 'B', 'C#'],
  A: ['A', 'B', 'C#', 'D', 'E', 'F#', 'G#'],
  E: ['E', 'F#', 'G#', 'A', 'B', 'C#', 'D#'],
  F: ['F', 'G', 'A', 'Bb', 'C', 'D', 'E'],
  Bb: ['Bb', 'C', 'D', 'Eb', 'F', 'G', 'A'],
  Eb: ['Eb', 'F', 'G', 'Ab', 'Bb', 'C', 'D'],
};
/** The major key with the same notes as a minor one. */
const RELATIVE: Readonly<Record<string, string>> = { A: 'C', E: 'G', B: 'D', 'F#': 'A', D: 'F', G: 'Bb', C: 'Eb' };
const QUALITIES = ['', 'm', 'm', '', '', 'm', 'dim'];
const SEVENTHS = ['maj7', 'm7', 'm7', 'maj7', '7', 'm7', 'm7b5'];
const NUMERALS = ['I', 'ii', 'iii', 'IV', 'V', 'vi', 'vii°'];
/** How often a step of the scale carries a chord. */
const USUAL_STEPS = [0, 0, 0, 3, 3, 4, 4, 4, 5, 5, 1, 1, 2, 6];

export const WORDS = (
  'anchor amber barn beacon birch bramble brook candle chalk cinder clover copper coral creek dune ember fern field ' +
  'flint gable garden gravel harbour hazel heron hollow ivory juniper kettle lantern larch ledge linen maple marsh ' +
  'meadow mill moss needle oak orchard otter pebble pier plum quarry rafter reed river rowan saddle sail sedge shale ' +
  'slate sparrow stone thicket thimble tide timber vale violet walnut willow window wren yarrow'
).split(' ');

/** Names that no two parts of a kind share. */
export class Names {
  private readonly left: string[];

  constructor(private readonly dice: Dice) {
    this.left = dice.shuffled(WORDS);
  }

  fresh(): string {
    const word = this.left.pop() ?? `part-${this.dice.between(100, 99_999)}`;
    return this.dice.chance(15) ? `${word}-${this.dice.pick(['one', 'two', 'low', 'high'])}` : word;
  }

  title(): string {
    const words = [
      this.dice.pick(WORDS),
      this.dice.pick(['by', 'under', 'and', 'over', 'without']),
      this.dice.pick(WORDS),
    ];
    const text = words.join(' ');
    return `"${text[0].toUpperCase()}${text.slice(1)}${this.dice.chance(5) ? String.raw` \"again\"` : ''}"`;
  }
}

export interface Parts {
  readonly blocks: readonly string[];
  readonly shapes: readonly string[];
  readonly cells: readonly string[];
  readonly contours: readonly string[];
  readonly melodies: readonly string[];
  /** The melodies whose first bar is a pick-up of a quarter. */
  readonly pickups: readonly string[];
  readonly tabs: readonly string[];
  readonly progressions: readonly { readonly name: string; readonly bars: number }[];
}

export function partsOf(ground: Ground, wishes: { readonly bars?: number; readonly sections?: number }): Parts {
  const { dice, names } = ground;
  const count = wishes.sections ?? dice.between(1, 3);
  const blocks: string[] = [];
  const several = (least: number, most: number, write: (name: string) => string): readonly string[] =>
    Array.from({ length: dice.between(least, most) }, () => {
      const name = names.fresh();
      blocks.push(write(name));
      return name;
    });
  const shapes = several(1, 3, (name) => shape(ground, name));
  if (ground.standard && dice.chance(25)) blocks.push(grip(dice));
  const cells = several(1, 2, (name) => cell(ground, name));
  const contours = several(0, 2, (name) => contour(ground, name));
  const progressions = Array.from({ length: count }, () => {
    const name = names.fresh();
    const bars = wishes.bars ?? dice.between(2, 12);
    blocks.push(progression(ground, name, bars, shapes, cells));
    return { name, bars };
  });
  const pickups: string[] = [];
  const melodies = several(0, 2, (name) => {
    if (dice.chance(30)) pickups.push(name);
    return melody(ground, name, pickups.includes(name));
  });
  const tabs = several(0, 1, (name) => tab(ground, name));
  return { blocks, shapes, cells, contours, melodies, pickups, tabs, progressions };
}

export const range = (from: number, to: number): number[] => Array.from({ length: to - from + 1 }, (_, i) => from + i);

/** Sets of strings that chords of three or four notes are played on, as far as the instrument has them. */
const STRING_SETS = [
  [3, 2, 1],
  [4, 3, 2],
  [5, 4, 3],
  [4, 2, 1],
  [5, 3, 2],
  [6, 4, 3],
  [4, 3, 2, 1],
  [5, 4, 3, 2],
  [6, 4, 3, 2],
  [7, 5, 4],
];

function shape({ dice, strings }: Ground, name: string): string {
  const carried = dice.pick(STRING_SETS.filter((set) => set[0] <= strings));
  const lines = [`  strings ${carried.join(' ')}`];
  const tones =
    carried.length === 3
      ? dice.shuffled(['R', '3', '5'])
      : dice.shuffled(['R', '3', '5', dice.pick(['7', 'any', 'R', 'b7', '9'])]);
  if (dice.chance(75)) lines.push(`  tones ${tones.join(' ')}`);
  else if (carried.length === 3 && dice.chance(50)) lines.push(`  spacing ${dice.pick(['close', 'spread'])}`);
  else lines.push(`  bass ${dice.pick(['R', '3', '5'])}`, `  top ${dice.pick(['R', '3', '5'])}`);
  const others = range(1, strings).filter((string) => !carried.includes(string));
  if (others.length > 0 && dice.chance(35)) {
    const open = dice.chance(25)
      ? 'any'
      : dice
          .some(others, dice.between(1, Math.min(2, others.length)))
          .reverse()
          .join(' ');
    lines.push(`  open ${open}`);
    if (dice.chance(40)) lines.push(`  colour ${dice.some(['9', '11', '13', '#11'], dice.between(1, 3)).join(' ')}`);
    if (dice.chance(20)) lines.push(`  avoid ${dice.pick(['b9', 'b9 11', '#11'])}`);
  }
  const lowest = dice.pick([0, 0, 1, 1, 3, 5]);
  if (dice.chance(80)) lines.push(`  frets ${lowest} to ${lowest + dice.between(5, 12)}`);
  if (dice.chance(60)) lines.push(`  reach ${dice.between(2, 4)}`);
  if (dice.chance(10)) lines.push('  barre no');
  return [`shape ${name}`, ...lines].join('\n');
}

/** Shapes that every player knows, with their fingers. */
const GRIPS = [
  ['C', 'x32010', 'x32010'],
  ['G', '320003', '210003'],
  ['D', 'xx0232', 'xx0132'],
  ['Am', 'x02210', 'x02310'],
  ['Em', '022000', '023000'],
  ['E', '022100', '023100'],
  ['A', 'x-0-2-2-2-0', 'x01230'],
];

function grip(dice: Dice): string {
  const [symbol, frets, fingers] = dice.pick(GRIPS);
  const lines = [`grip ${symbol} ${frets}`];
  if (dice.chance(60)) lines.push(`  fingers ${fingers}`);
  if (dice.chance(30)) lines.push('  bass 5 4');
  return lines.join('\n');
}

/** One bar of eighths: each string of a pattern in turn, so that the bar is exactly full. */
function picks({ dice, strings, eighths }: Ground): string {
  const words: string[] = [];
  const thumb = dice.pick([`p${Math.min(strings, dice.between(4, 6))}`, 'p(bass)']);
  for (let eighth = 0; eighth < eighths;) {
    const left = eighths - eighth;
    const long = left >= 2 && dice.chance(12);
    const finger = dice.pick([`i${Math.min(3, strings)}`, 'm2', 'a1', 'a(top)', `i${Math.min(4, strings)}`]);
    const triplet = left >= 2 && dice.chance(4);
    if (triplet) words.push(dice.pick(['triplet(i3 m2 a1)', 'triplet(i3 m2 a1) 1/8', 'triplet(p(bass) - a1>)']));
    else if (eighth === 0) words.push(dice.chance(30) ? `${thumb}+a1${dice.chance(20) ? '>' : ''}` : thumb);
    else if (dice.chance(25)) words.push(dice.chance(30) ? 'p(alt)' : thumb);
    else if (dice.chance(8)) words.push(dice.pick(['-', 'r', 'mute', 'up', 'down', 'roll', 'up>', 'down(3 to 1)']));
    else words.push(finger);
    if (long && !triplet) words[words.length - 1] += ' 1/4';
    eighth += triplet || long ? 2 : 1;
  }
  return words.join(' ');
}

/** One bar of triplet eighths, three in the time of two. */
const triplets = ({ dice, eighths }: Ground): string =>
  Array.from({ length: eighths >> 1 }, () => `p(bass) ${dice.pick(['i2 m1', 'm1 i2', 'i3+m2 a1>'])}`).join(' ');

function cell(ground: Ground, name: string): string {
  const { dice, meter } = ground;
  const head = `cell ${name}${dice.chance(15) ? ` in ${meter}` : ''}`;
  if (ground.eighths % 2 === 0 && dice.chance(6)) return `${head}\n  each 1/8 triplet\n  ${triplets(ground)}`;
  const bars = Array.from({ length: dice.chance(25) ? 2 : 1 }, () => picks(ground));
  return `${head}\n  each 1/8\n  ${bars.join(dice.chance(30) ? '\n  ' : ' | ')}`;
}

function contour({ dice, beats, meter, strings, tonic }: Ground, name: string): string {
  const on = dice.pick(['1', '1', '2', 'top', 'bass', `${strings}`]);
  const lines: string[] = [];
  const length = meter.endsWith('/8') ? '1/8' : '1/4';
  if (dice.chance(85)) lines.push(`  each ${length}${dice.chance(8) ? ' triplet' : ''}`);
  const start = dice.pick(['5', '3', 'R', '5 or R', '3 or 5 or R']);
  const steps = Array.from({ length: Math.max(0, beats - 1) }, () =>
    dice.pick(['0', '+1', '-1', '+2', '-1#', '+1b', '-', 'r', '3', '5', 'R', 'b7', '+1 1/8', 'triplet(0 +1 0)']),
  );
  const again = dice.chance(12) ? ' | 0 +1' : '';
  lines.push(`  from ${start}: ${['0', ...steps].join(' ')}${again}`);
  if (dice.chance(15))
    lines.push(`  scale ${tonic} ${dice.pick(['dorian', 'mixolydian', 'minor pentatonic', 'lydian'])}`);
  if (dice.chance(25)) lines.push(`  with ${dice.pick(['a', 'm', 'c'])}`);
  return [`contour ${name} on ${on}`, ...lines].join('\n');
}

function progression(
  ground: Ground,
  name: string,
  bars: number,
  shapes: readonly string[],
  cells: readonly string[],
): string {
  const { dice, tonic, mode } = ground;
  const numerals = dice.chance(30);
  const written = range(1, bars).map((bar) => barOf(ground, numerals, bar, shapes, cells));
  const outer = dice.chance(20);
  const lines: string[] = [];
  for (let from = 0; from < written.length; from += 4) {
    const row = written.slice(from, from + 4).join(' | ');
    lines.push(outer ? `  | ${row} |` : `  ${row}`);
  }
  return [`progression ${name}${dice.chance(15) ? ` in ${tonic} ${mode}` : ''}`, ...lines].join('\n');
}

function barOf(
  ground: Ground,
  numerals: boolean,
  bar: number,
  shapes: readonly string[],
  cells: readonly string[],
): string {
  const { dice, beats } = ground;
  if (bar > 1 && dice.chance(5)) {
    const said = dice.chance(50) ? [] : dice.shuffled(dice.some([`with ${dice.pick(cells)}`, 'held', 'pushed'], 1));
    return ['%', ...said].join(' ');
  }
  if (dice.chance(2)) return 'N.C.';
  const chord = (): string => chordOf(ground, numerals) + modifiers(ground, shapes, cells);
  if (dice.chance(15)) return `${chord()} ${chord()}`;
  if (beats > 1 && dice.chance(8)) {
    const first = dice.between(1, beats - 1);
    const hold = (count: number): string => ' /'.repeat(count - 1);
    return `${chord()}${hold(first)} ${chord()}${hold(beats - first)}`;
  }
  return chord();
}

/** Triads for the most part, then sevenths, then what colours them; or numerals, with a dominant of another step at times. */
function chordOf({ dice, tonic, mode }: Ground, numerals: boolean): string {
  const step = dice.pick(USUAL_STEPS);
  const kind = dice.between(1, 100);
  if (numerals && mode === 'major') {
    if (kind <= 6) return dice.pick(['V/V', 'V7/V', 'V7/vi', 'V7/ii', 'V/IV']);
    if (kind <= 12) return dice.pick(['bVII', 'iv', 'bVI', 'bIII']);
    return step < 6 && kind > 80 ? `${NUMERALS[step]}${step === 0 || step === 3 ? 'maj7' : '7'}` : NUMERALS[step];
  }
  const scale = SCALES[mode === 'major' ? tonic : RELATIVE[tonic]];
  const root = scale[step];
  if (kind <= 55 || step === 6) return root + QUALITIES[step];
  if (kind <= 75) return root + SEVENTHS[step];
  if (kind <= 84) return `${root}${QUALITIES[step]}/${scale[(step + dice.pick([2, 4])) % 7]}`;
  if (kind <= 92) return root + dice.pick(['sus4', 'sus2', '7sus4']);
  if (kind <= 97) return root + QUALITIES[step] + dice.pick(['add9', '6', '9']);
  return `${scale[4]}7${dice.pick(['(b9, #11)', 'b9', '#5', '#9'])}`;
}

function modifiers(
  { dice, strings, tonic, standard }: Ground,
  shapes: readonly string[],
  cells: readonly string[],
): string {
  if (dice.chance(82)) return '';
  const all = [
    dice.chance(70)
      ? ` at ${dice.between(1, 9)}`
      : standard && dice.chance(50)
        ? ` as ${dice.pick(['x79900', '355433', 'x-10-9-11-0-0'])}`
        : ` as ${dice.pick([...shapes, 'open-chords', 'x'.padEnd(strings, '0')])}`,
    ` over ${dice.pick(['3', '5', 'D', 'G', 'A'])}`,
    ` in ${tonic} ${dice.pick(['major', 'minor', 'harmonic minor', 'mixolydian'])}`,
    ` with ${dice.pick(cells)}`,
    ' held',
    ' pushed',
  ];
  return dice.shuffled(dice.some(all, dice.chance(80) ? 1 : dice.between(2, 6))).join('');
}
