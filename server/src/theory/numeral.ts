/** Roman numerals: chords by their place in a key, read and written. */
import type { Chord } from './chord.ts';
import { chordOf, chordWithBass, sameSymbol } from './chord.ts';
import type { Key } from './key.ts';
import { countingScale, isMinor, keyOf } from './key.ts';
import type { NoteName } from './note.ts';
import { formatAccidental, sameName, semitone, transposeName } from './note.ts';
import { degreeOf } from './quality.ts';
import { readQuality } from './read-quality.ts';

const ROMAN: readonly string[] = ['I', 'II', 'III', 'IV', 'V', 'VI', 'VII'];
const NUMERAL = /^([#b♯♭♮]{0,2})(VII|VI|V|IV|III|II|I|vii|vi|v|iv|iii|ii|i)(.*)$/su;
/** What may follow a numeral, so that `verse` and `intro` are none. */
const SUFFIX =
  /^(?:$|[\d(°ºøØ∅Δ△∆+#♯♭/-]|o(?![a-z])|b\d|maj|min|m(?![a-z])|M(?![a-z])|madd|sus|add|dim|aug|alt|no\d|omit)/u;
/** How many slashes of secondary dominants are followed, as in V/V/V. */
const DEEPEST = 3;

/** Steps and semitones of the major scale, against which accidentals count. */
const MAJOR: readonly number[] = [0, 2, 4, 5, 7, 9, 11];

/** Whether a word starts like a numeral: `vi7`, `bVII`, `#ivø7`, `V7/V`; chord symbols and names such as `verse` do not. */
export function looksLikeNumeral(text: string): boolean {
  const match = NUMERAL.exec(text.trim());
  return match !== null && SUFFIX.test(match[3]);
}

interface Parts {
  readonly signs: string;
  readonly place: number;
  readonly minor: boolean;
  readonly suffix: string;
}

function split(text: string): Parts | undefined {
  const match = NUMERAL.exec(text);
  if (!match) return undefined;
  const minor = match[2] === match[2].toLowerCase();
  return { signs: match[1], place: ROMAN.indexOf(match[2].toUpperCase()), minor, suffix: match[3] };
}

/** Diminished triads and sevenths on the seventh degree stand on the leading tone, in minor too. */
const LEADING = /^(?:°|º|o(?!mit)|dim|ø|Ø|∅)/u;

function rootOf({ signs, place, minor, suffix }: Parts, key: Key): NoteName {
  const leading = place === 6 && minor && LEADING.test(suffix) && isMinor(key);
  if (signs === '' && !leading) return countingScale(key)[place];
  const flats = [...signs].filter((sign) => sign === 'b' || sign === '♭').length;
  const sharps = [...signs].filter((sign) => sign === '#' || sign === '♯').length;
  return transposeName(key.tonic, place, MAJOR[place] + sharps - flats);
}

/** A lower-case numeral is a minor chord, unless its suffix says what it is, or suspends the third. */
function qualityText({ minor, suffix }: Parts): string {
  if (!minor) return suffix;
  return /^(?:m(?!aj)|min|-|°|º|o(?!mit)|dim|ø|Ø|∅)/u.test(suffix) || /sus/.test(suffix) ? suffix : `m${suffix}`;
}

/** The slash that makes a secondary numeral; the one of `6/9` does not. */
const SECONDARY = /^(.*?)\/([#b♯♭♮]{0,2}[IViv].*)$/su;

function parseAt(text: string, key: Key, depth: number): Chord | undefined {
  const secondary = SECONDARY.exec(text);
  if (secondary) {
    const target = depth < DEEPEST ? parseAt(secondary[2], key, depth + 1) : undefined;
    if (!target) return undefined;
    const minor = target.tones.some(({ degree }) => degree.number === 3 && degree.accidental < 0);
    return parseAt(secondary[1], keyOf(target.root, minor ? 'minor' : 'major')!, depth);
  }
  const parts = split(text);
  const degrees = parts && readQuality(qualityText(parts));
  return degrees && chordOf(rootOf(parts, key), degrees);
}

/**
 * The chord of a numeral in a key. Without an accidental the root comes from the key's own scale (in minor the natural
 * one, but `vii°` from the leading tone), with one it counts against the major scale on the tonic. `X/Y` is X in the
 * key of Y, major or minor as Y is. Undefined for what is no numeral.
 */
export function parseNumeral(text: string, key: Key): Chord | undefined {
  const word = text.trim();
  return looksLikeNumeral(word) ? parseAt(word, key, 0) : undefined;
}

function rootText(key: Key, root: NoteName): string | undefined {
  const place = (root.letter - key.tonic.letter + 7) % 7;
  if (sameName(countingScale(key)[place], root)) return ROMAN[place];
  const expected = semitone(transposeName(key.tonic, place, MAJOR[place]));
  const difference = ((semitone(root) - expected + 18) % 12) - 6;
  if (Math.abs(difference) > 2) return undefined;
  // Where the scale has altered this degree, the major scale's own note needs a natural sign.
  return (difference === 0 ? '♮' : formatAccidental(difference)) + ROMAN[place];
}

/** How numerals write the qualities that their case does not say. */
const OWN: Readonly<Record<string, string>> = { dim: '°', dim7: '°7', m7b5: 'ø7', aug: '+' };

/** Degrees whose dominant sevenths players call by the degree alone: the blues has I7 and IV7, and V7 is the key's own. */
const OWN_DOMINANTS: ReadonlySet<number> = new Set([0, 3, 4]);

/** `V7/ii` for a dominant seventh that leads to a chord of the key; undefined where it leads to none. */
function secondaryOf(chord: Chord, key: Key): string | undefined {
  const scale = countingScale(key);
  const degrees = chord.tones.map(({ degree }) => degree);
  const dominant = degrees.includes(degreeOf(3)) && degrees.includes(degreeOf(7, -1));
  const place = scale.findIndex((note) => sameName(transposeName(note, 4, 7), chord.root));
  if (!dominant || place <= 0 || OWN_DOMINANTS.has((place + 4) % 7)) return undefined;
  const interval = (steps: number): number => (semitone(scale[(place + steps) % 7]) - semitone(scale[place]) + 12) % 12;
  if (interval(4) !== 7) return undefined;
  return `V${chord.quality}/${interval(2) === 3 ? ROMAN[place].toLowerCase() : ROMAN[place]}`;
}

/**
 * The numeral of a chord in a key, its slash bass left aside: `vi7`, `bVII`, `vii°`, `V7/ii`. What it writes reads back to
 * the same chord; undefined where no numeral does.
 */
export function numeralOf(chord: Chord, key: Key): string | undefined {
  const root = rootText(key, chord.root);
  if (!root) return undefined;
  const minor = chord.tones.some(({ degree }) => degree.number === 3 && degree.accidental < 0);
  const suffix = OWN[chord.quality] ?? (minor ? chord.quality.replace(/^m(?!aj)/, '') : chord.quality);
  const upright = minor ? root.replace(/[IV]+/, (roman) => roman.toLowerCase()) : root;
  const plain = chordWithBass(chord, undefined);
  const written = [secondaryOf(chord, key), upright.replace('♮', '') + suffix, upright + suffix];
  return written.find((text) => {
    const back = text === undefined ? undefined : parseNumeral(text, key);
    return back && sameSymbol(back, plain);
  });
}
