/**
 * Slips that players make inside a line, and the line as they meant it: `string1`, `6th`, `84 bpm`, `frets 1-12`, `D minor`. What
 * is mended here is read, and said once; whatever is only nearly a word stays with the general messages.
 */
import type { Problem } from '../util/finding.ts';
import type { Expectation } from './patterns.ts';
import { slips } from './slips.ts';
import { dotted, type SlotKind } from './slots.ts';
import { stringsSpelt } from './string-letters.ts';
import type { Word } from './words.ts';

export interface Repair {
  /** The line's words as they were meant; those that are new stand where the old ones did. */
  readonly words: readonly Word[];
  readonly problem: Problem;
}

/** A line that does not fit: its words, where it ceases to make sense, and what could have stood there. */
export interface Misfit {
  readonly words: readonly Word[];
  readonly at: number;
  readonly expected: readonly Expectation[];
  /** Whether bar lines cut it. */
  readonly bars: boolean;
  /** The string of a tab's row that is named by a letter. */
  readonly row?: string;
}

/** Undefined where nobody can be sure what was meant. */
export function repairOf(misfit: Misfit): Repair | undefined {
  const { words, at } = misfit;
  if (at >= words.length) return words.length > 1 ? meantEnd(misfit) : undefined;
  if (at === 0) return meantRow(misfit);
  return (
    meantWord(misfit) ??
    meantRange(misfit) ??
    meantBars(misfit) ??
    meantQuotes(misfit) ??
    meantName(misfit) ??
    meantBeat(misfit) ??
    meantStep(misfit) ??
    meantStrings(misfit) ??
    meantLimit(misfit) ??
    (misfit.bars ? meantBarLine(misfit) : undefined) ??
    (misfit.bars ? meantChord(misfit) : undefined) ??
    meantFrets(misfit) ??
    needless(misfit)
  );
}

const ORDINAL = '(?:st|nd|rd|th)?';
const LENGTHS: Readonly<Record<string, string>> = {
  whole: '1/1',
  half: '1/2',
  quarter: '1/4',
  eighth: '1/8',
  sixteenth: '1/16',
  '4': '1/4',
  '8': '1/8',
  '16': '1/16',
};
const TONES: Readonly<Record<string, string>> = {
  root: 'R',
  second: '2',
  third: '3',
  fourth: '4',
  fifth: '5',
  sixth: '6',
  seventh: '7',
  ninth: '9',
  eleventh: '11',
  thirteenth: '13',
};
/** Whom a level speaks to, as the findings call them. */
const LEVELS: Readonly<Record<string, string>> = { beginner: '1', beginners: '1', intermediate: '3', advanced: '4' };
const FINGERS: Readonly<Record<string, string>> = { thumb: 'p', index: 'i', middle: 'm', ring: 'a', little: 'c' };

