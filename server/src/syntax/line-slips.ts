/**
 * Lines that begin otherwise than ours but say one thing only: `84 bpm`, `standard tuning`, `strings E A D G B E`, `1. home`. They
 * are read as they were meant, and said once.
 */
import { replaced, type Repair } from './repairs.ts';
import type { Word } from './words.ts';

/** The length that a note is called by in front of a tempo. */
const BEATS: Readonly<Record<string, string>> = {
  whole: '1/1',
  half: '1/2',
  quarter: '1/4',
  eighth: '1/8',
  '\u2669': '1/4',
  '\u266a': '1/8',
  '1/2': '1/2',
  '1/4': '1/4',
  '1/8': '1/8',
  '3/8': '3/8',
};
const NUMBER = /^\d+(?:\.\d+)?$/;
/** An open string of a tuning, as it is spelt on a headstock. */
const OPEN_STRING = /^[A-Ga-g][#b♯♭]?\d?$/;
/** The fewest letters that spell a tuning. */
const FEWEST_LETTERS = 3;

/** The statement that a line in the first column was meant to be, where its first word is none of ours; else undefined. */
export function meantStart(words: readonly Word[]): Repair | undefined {
  return meantTempo(words) ?? meantTuning(words);
}

function meantTempo(words: readonly Word[]): Repair | undefined {
  const [first, second, third] = words;
  if (first?.kind !== 'word') return undefined;
  const alone = /^(\d+(?:\.\d+)?)bpm$/i.exec(first.text)?.[1];
  const spaced = NUMBER.test(first.text) && second?.text.toLowerCase() === 'bpm';
  if ((alone !== undefined && words.length === 1) || (spaced && words.length === 2)) {
    const number: Word = { ...first, text: alone ?? first.text };
    return replaced(words, 0, words.length, [before(first, 'tempo'), number], `tempo ${number.text}`);
  }
  const beat = Object.hasOwn(BEATS, first.text.toLowerCase()) ? BEATS[first.text.toLowerCase()] : undefined;
  if (beat === undefined || second?.text !== '=' || !NUMBER.test(third?.text ?? '')) return undefined;
  return replaced(words, 0, 1, [before(first, 'tempo'), { ...first, text: beat }], `tempo ${beat}`);
}

function meantTuning(words: readonly Word[]): Repair | undefined {
  const [first, second] = words;
  if (first?.kind !== 'word') return undefined;
  // `dropped D tuning` and `standard tuning`.
  const last = words[words.length - 1];
  if (words.length > 1 && last.text.toLowerCase() === 'tuning' && words.every(({ kind }) => kind === 'word')) {
    const name = words.slice(0, -1);
    const right = `tuning ${name.map(({ text }) => text).join(' ')}`;
    return replaced(words, 0, words.length, [before(first, 'tuning'), ...name], right);
  }
  if (!/^strings?$/i.test(first.text)) return undefined;
  const letters = words.slice(second?.kind === 'colon' ? 2 : 1);
  if (letters.length < FEWEST_LETTERS || !letters.every(({ text }) => OPEN_STRING.test(text))) return undefined;
  return replaced(words, 0, words.length - letters.length, [{ ...first, text: 'tuning' }], 'tuning');
}

/** `1. home` and `2nd ending home` in a section. */
export function meantEnding(words: readonly Word[]): Repair | undefined {
  const [first, second] = words;
  const number = /^(\d{1,2})(?:\.|\)|st|nd|rd|th)$/.exec(first.text)?.[1];
  if (number === undefined || first.kind !== 'word') return undefined;
  const said = second?.text.toLowerCase() === 'ending' ? 2 : 1;
  const name = words[said]?.kind === 'colon' ? words.slice(said + 1) : words.slice(said);
  if (name.length !== 1 || name[0].kind !== 'word' || !/^\p{L}/u.test(name[0].text)) return undefined;
  const right = [before(first, 'ending'), { ...first, text: number }];
  return replaced(words, 0, words.length - 1, right, `ending ${number}`);
}

/** A word that was left out, where the one behind it begins. */
const before = ({ start }: Word, text: string): Word => ({ kind: 'word', text, start, end: start });
