/** Heights in a system: which rows it has above and below its strings, and where each of them lies. */
import type { NoteEvent } from '../realise/score.ts';
import type { ChordLabel, Wording } from './chord-labels.ts';
import { chooseWording } from './chord-labels.ts';
import { RHYTHM } from './draw-rhythm.ts';
import { namedFinger } from './frames.ts';
import type { PlacedBar } from './layout.ts';
import { MOST_LETTERS_BESIDE } from './layout.ts';
import { isSlur } from './links.ts';
import { STAFF } from './metrics.ts';
import type { Moment } from './moments.ts';
import { isAccented, isPalmMuted, pluckingFingers, strikeLetter, strokeOf } from './moments.ts';

/** All heights in pixels from the top of the system; those of words are base lines. */
export interface Rows {
  readonly wording: Wording;
  readonly beside: boolean;
  /** The brackets of endings, the symbols, and what sounds where that has a row of its own. */
  readonly endings: number;
  readonly symbols: number;
  readonly sounds: number;
  readonly numbers: number;
  readonly palm: number;
  /** How far above the highest string the middle of each accent lies: close to what it is about. */
  readonly accents: ReadonlyMap<Moment, number>;
  readonly strikes: number;
  readonly fingers: number;
  /** Where the arrows of bends end; their amounts stand above. */
  readonly bends: number;
  /** The highest and the lowest string. */
  readonly top: number;
  readonly base: number;
  /** The first row of plucking letters. */
  readonly letters: number;
  readonly words: number;
  readonly height: number;
}

const ENDINGS = { at: 5, height: 17 } as const;
const SYMBOL_BASE = 20;
const SECOND_ROW_BASE = 34;
/** From the lowest base line of the names to that of the bar numbers. */
const NAMES_TO_NUMBERS = 17.5;
/** From the numbers on the highest string to what stands above them; where a slur lies over them it needs room as well. */
const CLEAR = { numbers: 11, slurs: 15 } as const;
const BENDS = 16;
const FINGERS = 11;
const STRIKES = 11;
/** Half the height of an accent, with the air around it; and what it keeps from the highest string where nothing stands on that. */
const ACCENT = { half: 5, fromString: 5 } as const;
/** Heights of the letters that an accent may stand above. */
const LETTERS = 9;
const PALM = 13;

const LETTERS_BELOW_RHYTHM = 14;
export const LETTER_STEP = 11;
const WORDS_BELOW = 18;
const FOOT = 8;

export function rowsOf(bars: readonly PlacedBar[], strings: number): Rows {
  const measures = bars.map((bar) => bar.measure);
  const moments = measures.flatMap((measure) => measure.moments);
  const events = moments.flatMap((moment) => moment.events);
  const tied = measures.some(({ bar }) => bar.tied?.some(({ string }) => string === 1));

  const clear = tied || events.some((event) => event.string === 1 && isSlur(event)) ? CLEAR.slurs : CLEAR.numbers;
  let above: number = clear;
  const row = (height: number): number => {
    const here = above;
    above += height;
    return here;
  };
  const bends = row(events.some((event) => event.technique?.bend) ? BENDS : 0);
  const fingers = row(
    FINGERS * Math.max(0, ...bars.flatMap((bar) => bar.measure.moments.map((moment) => namedIn(bar, moment).length))),
  );
  const strikes = row(events.some((event) => strikeLetter(event)) ? STRIKES : 0);
  const accents = new Map<Moment, number>();
  for (const bar of bars) {
    for (const moment of bar.measure.moments) {
      if (!isAccented(moment)) continue;
      const named = namedIn(bar, moment).length;
      const below = Math.max(
        moment.events.some((event) => event.string === 1) ? clear : ACCENT.fromString,
        moment.events.some((event) => event.technique?.bend) ? bends + LETTERS : 0,
        named > 0 ? fingers + LETTER_STEP * (named - 1) + LETTERS : 0,
        moment.events.some((event) => strikeLetter(event)) ? strikes + LETTERS : 0,
      );
      accents.set(moment, below + ACCENT.half);
      above = Math.max(above, below + 2 * ACCENT.half);
    }
  }
  const palm = row(moments.some(isPalmMuted) ? PALM : 0);
  const numbers = Math.max(above, CLEAR.numbers);

  const labelled = bars.flatMap(labelsWithRoom);
  const { wording, beside } = chooseWording(labelled);
  const secondRow = !beside && labelled.some(({ label }) => label.sounding !== undefined);
  const down = measures.some(({ frame }) => frame.ending) ? ENDINGS.height : 0;
  const names = labelled.length === 0 ? 0 : secondRow ? SECOND_ROW_BASE : SYMBOL_BASE;
  const top = down + names + NAMES_TO_NUMBERS + numbers;

  const base = top + STAFF.gap * (strings - 1);
  const anyRhythm = measures.some(({ rhythm }) => rhythm.marks.length > 0);
  const triplets = measures.some(({ rhythm }) => rhythm.triplets.length > 0);
  const rhythm = !anyRhythm ? 0 : triplets ? RHYTHM.heightWithTriplets : RHYTHM.height;
  const letters = base + rhythm + LETTERS_BELOW_RHYTHM;
  const letterRows = Math.max(0, ...moments.map(letterRowsOf));
  const lettersEnd = letters + LETTER_STEP * (letterRows - 1);
  const sung = events.some((event) => event.syllable);
  const words = lettersEnd + WORDS_BELOW;
  return {
    wording,
    beside,
    endings: ENDINGS.at,
    symbols: down + SYMBOL_BASE,
    sounds: down + (beside ? SYMBOL_BASE : SECOND_ROW_BASE),
    numbers: top - numbers,
    palm: top - palm,
    accents,
    strikes: top - strikes,
    fingers: top - fingers,
    bends: top - bends,
    top,
    base,
    letters,
    words,
    height: (sung ? words : lettersEnd) + FOOT,
  };
}

export const heightOf = (rows: Rows, string: number): number => rows.top + STAFF.gap * (string - 1);

function letterRowsOf(moment: Moment): number {
  const fingers = pluckingFingers(moment).length;
  if (fingers > MOST_LETTERS_BESIDE) return fingers;
  return fingers > 0 || strokeOf(moment) !== undefined ? 1 : 0;
}

/** The notes of a moment whose fretting fingers the author names, from the highest string down. */
export const namedIn = ({ measure }: PlacedBar, moment: Moment): readonly NoteEvent[] =>
  measure.frame.fingers.size === 0
    ? []
    : moment.events.filter((event) => namedFinger(measure.frame, event) !== undefined).reverse();

export interface LabelWithRoom {
  readonly label: ChordLabel;
  readonly index: number;
  readonly room: number;
}

export function labelsWithRoom({ measure, middles, width }: PlacedBar): readonly LabelWithRoom[] {
  return measure.labels.flatMap((label, index) => {
    if (!label) return [];
    const next = measure.labels.findIndex((other, place) => place > index && other);
    const end = next < 0 ? width + STAFF.nameBefore : middles[next];
    return [{ label, index, room: end - middles[index] - STAFF.betweenNames }];
  });
}
