/** How the same music may be looked at: what the signs on the strings say, and for which hand diagrams are drawn. */
import type { NoteEvent, SoundingString } from '../realise/score.ts';
import { formatDegree } from '../theory/interval.ts';
import { formatNoteName } from '../theory/note.ts';

/** What stands in the place of each note: its fret, its interval over the chord, its name, or the finger that presses it. */
export const READINGS = ['frets', 'intervals', 'notes', 'fingers'] as const;
export type Reading = (typeof READINGS)[number];

export interface Look {
  readonly reading: Reading;
  /** Diagrams and necks as a player sees them whose right hand presses the strings. */
  readonly leftHanded: boolean;
}

export const PLAIN_LOOK: Look = { reading: 'frets', leftHanded: false };

/** Where there is nothing to say: an interval over no chord, a finger that nobody knows. */
const UNSAID = '·';

/** What a reading says of a note; its frets are written with their signs elsewhere. Names are of what sounds. */
export function saidOf(event: NoteEvent, reading: Exclude<Reading, 'frets'>): string {
  switch (reading) {
    case 'intervals':
      return event.degree ? formatDegree(event.degree, 'R') : UNSAID;
    case 'notes':
      return formatNoteName(event.pitch);
    case 'fingers':
      return event.finger === undefined ? UNSAID : `${event.finger}`;
  }
}

/**
 * The same for a string of a shape, on its sign in a diagram. The place of a sign says its fret, so with `frets` it carries the
 * finger; an open string has none.
 */
export function signOf(sounding: SoundingString | undefined, finger: number, reading: Reading): string {
  if (reading === 'intervals') return sounding ? formatDegree(sounding.degree, 'R') : '';
  if (reading === 'notes') return sounding ? formatNoteName(sounding.pitch) : '';
  return finger > 0 ? `${finger}` : '';
}
