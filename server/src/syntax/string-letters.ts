/** Strings that are called by their letters, as on a headstock or at the edge of a plain-text tab, and their numbers. */
/** The strings of the usual tuning from the lowest up, as players call them. */
const USUAL = 'EADGBE';

/**
 * String numbers for `E A D` or `e B G`: the only way in which these letters stand in their order on the usual tuning, up or down, or
 * undefined where there are several or none. Letters of other tunings are left alone, since the text that names the tuning may
 * stand anywhere.
 */
export function stringsSpelt(letters: readonly string[]): readonly string[] | undefined {
  const ways = [...waysUp(letters), ...waysUp([...letters].reverse()).map((way) => [...way].reverse())];
  return ways.length === 1 ? ways[0] : undefined;
}

/** Every way in which these letters go up the strings. */
function waysUp(letters: readonly string[]): readonly (readonly string[])[] {
  const ways: (readonly number[])[] = [[]];
  for (const letter of letters) {
    const upper = letter.toUpperCase();
    for (const way of ways.splice(0)) {
      for (let index = (way[way.length - 1] ?? -1) + 1; index < USUAL.length; index++) {
        // A small `e` is the high one.
        if (USUAL[index] === upper && !(letter === 'e' && index === 0)) ways.push([...way, index]);
      }
    }
  }
  return ways.map((way) => way.map((index) => `${USUAL.length - index}`));
}

/**
 * The strings of a block of rows that are named by letters, from the first row to the last; undefined where a letter can't be told.
 * Six rows are all the strings in their order, whatever they are tuned to; fewer are those of the usual tuning.
 */
export function rowsSpelt(letters: readonly string[]): readonly (string | undefined)[] {
  if (letters.length === USUAL.length) {
    // Plain tab has the highest string on top; who begins below spells the tuning as it is named.
    const usual = [...USUAL];
    const alike = (order: readonly string[]): number =>
      letters.filter((letter, i) => letter.toUpperCase() === order[i]).length;
    const upwards = alike(usual) > alike([...usual].reverse());
    return letters.map((_, i) => `${upwards ? USUAL.length - i : i + 1}`);
  }
  const [way, ...others] = waysUp([...letters].reverse());
  return way && others.length === 0 ? [...way].reverse() : letters.map((letter) => USUAL_ROWS[letter]);
}

/** A single row's letter: a capital `E` is the low one. */
const USUAL_ROWS: Readonly<Record<string, string | undefined>> = {
  e: '1',
  B: '2',
  b: '2',
  G: '3',
  g: '3',
  D: '4',
  d: '4',
  A: '5',
  a: '5',
  E: '6',
};
