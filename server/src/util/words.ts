/** Turns of phrase that messages share, so that all of them speak with one voice. */

/** `1, 5 and 8`. */
export const listed = (items: readonly string[], last = 'and'): string =>
  items.length < 2 ? (items[0] ?? '') : `${items.slice(0, -1).join(', ')} ${last} ${items[items.length - 1]}`;

/** Words of the lesson as they stand in it. */
export const quoted = (words: string): string => `\`${words}\``;

/** `1 string`, `4 strings`. */
export const counted = (count: number, thing: string): string => `${count} ${thing}${count === 1 ? '' : 's'}`;
