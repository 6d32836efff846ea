/** Lets bars that are played as before be the same objects as before, so that whoever draws or hears them need not again. */
import type { RealiseCache } from './cache.ts';
import type { BarScore, ChordScore, Voicing } from './score.ts';

/** Voicings are long to write down and live as long as their chord's voicing set: a number says which is meant. */
const numbers = new WeakMap<Voicing, number>();
let next = 0;

export function keptBar(bar: BarScore, cache: RealiseCache): BarScore {
  const { chords, ...rest } = bar;
  return cache.bars.get(JSON.stringify([chords.map(chordKey), rest]), () => bar);
}

/** All but `choices`, which is dear to ask for and follows from the rest. */
function chordKey(chord: ChordScore): unknown[] {
  const { written, silent, start, length, held, searchCut, none, contour, change } = chord;
  return [
    written,
    chord.chord?.symbol,
    silent,
    start,
    length,
    held,
    searchCut,
    none,
    contour,
    change,
    numberOf(chord.voicing),
  ];
}

function numberOf(voicing: Voicing | undefined): number {
  if (!voicing) return 0;
  let number = numbers.get(voicing);
  if (number === undefined) numbers.set(voicing, (number = ++next));
  return number;
}
