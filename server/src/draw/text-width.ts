/** How wide a text is when it is drawn: a table on the generous side of the usual sans-serif faces, since nobody here has a font. */
import { graphemes } from './graphemes.ts';

/** Widths in thousandths of the size, at least those of the widest of the faces that editors use. */
const GROUPS: readonly (readonly [string, number])[] = [
  ["ijl|!.,:;' ", 340],
  ['It()[]/\\-fr·°‹›', 430],
  ['szcJ"*kxvy–', 600],
  ['0123456789abdeghnopquL_?FETSPZ$', 650],
  ['ABCKRVXY+=<>~', 730],
  ['DGHNOQUw#&×', 850],
  ['mM', 980],
  ['W@%', 1000],
];
const OTHER_LETTER = 800;
const WIDE = 1100;
const BOLD = 1.09;

const WIDTHS: ReadonlyMap<string, number> = new Map(
  GROUPS.flatMap(([letters, width]) => [...letters].map((letter): [string, number] => [letter, width])),
);

const widthOfLetter = (letter: string): number =>
  WIDTHS.get(letter) ?? (letter.codePointAt(0)! >= 0x1100 ? WIDE : OTHER_LETTER);

/** In the unit of `size`, which is the height of the type. */
export function textWidth(text: string, size: number, bold = false): number {
  let thousandths = 0;
  for (const letter of graphemes(text)) thousandths += widthOfLetter(letter);
  return (thousandths * size * (bold ? BOLD : 1)) / 1000;
}

/** The text, or as much of it as fits into `width` and an ellipsis; at least one letter. */
export function fitted(text: string, width: number, size: number, bold = false): string {
  if (textWidth(text, size, bold) <= width) return text;
  const letters = graphemes(text);
  let kept = letters.length - 1;
  while (kept > 1 && textWidth(`${letters.slice(0, kept).join('')}…`, size, bold) > width) kept--;
  return `${letters.slice(0, Math.max(1, kept)).join('')}…`;
}
