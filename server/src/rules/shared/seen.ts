/** Frets and notes as the player sees them: beside a partial capo one neck has two countings, and no shape's name fits all strings. */
import { stringAtIndex, type FretList } from '../../fretboard/frets.ts';
import { capoOn, millimetresAt, nutFret, type Instrument } from '../../fretboard/instrument.ts';
import type { WidestPair } from '../../hand/fingering.ts';
import type { SoundingString } from '../../realise/score.ts';
import { formatPitch } from '../../theory/note.ts';
import { fingerName } from './words.ts';

/** Whether a capo lies on some strings alone. */
export const hasPartialCapo = (instrument: Instrument): boolean =>
  instrument.capo !== undefined && nutFret(instrument) === 0;

/** `fret 3`; beside a partial capo `fret 3 of string 2` or `fret 4 from the capo on string 4`. */
export function fretNamed(instrument: Instrument, fret: number, string: number | undefined): string {
  if (string === undefined || !hasPartialCapo(instrument)) return `fret ${fret}`;
  return `fret ${fret} ${capoOn(instrument, string) > 0 ? 'from the capo on' : 'of'} string ${string}`;
}

/** A string's note as the symbols name it; beside a partial capo as it sounds, since it is in nobody's shape. */
export const noteNamed = (instrument: Instrument, { pitch, shapePitch }: SoundingString): string =>
  formatPitch(hasPartialCapo(instrument) ? pitch : shapePitch);

/** `index finger at fret 5, little finger at fret 9, 96 mm apart`; `frets` are those of the whole grip. */
export function pairNamed(instrument: Instrument, pair: WidestPair, frets: FretList): string {
  const strings = hasPartialCapo(instrument) ? stringsOf(instrument, pair, frets) : [];
  const places = pair.fingers.map(
    (finger, i) => `${fingerName(finger)} at ${fretNamed(instrument, pair.frets[i], strings[i])}`,
  );
  return `${places.join(', ')}, ${pair.millimetres} mm apart`;
}

/** The strings that the two fingers press: those of their frets that lie so far apart. */
function stringsOf(instrument: Instrument, pair: WidestPair, frets: FretList): readonly number[] {
  const at = (fret: number): readonly number[] =>
    frets.flatMap((one, index) => (one === fret ? [stringAtIndex(index, frets.length)] : []));
  const place = (string: number, fret: number): number => millimetresAt(instrument, string, fret);
  for (const lower of at(pair.frets[0])) {
    for (const higher of at(pair.frets[1])) {
      const apart = place(higher, pair.frets[1]) - place(lower, pair.frets[0]);
      if (Math.round(apart * 10) / 10 === pair.millimetres) return [lower, higher];
    }
  }
  return [];
}
