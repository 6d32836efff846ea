/** Turns of phrase in which it is said what is true of a lesson. */

/** `1, 5 and 8`. */
export const listed = (items: readonly string[], last = 'and'): string =>
  items.length < 2 ? (items[0] ?? '') : `${items.slice(0, -1).join(', ')} ${last} ${items[items.length - 1]}`;

/** Words of the lesson as they stand in it. */
export const quoted = (words: string): string => `\`${words}\``;

/** `1 string`, `4 strings`. */
export const counted = (count: number, thing: string): string => `${count} ${thing}${count === 1 ? '' : 's'}`;

const FINGER_NAMES = ['', 'index', 'middle', 'ring', 'little'];

/** A fretting finger, 1 to 4: `ring finger`. */
export const fingerName = (finger: number): string => `${FINGER_NAMES[finger] ?? 'a'} finger`;
