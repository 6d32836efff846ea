/** An instrument as the search for voicings meets it: plain numbers by index into a fret list, looked up instead of worked out. */
import { stringAtIndex, type FretList } from '../fretboard/frets.ts';
import type { Instrument } from '../fretboard/instrument.ts';
import { capoOn, millimetresAt, nutFret, openMidi, stringCount, topFret } from '../fretboard/instrument.ts';
import { shapeShift } from '../fretboard/shape-pitch.ts';
import { HAND_FACTOR, REACH, type HandSize } from '../hand/model.ts';

export interface Neck {
  readonly instrument: Instrument;
  readonly strings: number;
  /** Semitones from what the symbols name up to what sounds. */
  readonly shift: number;
  /** What each string is to the symbols at its written fret 0, as a MIDI number. */
  readonly open: readonly number[];
  /** The fret of the capo on each string: the written fret plus this is the fret on the neck. */
  readonly capo: readonly number[];
  /** The highest written fret of each string. */
  readonly top: readonly number[];
  /** The lowest written fret above 0 that a finger can press: beside a partial capo a free string is reached only beyond it. */
  readonly lowest: readonly number[];
  /** The fret that is the hand's nut. */
  readonly nut: number;
  readonly highest: number;
  /** Fingertips in mm from the nut, by fret on the neck. */
  readonly places: readonly number[];
  /** By fret on the neck: the highest fret that a hand with its index there still reaches. */
  readonly reaches: readonly number[];
}

/** Every chord of a lesson asks for the same neck. */
const necks = new WeakMap<Instrument, Partial<Record<HandSize, Neck>>>();

export function neckOf(instrument: Instrument, hand: HandSize): Neck {
  let known = necks.get(instrument);
  if (!known) necks.set(instrument, (known = {}));
  return (known[hand] ??= measuredNeck(instrument, hand));
}

function measuredNeck(instrument: Instrument, hand: HandSize): Neck {
  const strings = stringCount(instrument);
  const shift = shapeShift(instrument);
  const numbers = Array.from({ length: strings }, (_, index) => stringAtIndex(index, strings));
  const capo = numbers.map((string) => capoOn(instrument, string));
  const top = numbers.map((string) => topFret(instrument, string));
  const highest = Math.max(...top.map((fret, index) => fret + capo[index]));
  const without: Instrument = { ...instrument, capo: undefined };
  const places = Array.from({ length: highest + 1 }, (_, fret) => millimetresAt(without, 1, fret));
  const widest = REACH['1-4'].extreme * HAND_FACTOR[hand];
  return {
    instrument,
    strings,
    shift,
    open: numbers.map((string) => openMidi(instrument, string) - shift),
    capo,
    top,
    lowest: capo.map((fret) => (fret === 0 ? (instrument.capo?.fret ?? 0) + 1 : 1)),
    nut: nutFret(instrument),
    highest,
    places,
    reaches: places.map((place) => {
      let fret = places.length - 1;
      while (fret > 0 && places[fret] - place > widest) fret--;
      return fret;
    }),
  };
}

/** A string that sounds in a shape, in bare numbers. */
export interface Stopped {
  /** Player's number, 1 the highest. */
  readonly string: number;
  readonly fret: number;
  /** What sounds. */
  readonly midi: number;
}

/** The strings of a shape that sound, from the lowest as written. */
export function stoppedOn(neck: Neck, frets: FretList): readonly Stopped[] {
  const strings: Stopped[] = [];
  frets.forEach((fret, index) => {
    if (fret === null) return;
    strings.push({ string: stringAtIndex(index, frets.length), fret, midi: neck.open[index] + fret + neck.shift });
  });
  return strings;
}
