/** Sizes of everything drawn, in pixels: type, staff, diagrams. The styles must use the same sizes of type. */

/** Heights of type, by style. */
export const TYPE = {
  fret: 13,
  /** Names of notes and intervals where they are too long for the usual size. */
  fretSmaller: 11.5,
  fretSmallest: 9,
  symbol: 16,
  sounds: 11.5,
  pluck: 11,
  small: 10,
  grace: 10,
  word: 12.5,
  finger: 10,
  signSmaller: 9,
  signSmallest: 7.5,
  title: 20,
  section: 15,
  caption: 11.5,
} as const;

/** Half the height of a digit, to set a number on the middle of its line. */
export const middleOf = (size: number): number => size * 0.36;

export const STAFF = {
  /** From string to string. */
  gap: 17,
  /** From the bar line to the edge of the first number, and from the edge of the last to the bar line. */
  before: 11,
  after: 9,
  /** Between the edges of neighbouring numbers. */
  between: 7,
  /** Between a chord's name and the next. */
  betweenNames: 10,
  /** How far left of a number's middle its chord's name begins. */
  nameBefore: 8,
  /** The least width of a bar that has nothing in it. */
  emptyBar: 74,
  /** A number's width by its letters and the air around it, the air around a name, and what a melody's ring adds on both sides together. */
  letter: 8,
  bracket: 5.5,
  numberAir: 5,
  nameAir: 3,
  /** A letter of a grace note. */
  smallLetter: 6.5,
  ring: 6,
  graceAir: 3,
  /** From the bar line to the first syllable's edge; between words, and where a hyphen joins two syllables. */
  wordAir: 5,
  betweenWords: 6,
  hyphen: 12,
} as const;
