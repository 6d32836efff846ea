/** Turns of phrase that the messages share, so that all findings speak with one voice. */

export { counted, fingerName, listed, quoted } from '../../truth/words.ts';

export const capitalised = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);

/**
 * A measure that is known to lie beyond a limit, shown in so many `parts` of one: where both would read alike, the next part up,
 * since "130 mm apart, reaches 130" contradicts itself.
 */
export const outward = (measure: number, limit: number, parts: number): number =>
  Math.max(Math.round(measure * parts), Math.round(limit * parts) + 1) / parts;
