/** Breaks lines of plain text: between their words, or between parts with dots. */
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

/** The parts with dots between them, broken there where that will do, and else between words. */
export function joinedWithin(parts: readonly string[], width: number, hang = 0): readonly string[] {
  const lines: string[] = [];
  for (const part of parts) {
    const longer = lines.length === 0 ? undefined : `${lines[lines.length - 1]} · ${part}`;
    if (longer !== undefined && columns(longer) <= width) lines[lines.length - 1] = longer;
    else lines.push((lines.length === 0 ? '' : ' '.repeat(hang)) + part);
  }
  return lines.flatMap((line, index) => {
    const indent = index === 0 ? 0 : hang;
    return wrapped(line.slice(indent), width - indent, hang - indent).map((words) => ' '.repeat(indent) + words);
  });
}
