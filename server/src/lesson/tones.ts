/** Reads tones and the names of what a shape or contour starts on. */
import { parseDegree } from '../theory/interval.ts';
import type { Leaf } from '../syntax/tree.ts';
import type { Tone } from './lesson.ts';
import type { Source } from './reader.ts';

/** The tones that players count in; an eighth is a root, a tenth a third. */
const COUNTED = [1, 2, 3, 4, 5, 6, 7, 9, 11, 13];

export function readTone(word: Leaf, source: Source): Tone | undefined {
  const tone = toneFrom(word.text);
  if (!tone) source.report('unknown-tone', source.at(word), { found: word.text });
  return tone;
}

/** `3` follows the chord's quality, `b3` is what it says. */
export function toneFrom(text: string): Tone | undefined {
  const degree = parseDegree(text.replaceAll('♭', 'b').replaceAll('♯', '#'));
  if (!degree || !COUNTED.includes(degree.number)) return undefined;
  return { degree, absolute: /^[#b♯♭♮]/.test(text), text };
}
