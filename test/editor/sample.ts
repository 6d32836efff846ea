/** The sample that the tests in editors open, and where its lines are. */
import { readFileSync } from 'node:fs';

export const SAMPLE = 'harbour-lamps.lesson';
export const SAMPLE_FILE = `samples/${SAMPLE}`;

/** The line, from 1, that begins with these words and stands behind the line `behind`. */
export function lineOf(words: string, behind = 0): number {
  const index = readFileSync(SAMPLE_FILE, 'utf8')
    .split('\n')
    .findIndex((line, number) => number >= behind && line.trim().startsWith(words));
  if (index < 0) throw new Error(`${SAMPLE_FILE} has no line “${words}” any more.`);
  return index + 1;
}

export const TEMPO = lineOf('tempo 84');
export const TONES = lineOf('tones 3 R 5');
export const BARS = lineOf('G | D | Em');
/** Where the section calls for the contour, which is given above it. */
export const CALL = lineOf('contour swell', lineOf('section verse'));
