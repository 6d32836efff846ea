/** How a note is written on its string: its fret and the signs around it, and the room that they take. */
import type { NoteEvent } from '../realise/score.ts';
import type { Bend } from '../lesson/written.ts';
import { STAFF } from './metrics.ts';

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

/** The same for a grace note, which is smaller. */
export const halfGrace = (event: NoteEvent): number => (eventText(event).length * STAFF.smallLetter + 3) / 2;

/** How far a bend goes, as players say it: `½`, `full`, `1½`, `2`. */
export function bendAmount({ quarters }: Bend): string {
  if (quarters === 4) return 'full';
  const whole = Math.floor(quarters / 4);
  return `${whole > 0 ? whole : ''}${['', '¼', '½', '¾'][quarters % 4]}`;
}
