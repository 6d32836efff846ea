/** The shape rules that need no statement: open chords, barre chords and power chords, for any number of strings. */
import { MOST_STRINGS } from '../fretboard/tuning.ts';
import type { ShapeRule, Tone } from './lesson.ts';

/** From the lowest to the highest; those that an instrument lacks are left out. */
const ALL_STRINGS: readonly number[] = Array.from({ length: MOST_STRINGS }, (_, index) => MOST_STRINGS - index);

const ROOT: Tone = { degree: { number: 1, accidental: 0 }, absolute: false, text: 'R' };
const FIFTH: Tone = { degree: { number: 5, accidental: 0 }, absolute: false, text: '5' };

const forAll = { strings: ALL_STRINGS, open: [], avoid: [], barre: true, sparse: true } as const;

export const builtInShapes: readonly ShapeRule[] = [
  // The first position: open strings and the first four frets; the fifth only where nothing else will do, as in tunings with a low bass.
  { name: 'open-chords', ...forAll, lowestFret: 0, highestFret: 5 },
  // Full shapes that move along the neck under the index; none goes so high that the body is in the way.
  { name: 'barre-chords', ...forAll, lowestFret: 1, highestFret: 14, mostSilent: 1, bassAtLowestFret: true },
  // Root and fifth, and the root above them where a string is left.
  { name: 'power-chords', ...forAll, lowestFret: 0, highestFret: 14, sequence: [ROOT, FIFTH, ROOT] },
];
