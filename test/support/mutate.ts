/** Damages a text as editing, pasting and bad luck do: for tests that nothing a user types can break. */
import { Dice } from './dice.ts';

const NOISE = [
  '"',
  '“',
  '”',
  '\\',
  ';',
  ':',
  ',',
  '|',
  '(',
  ')',
  '{',
  '}',
  '<',
  '>',
  '\t',
  '\u00a0',
  '\ufeff',
  '\r',
  '\r\n',
  '\n',
  ' ',
  '♯',
  '♭',
  '\u200b',
  '\u2028',
  '🎸',
  '\ud83c',
  'é',
  '½',
  '0',
  '-1',
  '99999999999999999999',
  '1/0',
  '%',
  '/',
  '__proto__',
  'constructor',
  'toString',
  'lesson',
  'text',
  'triplet(',
  'in',
  'at',
  '; allow ',
  '../..',
  '\u0000',
  'A'.repeat(300),
];

/** The text after one to four accidents; `seed` is any whole number. */
export function mutate(text: string, seed: number): string {
  const dice = new Dice(seed);
  let result = text;
  for (let accident = dice.between(1, 4); accident > 0; accident--) result = once(result, dice);
  return result;
}

function once(text: string, dice: Dice): string {
  const lines = text.split('\n');
  const at = dice.between(0, lines.length - 1);
  const place = dice.between(0, text.length);
  switch (dice.between(1, 10)) {
    case 1:
      return lines.filter((_, i) => i !== at).join('\n');
    case 2:
      return lines.map((line, i) => (i === at ? dice.shuffled(line.split(' ')).join(' ') : line)).join('\n');
    case 3:
      return text.slice(0, place);
    case 4:
      return text.slice(0, place) + dice.pick(NOISE) + text.slice(place);
    case 5:
      return lines.map((line, i) => (i === at ? line.trimStart() : line)).join('\n');
    case 6:
      return lines.map((line, i) => (i === at ? ` ${line}` : line)).join('\n');
    case 7:
      return [...lines.slice(0, at), lines[dice.between(0, lines.length - 1)], ...lines.slice(at)].join('\n');
    case 8:
      return dice.shuffled(text.split('\n\n')).join('\n\n');
    case 9:
      return text.slice(0, place) + text.slice(place + dice.between(1, 12));
    default:
      return text.slice(place, place + dice.between(1, 60)) + text;
  }
}

/** The same lesson as somebody in a hurry lays it out: other blanks, more empty lines, no word changed, prose untouched. */
export function roughen(text: string, seed: number): string {
  const dice = new Dice(seed);
  let prose = false;
  return text
    .split('\n')
    .map((line) => {
      if (/^\S/.test(line)) prose = /^(?:text|note)\b/.test(line);
      if (line === '') return !prose && dice.chance(40) ? '\n\n' : line;
      if (prose && line.startsWith(' ')) return line;
      const indent = line.startsWith(' ') ? dice.pick([' ', '\t', '    ', '\u00a0\u00a0']) : '';
      return indent + withOtherBlanks(line.trimStart(), dice) + dice.pick(['', '', ' ', '\t']);
    })
    .join('\n');
}

/** Blanks in titles, in brackets and in comments are part of a word and stay. */
function withOtherBlanks(line: string, dice: Dice): string {
  let result = '';
  let inTitle = false;
  let brackets = 0;
  for (const [at, letter] of [...line].entries()) {
    if (letter === ';' && !inTitle) return result + line.slice(at);
    if (letter === '"' && line[at - 1] !== '\\') inTitle = !inTitle;
    if (letter === '(') brackets++;
    if (letter === ')') brackets--;
    const between = !inTitle && brackets === 0;
    if (between && letter === ' ') result += dice.pick([' ', ' ', '  ', '\t', '\u00a0']);
    else if (between && letter === '|') result += dice.pick(['|', ' |', '| ']);
    else result += letter;
  }
  return result;
}
