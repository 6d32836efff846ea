/** A shape as the fretting hand meets it: which strings are pressed where on the neck, ring open or are silent. Knows no fingers. */
import type { FretList } from '../fretboard/frets.ts';
import { stringAtIndex } from '../fretboard/frets.ts';
import type { Instrument } from '../fretboard/instrument.ts';
import { FIRST_POSITION } from './model.ts';
import { millimetresAt, neckFret, nutFret, stringCount, stringSpacingAt, topFret } from '../fretboard/instrument.ts';

/** What `Grip.pressed` holds for a string that no finger presses. */
export const OPEN = 0;
export const SILENT = -1;

/** All strings that are pressed at one fret of the neck. */
export interface Level {
  /** Counted from the nut, whatever capo lies where. */
  readonly fret: number;
  /** Counted from the nut, or from the capo where it covers every string: the fret as the hand feels it. */
  readonly fretFromNut: number;
  /** Of the fingertips, in mm from the nut. */
  readonly place: number;
  /** Between neighbouring strings there, in mm. */
  readonly spacing: number;
  /** Indices into the fret list, from the bass side. */
  readonly strings: readonly number[];
  /** The index of the last string that is pressed at a lower fret; -1 where none is. */
  readonly lastLower: number;
}

export interface Grip {
  /** The frets as written, for words to the player. */
  readonly frets: FretList;
  /** By index into the fret list: the fret counted from the nut, `OPEN` or `SILENT`. */
  readonly pressed: readonly number[];
  /** The finger list before any finger is set: 0 for open and pressed strings, null for silent ones. */
  readonly unfingered: readonly (number | null)[];
  /** From the lowest fret to the highest. */
  readonly levels: readonly Level[];
  /** The index of the last string that rings open; -1 where none does. */
  readonly lastOpen: number;
  /** An open string sounds and nothing is pressed above the fourth fret: fingers then like to stand on the frets of their numbers. */
  readonly firstPosition: boolean;
}

/** The first place of a fret list that the instrument does not have: a string too many, or a fret off the neck. */
export function placeOffNeck(instrument: Instrument, frets: FretList): number | undefined {
  const count = stringCount(instrument);
  if (frets.length > count) return count;
  for (let index = 0; index < frets.length; index++) {
    const fret = frets[index];
    if (fret === null) continue;
    if (!Number.isInteger(fret) || fret < 0 || fret > topFret(instrument, stringAtIndex(index, count))) return index;
  }
  return undefined;
}

/** Reads a fret list that lies on the neck; strings that it does not reach are silent. */
export function gripOf(instrument: Instrument, frets: FretList): Grip {
  const count = stringCount(instrument);
  const nut = nutFret(instrument);
  const pressed: number[] = [];
  const seen: number[] = [];
  let lastOpen = -1;
  for (let index = 0; index < count; index++) {
    const fret = frets[index] ?? null;
    if (fret === null) pressed.push(SILENT);
    else if (fret === 0) {
      pressed.push(OPEN);
      lastOpen = index;
    } else {
      const onNeck = neckFret(instrument, stringAtIndex(index, count), fret);
      pressed.push(onNeck);
      if (!seen.includes(onNeck)) seen.push(onNeck);
    }
  }
  seen.sort((a, b) => a - b);
  const levels = seen.map((fret): Level => levelAt(instrument, pressed, fret, nut));
  const top = levels.length > 0 ? levels[levels.length - 1].fretFromNut : 0;
  const unfingered = pressed.map((fret) => (fret === SILENT ? null : 0));
  return { frets, pressed, unfingered, levels, lastOpen, firstPosition: lastOpen >= 0 && top <= FIRST_POSITION };
}

function levelAt(instrument: Instrument, pressed: readonly number[], fret: number, nut: number): Level {
  const strings: number[] = [];
  let lastLower = -1;
  for (let index = 0; index < pressed.length; index++) {
    if (pressed[index] === fret) strings.push(index);
    else if (pressed[index] > OPEN && pressed[index] < fret) lastLower = index;
  }
  const string = stringAtIndex(strings[0], pressed.length);
  const written = fret - neckFret(instrument, string, 0);
  const place = millimetresAt(instrument, string, written);
  const spacing = stringSpacingAt(instrument, place);
  return { fret, fretFromNut: fret - nut, place, spacing, strings, lastLower };
}
