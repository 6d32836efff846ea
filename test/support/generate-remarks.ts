/** What teachers write beside their lessons: comments of every place, and findings that they know of and allow. */
import type { Dice } from './dice.ts';

const REMARKS = [
  'slowly here',
  'the thumb leads; the rest follows',
  'was: G | D | Em',
  '"as written"',
  'allow stretch-too-wide',
  'allow no-voicing, melody-unreachable',
  'allow notes-too-fast',
];

/** The same lesson with remarks behind its lines and above them, everywhere but in prose. */
export function withRemarks(text: string, dice: Dice): string {
  let prose = false;
  return text
    .split('\n')
    .flatMap((line) => {
      if (/^\S/.test(line)) prose = /^(?:text|note)\b/.test(line);
      if (line === '' || (prose && line.startsWith(' '))) return [line];
      const indent = line.slice(0, line.length - line.trimStart().length);
      const above = dice.chance(6) ? [`${indent}; ${dice.pick(REMARKS)}`] : [];
      const beside = !line.startsWith(';') && dice.chance(10);
      return [...above, beside ? `${line} ; ${dice.pick(REMARKS)}` : line];
    })
    .join('\n');
}
