/** Letters as a reader counts them: a letter with its combining marks is one. Plain rules, the same on every machine. */

/** Nearly all that is drawn; each sign of it is a letter of its own. */
const PLAIN = /^[ -~]*$/;

const JOINS = /^(?:\p{Mark}|\u200d)$/u;

/** Cuts a text into letters, marks and joiners kept with the letter before them. */
export function graphemes(text: string): readonly string[] {
  if (PLAIN.test(text)) return text.split('');
  const letters: string[] = [];
  let joined = false;
  for (const sign of text) {
    if (letters.length > 0 && (joined || JOINS.test(sign))) letters[letters.length - 1] += sign;
    else letters.push(sign);
    joined = sign === '\u200d';
  }
  return letters;
}

/** Columns that a text takes in a terminal: two for a letter of the East Asian scripts and for pictures. */
export function columns(text: string): number {
  if (PLAIN.test(text)) return text.length;
  let count = 0;
  for (const letter of graphemes(text)) count += isWide(letter.codePointAt(0)!) ? 2 : 1;
  return count;
}

/** The ranges that terminals draw two columns wide, as the Unicode standard's East Asian Width has them, taken roughly. */
const isWide = (code: number): boolean =>
  (code >= 0x1100 && code <= 0x115f) ||
  (code >= 0x2e80 && code <= 0xa4cf) ||
  (code >= 0xac00 && code <= 0xd7a3) ||
  (code >= 0xf900 && code <= 0xfaff) ||
  (code >= 0xfe30 && code <= 0xfe6f) ||
  (code >= 0xff00 && code <= 0xff60) ||
  (code >= 0x1f300 && code <= 0x1faff) ||
  (code >= 0x20000 && code <= 0x3fffd);
