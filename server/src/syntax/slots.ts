/**
 * The kinds of word that fill the slots of the table. A kind looks at a word's form alone: whether `H7` is a chord is for
 * those who know music to say, so that they can say it well.
 */
export interface SlotForm {
  /** As it stands in "a fret number is missing here". */
  readonly says: string;
  readonly example: string;
  readonly quoted?: boolean;
  readonly fits: (text: string) => boolean;
}

/** Words that follow a chord and can therefore not be one. */
const AFTER_A_CHORD = new Set(['at', 'as', 'over', 'in', 'with', 'held', 'pushed']);
const LENGTH = /^\d+\/\d+$/;
/** A word of letters that only a chord symbol is spelt like, so that the chord behind `in E minor` is no part of the mode. */
const SURELY_A_CHORD = /^([A-H]b{0,2}|b?([IV]+|[iv]+))(m|M|maj|min|dim|aug|sus|o)?$/;

/** `1/4.` is a quarter and half of it; undefined for what is no length with a dot. */
export function dotted(text: string): string | undefined {
  const [, over, under] = /^(\d{1,2})\/(1|2|4|8|16|32|64)\.$/.exec(text) ?? [];
  if (under === undefined) return undefined;
  const [three, two] = [3 * Number(over), 2 * Number(under)];
  return three % 2 === 0 ? `${three / 2}/${two / 2}` : `${three}/${two}`;
}

const matching =
  (form: RegExp) =>
  (text: string): boolean =>
    form.test(text);

export const slotKinds = {
  title: { says: 'a title in double quotes', example: '"Harbour lamps"', quoted: true, fits: () => true },
  path: { says: 'a path in double quotes', example: '"parts/shapes.lesson"', quoted: true, fits: () => true },
  name: { says: 'a name', example: 'lamp', fits: matching(/^\p{L}/u) },
  number: { says: 'a whole number', example: '3', fits: matching(/^\d+$/) },
  measure: { says: 'a length in millimetres', example: '648', fits: matching(/^\d+(\.\d+)?(mm)?$/) },
  date: { says: 'a date as year-month-day', example: '2030-01-07', fits: matching(/^\d{4}-\d{1,2}-\d{1,2}$/) },
  string: { says: 'a string number', example: '4', fits: matching(/^\d+$/) },
  fret: { says: 'a fret number', example: '8', fits: matching(/^\d+$/) },
  frets: { says: 'a fret list from the lowest string up', example: 'x-7-9-9-0-0', fits: matching(/^[xX\d][xX\d-]*$/) },
  length: { says: 'a length such as 1/8', example: '1/8', fits: matching(LENGTH) },
  meter: { says: 'a meter such as 3/4', example: '3/4', fits: matching(LENGTH) },
  tempo: { says: 'a tempo in beats a minute', example: '84', fits: matching(/^\d+(\.\d+)?$/) },
  tonic: { says: 'a key note', example: 'G', fits: matching(/^\p{L}(?:[#b♯♭♮]*\p{L}*|-(?:flat|sharp))$/iu) },
  mode: {
    says: 'a mode such as major',
    example: 'major',
    fits: (text: string) => /^\p{L}[\p{L}-]*$/u.test(text) && !AFTER_A_CHORD.has(text) && !SURELY_A_CHORD.test(text),
  },
  note: { says: 'a note', example: 'G', fits: matching(/^\p{L}[#b♯♭♮]*-?\d*$/u) },
  tuning: { says: 'the name of a tuning or its notes, low to high', example: 'standard', fits: matching(/^\p{L}/u) },
  chord: {
    says: 'a chord',
    example: 'Am7',
    fits: (text: string) => /^([A-Ha-h]|[#b♯♭]*[IViv])/.test(text) && !AFTER_A_CHORD.has(text),
  },
  tone: { says: 'a tone of the chord', example: '5', fits: matching(/^(R|[#b♯♭]*\d+)$/) },
  'tone or any': { says: 'a tone of the chord', example: 'R', fits: matching(/^(any|R|[#b♯♭]*\d+)$/) },
  bass: { says: 'a bass note or tone', example: 'D', fits: matching(/^(\p{L}[#b♯♭♮]*|[#b♯♭]*\d+)$/u) },
  pluck: {
    says: 'a pluck or stroke',
    example: 'p6',
    fits: (text: string) => !LENGTH.test(text) && text !== 'triplet(' && text !== ')' && !dotted(text),
  },
  step: {
    says: 'a step of the melody',
    example: '-1',
    fits: (text: string) => !LENGTH.test(text) && text !== 'triplet(' && text !== ')' && !dotted(text),
  },
  sign: {
    says: 'a fret or a sign',
    example: '7',
    // Where no note stands before it `5/7` can be no length: those who know slides say so.
    fits: (text: string) => text !== 'triplet(' && text !== ')' && !dotted(text),
  },
  'tab sign': { says: 'a fret or a sign', example: 'h3', fits: () => true },
  'pluck row': { says: 'a plucking finger', example: 'p', fits: () => true },
  'finger row': { says: 'a finger', example: '3', fits: () => true },
  'palm row': { says: '`*` for a muted step or `-`', example: '*', fits: () => true },
  finger: { says: 'a finger: p, i, m, a or c', example: 'a', fits: matching(/^[pimac]$/) },
  syllable: { says: 'a syllable', example: 'moon', fits: () => true },
} as const satisfies Record<string, SlotForm>;

export type SlotKind = keyof typeof slotKinds;
