/** Words on a terminal: colours where they are wanted, and a quiet end when nobody reads on. */
import { printable } from '../draw/printable.ts';

const CODES = { bold: 1, dim: 2, red: 31, yellow: 33, blue: 34, cyan: 36 } as const;

export type Paint = (text: string, ...styles: readonly (keyof typeof CODES)[]) => string;

/** Colours only where a person looks and has not asked for none (NO_COLOR, https://no-color.org, is any text but an empty one). */
export function paintFor(stream: { readonly isTTY?: boolean }): Paint {
  const coloured = stream.isTTY === true && !process.env.NO_COLOR && process.env.TERM !== 'dumb';
  if (!coloured) return (text) => text;
  return (text, ...styles) =>
    styles.length === 0 ? text : `\u001b[${styles.map((style) => CODES[style]).join(';')}m${text}\u001b[0m`;
}

/** Writes to standard output. */
export const say = (content: string | Uint8Array): void => void process.stdout.write(content);

/** Writes one line to standard error. */
export const complain = (text: string): void => void process.stderr.write(`stringcourse: ${printable(text)}\n`);

/** `stringcourse … | head` must end without a word once head has read enough. */
export function endQuietlyOnClosedPipe(): void {
  for (const stream of [process.stdout, process.stderr]) {
    stream.on('error', (problem: NodeJS.ErrnoException) => {
      if (problem.code === 'EPIPE' || problem.code === 'ERR_STREAM_DESTROYED') process.exit();
      throw problem;
    });
  }
}
