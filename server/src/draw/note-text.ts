/** How a note is written on its string: its fret and the signs around it, and the room that they take. */
import type { NoteEvent } from '../realise/score.ts';
import type { Bend } from '../lesson/written.ts';
import { saidOf, type Reading } from './look.ts';
import { STAFF, TYPE } from './metrics.ts';
import { textWidth } from './text-width.ts';

/** `7`, `×`, `(5)`, `‹12›`, `2‹14›`. */
export function eventText(event: NoteEvent): string {
  const { technique } = event;
  if (event.stroke === 'mute' || technique?.dead) return technique?.ghost ? '(×)' : '×';
  const { harmonic } = technique ?? {};
  const fret = harmonic === undefined ? `${event.fret}` : `${event.fret > 0 ? event.fret : ''}‹${harmonic}›`;
  return technique?.ghost ? `(${fret})` : fret;
}

/** Half the width that a note takes on its string, with its ring. */
export function halfNumber(event: NoteEvent): number {
  let width = STAFF.numberAir + (event.voice === 'melody' ? STAFF.ring : 0);
  for (const sign of eventText(event)) width += '()‹›'.includes(sign) ? STAFF.bracket : STAFF.letter;
  return width / 2;
}

/** A note as a reading shows it. */
export interface ShownNote {
  readonly text: string;
  /** The height of its type, and the word for it among the styles, empty for the usual. */
  readonly size: number;
  readonly smaller: string;
  /** Half the room that it takes on its string, with its ring. */
  readonly half: number;
}

/** From the usual size of type down, the words for them among the styles. */
const SIZES: readonly (readonly [number, string])[] = [
  [TYPE.fret, ''],
  [TYPE.fretSmaller, 'smaller'],
  [TYPE.fretSmallest, 'smallest'],
];
/** What a name keeps free of the room between two notes, and what it leaves of its ring. */
const NAME_AIR = 2;
const RING_AIR = 4;

/** Notes keep their places in every reading: what is longer than its fret is written smaller where it must be. */
export function shownNote(event: NoteEvent, reading: Reading): ShownNote {
  const plain = event.stroke === 'mute' || event.technique?.dead === true;
  if (reading === 'frets' || plain) {
    return { text: eventText(event), size: TYPE.fret, smaller: '', half: halfNumber(event) };
  }
  const said = saidOf(event, reading);
  const text = event.technique?.ghost ? `(${said})` : said;
  const melody = event.voice === 'melody';
  const room = 2 * Math.max(STAFF.letter, halfNumber(event)) + STAFF.between - NAME_AIR - (melody ? RING_AIR : 0);
  const fits = SIZES.find(([size]) => textWidth(text, size, melody) <= room);
  const [size, smaller] = fits ?? SIZES[SIZES.length - 1];
  const half = (textWidth(text, size, melody) + STAFF.nameAir + (melody ? STAFF.ring : 0)) / 2;
  return { text, size, smaller, half };
}

/** The same for a grace note, which is smaller. */
export const halfGrace = (event: NoteEvent): number => (eventText(event).length * STAFF.smallLetter + 3) / 2;

/** How far a bend goes, as players say it: `½`, `full`, `1½`, `2`. */
export function bendAmount({ quarters }: Bend): string {
  if (quarters === 4) return 'full';
  const whole = Math.floor(quarters / 4);
  return `${whole > 0 ? whole : ''}${['', '¼', '½', '¾'][quarters % 4]}`;
}
