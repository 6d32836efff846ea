/** What was asked for cannot be done as asked: told in one line, and the program ends with status 2. */
export class WrongUse extends Error {}

/** Reads a whole number from an option; a wrong one is told with the option's name and limits. */
export function wholeNumber(text: string, option: string, least: number, most: number): number {
  const value = /^\d{1,6}$/.test(text) ? Number(text) : NaN;
  if (value >= least && value <= most) return value;
  throw new WrongUse(`${option} takes a whole number from ${least} to ${most}, not "${text}".`);
}

/** Reads one of several words from an option. */
export function oneOf<Word extends string>(text: string, option: string, words: readonly Word[]): Word {
  const found = words.find((word) => word === text);
  if (found !== undefined) return found;
  throw new WrongUse(`${option} takes ${words.slice(0, -1).join(', ')} or ${words[words.length - 1]}, not "${text}".`);
}