/** What a word means in a slot of its kind; undefined where it means nothing there. */
const MEANT: Partial<Record<SlotKind, (text: string) => string | undefined>> = {
  string: (text) => new RegExp(`^(?:string-?)?(\\d{1,2})${ORDINAL}$`).exec(text)?.[1],
  fret: (text) => new RegExp(`^(?:fret-?)?(\\d{1,2})${ORDINAL}$`).exec(text)?.[1],
  number: (text) => new RegExp(`^(\\d+)(?:min)?${ORDINAL}\\.?$`).exec(text)?.[1],
  tempo: (text) => /^(\d+(?:\.\d+)?)bpm$/.exec(text)?.[1],
  length: (text) =>
    /^(\d+\/\d+)ths?$/.exec(text)?.[1] ??
    dotted(text) ??
    own(LENGTHS, text.replace(/^(\d+)th/, '$1').replace(/s$/, '')),
  tone: (text) => own(TONES, text) ?? /^([#b]?\d{1,2})(?:st|nd|rd|th)$/.exec(text)?.[1],
  'tone or any': (text) => own(TONES, text) ?? /^([#b]?\d{1,2})(?:st|nd|rd|th)$/.exec(text)?.[1],
  finger: (text) => own(FINGERS, text),
};

const own = (table: Readonly<Record<string, string>>, text: string): string | undefined =>
  Object.hasOwn(table, text) ? table[text] : undefined;

/** In capitals, or in another word for the same thing. */
const isMeant = (word: string, lower: string): boolean => word.toLowerCase() === lower || slips.get(lower) === word;

/** `min` and the like. */
const MINUTES = /^m(?:in(?:ute|s)?)?\.?$/;

/** One word for another: in a slot, in capitals for small letters, or in the quotes of a title. */
function meantWord({ words, at, expected }: Misfit): Repair | undefined {
  const found = words[at];
  const lower = found.text.toLowerCase();
  if (found.kind !== 'word' && found.kind !== 'quoted') return undefined;
  for (const one of expected) {
    let right: string | undefined;
    if (found.kind === 'quoted') {
      if (one.is === 'slot' && one.kind === 'name' && /^\p{L}[\p{L}\p{N}-]*$/u.test(found.text)) right = found.text;
    } else if (one.is === 'slot')
      right = MEANT[one.kind]?.(lower) ?? (words[0].text === 'level' ? own(LEVELS, lower) : undefined);
    else if (one.is === 'word')
      right = isMeant(one.word, lower) || (one.word === 'minutes' && MINUTES.test(lower)) ? one.word : undefined;
    else if (one.is === 'choice') right = one.words.find((word) => isMeant(word, lower));
    if (right !== undefined) return replaced(words, at, at + 1, [{ ...found, kind: 'word', text: right }], right);
  }
  return undefined;
}

/** `1-12` and `1 12` for `1 to 12`. */
function meantRange({ words, at, expected }: Misfit): Repair | undefined {
  const found = words[at];
  const { start, end, text } = found;
  const split = /^(\d+)(-|–|\.\.)(\d+)$/.exec(text);
  if (split && expected.some((one) => one.is === 'slot' && (one.kind === 'fret' || one.kind === 'number'))) {
    const middle = start + split[1].length;
    const range: Word[] = [
      { kind: 'word', text: split[1], start, end: middle },
      { kind: 'word', text: 'to', start: middle, end: middle + split[2].length },
      { kind: 'word', text: split[3], start: middle + split[2].length, end },
    ];
    return replaced(words, at, at + 1, range, `${split[1]} to ${split[3]}`);
  }
  const to = expected.length === 1 && expected[0].is === 'word' && expected[0].word === 'to';
  if (!to || !isNumber(found) || !isNumber(words[at - 1])) return undefined;
  return replaced(words, at, at + 1, [{ kind: 'word', text: 'to', start, end: start }, found], `to ${text}`);
}

/** `bar 1 to 4` is several bars. */
function meantBars({ words, at }: Misfit): Repair | undefined {
  if (words[at].text !== 'to' || words[at - 2]?.text !== 'bar' || !isNumber(words[at - 1])) return undefined;
  return replaced(words, at - 2, at - 1, [{ ...words[at - 2], text: 'bars' }], 'bars');
}

/** A line that ends too early: `bars 3` is one bar, and the path of `use parts.lesson` lacks its quotes. */
function meantEnd({ words, expected }: Misfit): Repair | undefined {
  const last = words.length - 1;
  const to = expected.length === 1 && expected[0].is === 'word' && expected[0].word === 'to';
  if (to && words[last - 1].text === 'bars' && isNumber(words[last]))
    return replaced(words, last - 1, last, [{ ...words[last - 1], text: 'bar' }], 'bar');
  return words[0].text === 'use' && last === 1 && isPath(words[1]) ? inQuotes(words, 1, 2) : undefined;
}

const isNumber = ({ kind, text }: Word): boolean => kind === 'word' && /^\d+$/.test(text);
const isPath = ({ kind, text }: Word): boolean => kind === 'word' && text.endsWith('.lesson');

/** Lines that a title ends, or several titles with commas between them. */
const TITLED = ['lesson', 'course', 'library', 'by', 'licence', 'focus'];

/** A title or a path without its quotes. */
function meantQuotes({ words, at, expected }: Misfit): Repair | undefined {
  if (words[at].kind !== 'word') return undefined;
  if (hasSlot(expected, 'path') && isPath(words[at])) return inQuotes(words, at, at + 1);
  const step = words[0].text === 'step';
  if (!hasSlot(expected, 'title') || !(step || TITLED.includes(words[0].text))) return undefined;
  let end = at;
  while (end < words.length && words[end].kind === 'word' && !(step && /^(?:from|at)$/.test(words[end].text))) end++;
  return inQuotes(words, at, end);
}

function inQuotes(words: readonly Word[], from: number, to: number): Repair {
  const text = words
    .slice(from, to)
    .map((one) => one.text)
    .join(' ');
  const quoted: Word = { kind: 'quoted', text, start: words[from].start, end: words[to - 1].end };
  return replaced(words, from, to, [quoted], `"${text}"`);
}

/** `section verse 1` and `form verse 1` mean one name. */
function meantName({ words, at }: Misfit): Repair | undefined {
  const inPlace = (words[0].text === 'section' && at === 2) || (words[0].text === 'form' && at > 1);
  const before = words[at - 1];
  if (!inPlace || before.kind !== 'word' || !isNumber(words[at])) return undefined;
  const right = `${before.text}-${words[at].text}`;
  return replaced(words, at - 1, at + 1, [{ ...before, text: right, end: words[at].end }], right);
}

const DOTTED: Readonly<Record<string, string>> = { half: '3/4', quarter: '3/8', eighth: '3/16' };

/** `dotted quarter` is a length. */
function meantBeat({ words, at, expected }: Misfit): Repair | undefined {
  if (!hasSlot(expected, 'length') || words[at].text !== 'dotted' || at + 1 >= words.length) return undefined;
  const right = own(DOTTED, words[at + 1].text.toLowerCase());
  if (right === undefined) return undefined;
  return replaced(words, at, at + 2, [{ ...words[at], text: right, end: words[at + 1].end }], right);
}

/** A step's tempo, or the first of its ladder, without the word before it. */
function meantStep({ words, at }: Misfit): Repair | undefined {
  if (words[0].text !== 'step' || at !== 2 || !isNumber(words[at])) return undefined;
  const { start, text } = words[at];
  const word = words[at + 1]?.text === 'to' ? 'from' : 'at';
  return replaced(words, at, at + 1, [{ kind: 'word', text: word, start, end: start }, words[at]], `${word} ${text}`);
}

/** `string1` and `e` at the start of a tab's row; what a letter names is told by the rows around it. */
function meantRow({ words, expected, row }: Misfit): Repair | undefined {
  const [found] = words;
  if (found.kind !== 'word' || !hasSlot(expected, 'string')) return undefined;
  const right = row ?? MEANT.string?.(found.text.toLowerCase());
  return right === undefined ? undefined : replaced(words, 0, 1, [{ ...found, text: right }], right);
}

/** `strings E A D` names strings by what they sound on the usual tuning. */
function meantStrings({ words, at, expected }: Misfit): Repair | undefined {
  if (!hasSlot(expected, 'string') || at === 0) return undefined;
  let end = at;
  while (end < words.length && /^[A-Ge]$/.test(words[end].text)) end++;
  const numbers = end > at + 1 ? stringsSpelt(words.slice(at, end).map(({ text }) => text)) : undefined;
  if (!numbers) return undefined;
  const right = numbers.map((text, i): Word => ({ ...words[at + i], text }));
  return replaced(words, at, end, right, numbers.join(' '));
}

/** `claim reach 3` is the most that it may be. */
function meantLimit({ words, at, expected }: Misfit): Repair | undefined {
  const found = words[at];
  const limit = expected.some((one) => one.is === 'word' && one.word === 'at') && words[at - 1].text === 'reach';
  if (!limit || !isNumber(found)) return undefined;
  const { start } = found;
  const most = ['at', 'most'].map((text): Word => ({ kind: 'word', text, start, end: start }));
  return replaced(words, at, at + 1, [...most, found], `at most ${found.text}`);
}

const hasSlot = (expected: readonly Expectation[], kind: SlotKind): boolean =>
  expected.some((one) => one.is === 'slot' && one.kind === kind);

/** A dash or a comma between two chords is a bar line, a dot behind one a beat. */
function meantBarLine({ words, at, expected }: Misfit): Repair | undefined {
  if (!hasSlot(expected, 'chord') || !expected.some((one) => one.is === 'mark' && one.kind === 'bar')) return undefined;
  const found = words[at];
  if (found.kind === 'comma' || /^[-–—]$/.test(found.text))
    return replaced(words, at, at + 1, [{ ...found, kind: 'bar', text: '|' }], '|');
  return found.text === '.' ? replaced(words, at, at + 1, [{ ...found, text: '/' }], '/') : undefined;
}

const QUALITY = /^(?:major|maj|minor|min|dim|aug|sus[24]?|add|\d{1,2}(?:th)?)$/i;

/** `D minor` and `C maj 7` are one symbol each. */
function meantChord({ words, at, expected }: Misfit): Repair | undefined {
  const root = words[at - 1];
  if (!hasSlot(expected, 'chord') || !/^[A-G][#b♯♭]?$/.test(root.text)) return undefined;
  let end = at;
  while (end < words.length && words[end].kind === 'word' && QUALITY.test(words[end].text)) end++;
  if (end === at) return undefined;
  const suffix = words
    .slice(at, end)
    .map(({ text }) =>
      text
        .toLowerCase()
        .replace(/^minor$|^min$/, 'm')
        .replace(/^major$/, 'maj')
        .replace(/th$/, ''),
    )
    .join('');
  const right = root.text + (suffix === 'maj' ? '' : suffix);
  const whole: Word = { kind: 'word', text: right, start: root.start, end: words[end - 1].end };
  return replaced(words, at - 1, end, [whole], right);
}

/** The fewest and the most strings that a list of frets is for. */
const FEWEST_FRETS = 3;
const MOST_FRETS = 12;

/** `x 3 2 0 1 0` is one list of frets. */
function meantFrets({ words, at }: Misfit): Repair | undefined {
  const isFret = ({ kind, text }: Word): boolean => kind === 'word' && /^(?:[xX]|\d{1,2})$/.test(text);
  const first = at - 1;
  const inPlace = first > 0 && (words[first - 1].text === 'as' || (words[0].text === 'grip' && first === 2));
  if (!inPlace || !isFret(words[first])) return undefined;
  let end = at;
  while (end < words.length && isFret(words[end])) end++;
  if (end - first < FEWEST_FRETS || end - first > MOST_FRETS) return undefined;
  const list = words.slice(first, end);
  const right = list.map(({ text }) => text.toLowerCase()).join('-');
  return replaced(
    words,
    first,
    end,
    [{ kind: 'word', text: right, start: list[0].start, end: words[end - 1].end }],
    right,
  );
}

/** Words that say again what the line says already. */
const NEEDLESS = new Set([
  'the',
  'a',
  'string',
  'strings',
  'fret',
  'frets',
  'time',
  'signature',
  'chords',
  'bpm',
  'note',
  'notes',
  'and',
  'of',
  '=',
  '&',
]);

/** A word that the line means the same without. */
function needless({ words, at, expected, bars }: Misfit): Repair | undefined {
  const found = words[at];
  const previous = words[at - 1];
  if (found.kind === 'colon' && at === words.length - 1)
    return { words: words.slice(0, at), problem: problem('stray-colon', [found], { word: previous.text }) };
  // The string of a tab's row.
  if (found.kind === 'colon' && at === 1 && hasSlot(expected, 'tab sign'))
    return { words: [previous, ...words.slice(2)], problem: problem('stray-colon', [found], { word: previous.text }) };
  if (words[0].text === 'capo' && at === 1 && /^(?:on|at)$/.test(found.text)) return without(words, at);
  // `key of G` has taken the `of` for its note.
  if (previous.text === 'of' && words[0].text === 'key') return without(words, at - 1);
  if (found.kind === 'comma' && !expected.some((one) => one.is === 'mark' && one.kind === 'comma'))
    return without(words, at);
  return !bars && found.kind === 'word' && NEEDLESS.has(found.text.toLowerCase()) ? without(words, at) : undefined;
}

const without = (words: readonly Word[], at: number): Repair => ({
  words: [...words.slice(0, at), ...words.slice(at + 1)],
  problem: problem('needless-word', [words[at]], { found: words[at].text }),
});

export function replaced(words: readonly Word[], from: number, to: number, by: readonly Word[], right: string): Repair {
  const old = words.slice(from, to);
  const found = old.map(({ kind, text }) => (kind === 'quoted' ? `"${text}"` : text)).join(' ');
  return {
    words: [...words.slice(0, from), ...by, ...words.slice(to)],
    problem: problem('misspelt-word', old, { found, right }),
  };
}

const problem = (kind: string, words: readonly Word[], data: Problem['data']): Problem => ({
  kind,
  span: { start: words[0].start, end: words[words.length - 1].end },
  data,
});
