/** The fewest fingers that a shape could do with, were every barre possible: a cheap bound, to look at easy voicings first. */
import type { FretList } from '../fretboard/frets.ts';
import type { Neck } from './neck.ts';

/** Strings at one fret share a finger where nothing between them has to sound lower; higher and silent strings do not matter. */
export function fewestFingers(neck: Neck, frets: FretList): number {
  let fingers = 0;
  for (let index = 0; index < frets.length; index++) {
    const fret = frets[index];
    if (fret === null || fret === 0) continue;
    const onNeck = fret + neck.capo[index];
    if (!isShared(neck, frets, index, onNeck)) fingers++;
  }
  return fingers;
}

/** Whether a finger from an earlier string can lie over this one too. */
function isShared(neck: Neck, frets: FretList, index: number, onNeck: number): boolean {
  for (let before = index - 1; before >= 0; before--) {
    const fret = frets[before];
    if (fret === null) continue;
    const other = fret === 0 ? 0 : fret + neck.capo[before];
    if (other === onNeck) return true;
    if (other < onNeck) return false;
  }
  return false;
}
