/** A chord's shape as plain text, fingers on the frets: for hovers and terminals. */
import type { Instrument } from '../fretboard/instrument.ts';
import { stringCount } from '../fretboard/instrument.ts';
import type { FretList } from '../fretboard/frets.ts';
import { drawnFrets, windowOf } from './diagram.ts';

/**
 * Strings from the lowest at the left to the highest at the right, frets downwards. Above: `x` silent, `o` open. On a fret the
 * finger that holds it, `●` where no finger is known. Beside the first row its fret, where that is not the first.
 */
export function textDiagram(
  frets: FretList,
  fingers: readonly (number | null)[] | undefined,
  instrument: Instrument,
): string {
  const drawn = drawnFrets(frets, instrument);
  const window = windowOf(drawn);
  const count = Math.max(drawn.length, stringCount(instrument));
  const above = drawn.map((fret) => (fret === null ? 'x' : fret === 0 ? 'o' : ' ')).join(' ');
  const nut = window.from === 1 ? '═' : '─';
  const lines = [above, Array.from({ length: count }, () => nut).join(nut)];
  for (let fret = window.from; fret < window.from + window.frets; fret++) {
    const row = drawn.map((each, index) => (each === fret ? (fingers?.[index] ? `${fingers[index]}` : '●') : '│'));
    lines.push(row.join(' ') + (fret === window.from && fret > 1 ? `  fret ${fret}` : ''));
  }
  return lines.map((line) => line.trimEnd()).join('\n');
}
