/** The fret list of a voicing, as players write it: from the lowest string to the highest, `x` for a silent one. */
import { FEWEST_STRINGS, MOST_STRINGS } from './tuning.ts';

/** Index 0 is the string with the highest number, the last is string 1; null where the string is silent. */
export type FretList = readonly (number | null)[];

/**
 * Reads `x-7-9-9-0-0`, or `x79900` where every fret is one digit; an `X` is an `x`. The count must be `strings` where that is
 * above 0, and lie between 3 and 12. Undefined for anything else. Whether the neck has the frets is not asked here.
 */
export function parseFretList(text: string, strings: number): FretList | undefined {
  const places = text.includes('-') ? text.split('-') : [...text];
  if (places.length < FEWEST_STRINGS || places.length > MOST_STRINGS) return undefined;
  if (strings > 0 && places.length !== strings) return undefined;
  if (!places.every((place) => /^(?:[xX]|\d{1,2})$/.test(place))) return undefined;
  return places.map((place) => (place === 'x' || place === 'X' ? null : Number(place)));
}

/** The list with hyphens, always: `x-7-9-9-0-0`. */
export const formatFretList = (frets: FretList): string => frets.map((fret) => fret ?? 'x').join('-');

/** Where a string, in the player's numbers, stands in a fret list of `count` strings. */
export const indexOfString = (string: number, count: number): number => count - string;

/** The player's number of the string at a place of a fret list of `count` strings. */
export const stringAtIndex = (index: number, count: number): number => count - index;
