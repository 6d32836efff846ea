/** Breaks a line of plain text between its words. */
import { columns } from './graphemes.ts';

/**
 * Lines of at most `width` columns where that is possible: a longer word is not cut. Lines after the first are indented by `hang`
 * columns.
 */
export function wrapped(text: string, width: number, hang = 0): readonly string[] {
  const [first, ...rest] = text.split(' ');
  const lines = [first];
  for (const word of rest) {
    const longer = `${lines[lines.length - 1]} ${word}`;
    if (columns(longer) <= width) lines[lines.length - 1] = longer;
    else lines.push(' '.repeat(hang) + word);
  }
  return lines;
}
