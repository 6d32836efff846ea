/**
 * Writes lessons by chance, as teachers write them: every statement of the table, chords and rules in realistic measure. The
 * same seed always gives the same text.
 */
import { Dice } from './dice.ts';
import { mutate } from './mutate.ts';

export interface Wishes {
  /** Bars in each progression; by chance from 2 to 12 where it is not said. */
  readonly bars?: number;
  /** By chance from 1 to 3 where it is not said. */
  readonly sections?: number;
  /** `valid` reads without a problem of syntax, `broken` holds some typical slips. */
  readonly only?: 'valid' | 'broken';
  /** What kind of file; most are lessons. */
  readonly kind?: 'lesson' | 'course' | 'library' | 'parts';
}

/** A lesson as text. `seed` is any whole number. */
export function generateLesson(seed: number, wishes: Wishes = {}): string {
  const dice = new Dice(seed);
  const kind = wishes.kind ?? 'lesson';
  const text = kind === 'course' ? course(dice) : kind === 'library' ? library(dice) : lesson(dice, wishes, kind);
  return wishes.only === 'broken' ? withSlips(text, dice) : text;
}

// ---- the instrument and the time ----------------------------------------------------------------------------------

interface Ground {
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

const TUNINGS: readonly (readonly [name: string, strings: number])[] = [
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

const METERS: readonly (readonly [meter: string, beats: number, eighths: number])[] = [
  ['4/4', 4, 8],
  ['4/4', 4, 8],
  ['3/4', 3, 6],
  ['2/4', 2, 4],
  ['6/8', 2, 6],
  ['12/8', 4, 12],
  ['5/4', 5, 10],
  ['7/8', 7, 7],
];

const MAJOR_TONICS = ['C', 'G', 'D', 'A', 'E', 'F', 'Bb', 'Eb'];
const MINOR_TONICS = ['A', 'E', 'B', 'F#', 'D', 'G', 'C'];

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

const WORDS = (
  'anchor amber barn beacon birch bramble brook candle chalk cinder clover copper coral creek dune ember fern field ' +
  'flint gable garden gravel harbour hazel heron hollow ivory juniper kettle lantern larch ledge linen maple marsh ' +
  'meadow mill moss needle oak orchard otter pebble pier plum quarry rafter reed river rowan saddle sail sedge shale ' +
  'slate sparrow stone thicket thimble tide timber vale violet walnut willow window wren yarrow'
).split(' ');

/** Names that no two parts of a kind share. */
class Names {
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

// ---- whole files --------------------------------------------------------------------------------------------------

function course(dice: Dice): string {
  const names = new Names(dice);
  const days = Array.from({ length: dice.between(1, 9) }, (_, i) => `  day ${i + 1} "${names.fresh()}.lesson"`);
  return [`course ${names.title()}`, `  starts 2030-0${dice.between(1, 9)}-${dice.between(10, 28)}`, ...days, ''].join(
    '\n',
  );
}

function library(dice: Dice): string {
  const required = dice.some(['by', 'level', 'focus', 'minutes', 'licence', 'needs'], dice.between(1, 6));
  return `library ${new Names(dice).title()}\n  requires ${required.join(' ')}\n`;
}

function lesson(dice: Dice, wishes: Wishes, kind: 'lesson' | 'parts'): string {
  const [tuning, strings] = dice.pick(TUNINGS);
  const [meter, beats, eighths] = dice.pick(METERS);
  const minor = dice.chance(30);
  const ground: Ground = {
    dice,
    strings,
    standard: tuning === 'standard',
    meter,
    beats,
    eighths,
    tonic: dice.pick(minor ? MINOR_TONICS : MAJOR_TONICS),
    mode: minor ? 'minor' : 'major',
    names: new Names(dice),
  };
  const parts = partsOf(ground, wishes);
  const blocks =
    kind === 'parts'
      ? [...parts.blocks]
      : [
          head(ground),
          ...(dice.chance(15) ? [uses(ground)] : []),
          settings(ground, tuning),
          ...parts.blocks,
          ...sections(ground, parts),
        ];
  const remark = `; ${dice.pick(['For the second term.', 'Play it slowly; twice.', 'Written for a small hand.'])}`;
  return `${[...(dice.chance(40) ? [remark] : []), ...blocks].join('\n\n')}\n`;
}

function head({ dice, names }: Ground): string {
  const lines = [
    `  by ${names.title()}`,
    `  level ${dice.between(1, 5)}`,
    `  focus ${Array.from({ length: dice.between(1, 3) }, () => names.title()).join(', ')}`,
    `  minutes ${dice.pick([10, 15, 20, 30])}`,
    '  licence "CC-BY-4.0"',
    `  needs "${dice.pick(WORDS)}.lesson"`,
  ];
  return [`lesson ${names.title()}`, ...dice.some(lines, dice.between(0, 6))].join('\n');
}

function uses({ dice, names }: Ground): string {
  const path = `"${dice.pick(WORDS)}/${dice.pick(WORDS)}.lesson"`;
  if (dice.chance(30)) return `use ${path}`;
  return `use ${Array.from({ length: dice.between(1, 3) }, () => names.fresh()).join(', ')} from ${path}`;
}

function settings({ dice, meter, tonic, mode, strings }: Ground, tuning: string): string {
  const compound = meter.endsWith('/8') && meter !== '7/8';
  const lines = [`key ${tonic} ${mode}`, `meter ${meter}`];
  lines.push(
    dice.chance(80) ? `tempo ${dice.between(50, 140)}` : `tempo ${compound ? '3/8' : '1/4'} = ${dice.between(50, 120)}`,
  );
  if (tuning !== 'standard' || dice.chance(70)) lines.push(`tuning ${tuning}`);
  const capo = dice.between(1, 100);
  if (capo <= 20) lines.push(`capo ${dice.between(1, 7)}`);
  else if (capo <= 25) lines.push(`capo 2 on ${dice.some(range(1, strings), 3).reverse().join(' ')}`);
  else if (capo <= 30) lines.push('no capo');
  if (dice.chance(15)) lines.push(`frets ${dice.between(15, 24)}`);
  if (dice.chance(10)) lines.push(`scale-length ${dice.between(600, 690)}${dice.pick([' mm', 'mm', ''])}`);
  if (dice.chance(60)) lines.push(`hand ${dice.pick(['small', 'medium', 'large'])}`);
  if (!compound && dice.chance(15)) lines.push('swing 1/8');
  return dice.shuffled(lines).join('\n');
}

// ---- parts --------------------------------------------------------------------------------------------------------

interface Parts {
  readonly blocks: readonly string[];
  readonly shapes: readonly string[];
  readonly cells: readonly string[];
  readonly contours: readonly string[];
  readonly melodies: readonly string[];
  readonly tabs: readonly string[];
  readonly progressions: readonly { readonly name: string; readonly bars: number }[];
}

function partsOf(ground: Ground, wishes: Wishes): Parts {
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
  const melodies = several(0, 1, (name) => melody(ground, name));
  const tabs = several(0, 1, (name) => tab(ground, name));
  return { blocks, shapes, cells, contours, melodies, tabs, progressions };
}

const range = (from: number, to: number): number[] => Array.from({ length: to - from + 1 }, (_, i) => from + i);

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
      : dice.shuffled(['R', '3', '5', dice.pick(['7', 'any', 'R'])]);
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
    if (dice.chance(20)) lines.push('  avoid b9');
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
    if (triplet) words.push(`triplet(i3 m2 a1)`);
    else if (eighth === 0) words.push(dice.chance(30) ? `${thumb}+a1${dice.chance(20) ? '>' : ''}` : thumb);
    else if (dice.chance(25)) words.push(dice.chance(30) ? 'p(alt)' : thumb);
    else if (dice.chance(8)) words.push(dice.pick(['-', 'r', 'mute', 'up', 'down', 'roll', 'down(3 to 1)']));
    else words.push(finger);
    if (long && !triplet) words[words.length - 1] += ' 1/4';
    eighth += triplet || long ? 2 : 1;
  }
  return words.join(' ');
}

function cell(ground: Ground, name: string): string {
  const { dice, meter } = ground;
  const bars = Array.from({ length: dice.chance(25) ? 2 : 1 }, () => picks(ground));
  return `cell ${name}${dice.chance(15) ? ` in ${meter}` : ''}\n  each 1/8\n  ${bars.join(' | ')}`;
}

function contour({ dice, beats, meter, strings, tonic }: Ground, name: string): string {
  const on = dice.pick(['1', '1', '2', 'top', 'bass', `${strings}`]);
  const lines: string[] = [];
  const length = meter.endsWith('/8') ? '1/8' : '1/4';
  if (dice.chance(85)) lines.push(`  each ${length}`);
  const start = dice.pick(['5', '3', 'R', '5 or R', '3 or 5 or R']);
  const steps = Array.from({ length: Math.max(0, beats - 1) }, () =>
    dice.pick(['0', '+1', '-1', '+2', '-1#', '+1b', '-', 'r', '3', '5', 'R']),
  );
  lines.push(`  from ${start}: ${['0', ...steps].join(' ')}`);
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
  if (bar > 1 && dice.chance(5)) return '%';
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
  return dice.shuffled(dice.some(all, dice.chance(80) ? 1 : 2)).join('');
}

/** Frets of a melody for two bars; the lengths fill each of them. */
function melody({ dice, eighths, strings }: Ground, name: string): string {
  const bar = (): string => {
    const words: string[] = [];
    for (let eighth = 0; eighth < eighths;) {
      const long = eighths - eighth >= 2 && dice.chance(40);
      const fret = dice.between(0, 12);
      words.push(
        dice.pick([
          `${fret}`,
          `${fret}`,
          `${fret}`,
          `${fret}`,
          '-',
          'r',
          `${fret}h${fret + 2}`,
          `(${fret})`,
          `${fret}~`,
        ]),
      );
      if (long) words[words.length - 1] += ' 1/4';
      eighth += long ? 2 : 1;
    }
    if (strings > 1 && dice.chance(40)) words.unshift('2:');
    return words.join(' ');
  };
  const on = dice.chance(70) ? ' on 1' : '';
  return `melody ${name}${on}\n  each 1/8\n  ${on === '' ? '1: ' : ''}${bar()} | ${bar()}`;
}

function tab({ dice, eighths, strings, tonic }: Ground, name: string): string {
  const bars = dice.between(1, 2);
  const step = (): string => {
    const fret = dice.between(0, 12);
    return dice.pick([
      '-',
      '-',
      '-',
      '-',
      `${fret}`,
      `${fret}`,
      `${fret}`,
      `h${fret}`,
      `p${fret}`,
      `/${fret}`,
      `\\${fret}`,
      'x',
      'r',
      `(${fret})`,
      '<12>',
      `${fret}b${fret + 2}`,
      `${fret}~`,
    ]);
  };
  const row = (make: () => string): string =>
    Array.from({ length: bars }, () => Array.from({ length: eighths }, make).join(' ')).join(' | ');
  const used = dice.some(range(1, strings), Math.min(strings, dice.between(1, 4)));
  const lines = ['  each 1/8'];
  if (dice.chance(60)) lines.push(`  chords ${Array.from({ length: bars }, () => tonic).join(' | ')}`);
  for (const string of used) lines.push(`  ${string} | ${row(step)} |`);
  if (dice.chance(40)) lines.push(`  pluck ${row(() => dice.pick(['p', 'i', 'm', 'a', '-']))}`);
  if (dice.chance(40)) lines.push(`  fingers ${row(() => dice.pick(['1', '2', '3', '4', '-']))}`);
  return [`tab ${name}`, ...lines].join('\n');
}

// ---- sections and what is said of them ----------------------------------------------------------------------------

function sections(ground: Ground, parts: Parts): readonly string[] {
  const { dice, names } = ground;
  const blocks: string[] = [];
  const made = parts.progressions.map(({ name, bars }) => {
    const section = dice.chance(30) ? name : names.fresh();
    blocks.push(sectionOf(ground, parts, section, name, bars));
    return { name: section, bars };
  });
  const first = made[0];
  if (dice.chance(40)) blocks.push(`form ${[...made, dice.pick(made)].map((one) => one.name).join(' ')}`);
  if (dice.chance(50))
    blocks.push(
      claims(ground, made)
        .map((claim) => `claim ${claim}`)
        .join('\n'),
    );
  if (dice.chance(60)) blocks.push(prose(ground, first.name));
  if (dice.chance(15)) blocks.push('note\n  Play it once before you explain it; let them guess.');
  if (dice.chance(40)) blocks.push(shows(dice, first));
  if (dice.chance(35)) blocks.push(variant(ground, parts, made));
  if (dice.chance(40)) blocks.push(['practice', ...steps(ground, made)].join('\n'));
  return blocks;
}

function sectionOf(ground: Ground, parts: Parts, name: string, progressionName: string, bars: number): string {
  const { dice, names, meter } = ground;
  const lines = [`  progression ${progressionName}`];
  const half = Math.max(1, bars >> 1);
  if (parts.shapes.length > 1 && bars > 1 && dice.chance(25))
    lines.push(
      `  shape ${parts.shapes[0]} bars 1 to ${half}`,
      `  shape ${parts.shapes[1]} bars ${half + 1} to ${bars}`,
    );
  else if (dice.chance(85)) lines.push(`  shape ${dice.pick(parts.shapes)}`);
  lines.push(`  cell ${dice.pick(parts.cells)}`);
  if (parts.contours.length > 0 && dice.chance(70)) lines.push(`  contour ${dice.pick(parts.contours)}`);
  else if (parts.melodies.length > 0) lines.push(`  melody ${dice.pick(parts.melodies)} at bar 1`);
  if (parts.tabs.length > 0 && dice.chance(60)) lines.push(`  tab ${parts.tabs[0]} at bar ${bars}`);
  if (dice.chance(20)) {
    lines.push('  times 2');
    if (parts.progressions.length > 1 && dice.chance(40)) lines.push(`  ending 2 ${parts.progressions[1].name}`);
  }
  if (parts.melodies.length > 0 && dice.chance(20)) lines.push('  pickup 1/4', '  words low- tide | lan- terns');
  if (dice.chance(8)) lines.push(`  key ${dice.pick(MAJOR_TONICS)} major`);
  if (dice.chance(5)) lines.push(`  meter ${meter}`);
  if (dice.chance(8)) lines.push(`  tempo ${dice.between(60, 120)}`);
  return [`section ${name}${dice.chance(60) ? ` ${names.title()}` : ''}`, ...lines].join('\n');
}

interface Made {
  readonly name: string;
  readonly bars: number;
}

function claims({ dice, tonic, mode }: Ground, made: readonly Made[]): readonly string[] {
  const section = dice.pick(made);
  const bar = dice.between(1, section.bars);
  const all = [
    'open 3 throughout',
    `${section.name} bar ${bar} is ${tonic}`,
    `${section.name} bar ${bar} chord 1 is ${tonic}`,
    `bar ${bar} tones 3 5 R`,
    `bar ${bar} open 3 adds 11`,
    `melody starts on 5${dice.chance(30) ? ` except bar ${bar}` : ''}`,
    `melody D4 C4 B3 in bar ${bar}`,
    'same contour throughout',
    `scale ${tonic} ${mode}`,
    `playable at ${dice.between(60, 120)}${dice.chance(30) ? ` in ${section.name}` : ''}`,
    `reach at most ${dice.between(2, 4)}`,
    'no barre',
    'frets 0 to 15',
    'thumb alternates throughout',
    'common tone G3 throughout',
  ];
  return dice.some(all, dice.between(1, 4));
}

const prose = ({ dice, names }: Ground, section: string): string =>
  [
    'text',
    `  ## ${names.title().replaceAll(/["\\]/g, '')}`,
    `  Over {${section}.1.chord} the hand stays where it was; it sounds {${section}.1.sounds}.`,
    ...(dice.chance(40)
      ? ['', '  - Let every note ring.', '  - Count aloud; then *play*.', String.raw`  - A brace is \{.`]
      : []),
  ].join('\n');

function shows(dice: Dice, { name, bars }: Made): string {
  const range = dice.chance(60) ? ` bars 1 to ${Math.min(bars, 4)}` : '';
  return `show ${name}${range}${dice.chance(40) ? ` as ${dice.pick(['tab', 'diagrams', 'neck'])}` : ''}`;
}

function steps({ dice, names }: Ground, made: readonly Made[]): readonly string[] {
  const section = dice.pick(made);
  return Array.from({ length: dice.between(1, 4) }, () => {
    const slow = dice.between(40, 70);
    const pace = dice.chance(60) ? `at ${slow}` : `from ${slow} to ${slow + 30} by ${dice.pick([5, 6, 10])}`;
    const minutes = dice.chance(50) ? ` for ${dice.between(2, 8)} minutes` : '';
    const place = dice.chance(30)
      ? ` in ${section.name}${dice.chance(50) ? ` bars 1 to ${Math.min(2, section.bars)}` : ''}`
      : '';
    return `  step ${names.title()} ${pace}${minutes}${place}`;
  });
}

function variant(ground: Ground, parts: Parts, made: readonly Made[]): string {
  const { dice, names, strings } = ground;
  const lines = [
    `  capo ${dice.between(1, 5)}`,
    `  tempo ${dice.between(40, 70)}`,
    `  level ${dice.between(1, 5)}`,
    `  key ${dice.pick(MAJOR_TONICS)} major`,
    `  hand ${dice.pick(['small', 'large'])}`,
    `  meter ${ground.meter}`,
    '  swing 1/8',
    '  frets 15',
    '  scale-length 600 mm',
    ...(strings === 6 ? ['  tuning standard'] : []),
    '  claim no barre',
    ...steps(ground, made).slice(0, 1),
  ];
  const chosen = dice.some(lines, dice.between(1, 4));
  if (chosen.every((line) => !line.includes('capo')) && dice.chance(20)) chosen.unshift('  no capo');
  const kinds: readonly (readonly [string, readonly string[]])[] = [
    ['shape', parts.shapes],
    ['cell', parts.cells],
    ['contour', parts.contours],
    ['melody', parts.melodies],
    ['tab', parts.tabs],
    ['progression', parts.progressions.map((one) => one.name)],
  ];
  for (const [kind, list] of kinds)
    if (list.length > 0 && dice.chance(15)) chosen.push(`  ${kind} ${list[list.length - 1]} instead of ${list[0]}`);
  return [`variant ${names.fresh()} ${names.title()}`, ...chosen].join('\n');
}

// ---- slips --------------------------------------------------------------------------------------------------------

/** What teachers get wrong: a word misspelt or left out, a colon too many, an indent lost, a chord that is none. */
function withSlips(text: string, dice: Dice): string {
  const lines = text.split('\n');
  for (let slip = dice.between(1, 4); slip > 0; slip--) {
    const at = dice.between(0, lines.length - 1);
    lines[at] = slipped(lines[at], dice);
  }
  const slippedText = lines.join('\n');
  return dice.chance(20) ? mutate(slippedText, dice.between(0, 1_000_000)) : slippedText;
}

function slipped(line: string, dice: Dice): string {
  const words = line.trim().split(' ');
  const indent = line.slice(0, line.length - line.trimStart().length);
  const at = dice.between(0, words.length - 1);
  switch (dice.between(1, 9)) {
    case 1:
      return indent + words.filter((_, i) => i !== at).join(' ');
    case 2:
      return line.trimStart();
    case 3:
      return indent + words.map((word, i) => (i === 0 ? `${word}:` : word)).join(' ');
    case 4:
      return indent + words.map((word, i) => (i === at ? swappedLetters(word, dice) : word)).join(' ');
    case 5:
      return line.replace('"', '');
    case 6:
      return `${line} ${dice.pick(['H7', 'please', '12', '|', ','])}`;
    case 7:
      return line.replace('colour', 'color').replace('meter', 'metre').replace('tempo', 'bpm');
    case 8:
      return line.toUpperCase();
    default:
      return (
        indent + words.map((word, i) => (i === at ? dice.pick(['99', 'H', 'x', '??', '1/0', '-3']) : word)).join(' ')
      );
  }
}

function swappedLetters(word: string, dice: Dice): string {
  if (word.length < 2) return word + word;
  const at = dice.between(0, word.length - 2);
  return word.slice(0, at) + word[at + 1] + word[at] + word.slice(at + 2);
}
