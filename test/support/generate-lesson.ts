/**
 * Writes lessons by chance, as teachers write them: every statement of the table, chords and rules in realistic measure. The
 * same seed always gives the same text.
 */
import { Dice } from './dice.ts';
import {
  MAJOR_TONICS,
  METERS,
  MINOR_TONICS,
  Names,
  TUNINGS,
  WORDS,
  partsOf,
  range,
  type Ground,
} from './generate-parts.ts';
import { withRemarks } from './generate-remarks.ts';
import { sections } from './generate-sections.ts';
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
  const bare = kind === 'course' ? course(dice) : kind === 'library' ? library(dice) : lesson(dice, wishes, kind);
  const text = dice.chance(50) ? withRemarks(bare, dice) : bare;
  return wishes.only === 'broken' ? withSlips(text, dice) : text;
}

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
          ...(dice.chance(25) ? [uses(ground)] : []),
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
    `  needs ${Array.from({ length: dice.between(1, 2) }, () => `"${names.fresh()}.lesson"`).join(', ')}`,
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
  else if (capo <= 30) lines.push(capo <= 28 ? 'no capo' : 'no capo ; it has come off');
  if (dice.chance(15)) lines.push(`frets ${dice.between(15, 24)}`);
  if (dice.chance(10)) lines.push(`scale-length ${dice.between(600, 690)}${dice.pick([' mm', 'mm', ''])}`);
  if (dice.chance(60)) lines.push(`hand ${dice.pick(['small', 'medium', 'large'])}`);
  if (!compound && dice.chance(15)) lines.push('swing 1/8');
  return dice.shuffled(lines).join('\n');
}

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
