/** Where the frets lie on a string of length 1, as literals, since a computed power may differ in its last digit between machines. */

/** The highest fret that any neck is counted to: three octaves, beyond every fretted instrument in use. */
export const HIGHEST_FRET = 36;

/** The sounding part of a string stopped at fret n, 2^(-n/12), for n from 0 to 36: equal temperament, each value the nearest double. */
// oxfmt-ignore
const SOUNDING_PART: readonly number[] = [
  1.0, 0.9438743126816935, 0.8908987181403393, 0.8408964152537145, 0.7937005259840998, 0.7491535384383408,
  0.7071067811865476, 0.6674199270850172, 0.6299605249474366, 0.5946035575013605, 0.5612310241546865, 0.5297315471796477,
  0.5, 0.47193715634084676, 0.44544935907016964, 0.42044820762685725, 0.3968502629920499, 0.3745767692191704,
  0.3535533905932738, 0.3337099635425086, 0.3149802624737183, 0.29730177875068026, 0.28061551207734325, 0.2648657735898238,
  0.25, 0.23596857817042338, 0.22272467953508482, 0.21022410381342863, 0.19842513149602495, 0.1872883846095852,
  0.1767766952966369, 0.1668549817712543, 0.15749013123685915, 0.14865088937534013, 0.14030775603867163, 0.1324328867949119,
  0.125,
];

/** How far behind its wire a fingertip lies, as a part of the fret's width. Set by judgement; moving it changes distances by 1.5 %. */
const BEHIND_THE_WIRE = 0.25;

/** The nearest fret that the table knows: whatever is asked, a number comes back. */
const onTheTable = (fret: number): number => Math.max(0, Math.min(HIGHEST_FRET, Math.trunc(fret) || 0));

/** Where the wire of `fret` lies, as a part of the scale length counted from the nut: 0 at the nut, a half at fret 12. */
export const wirePart = (fret: number): number => 1 - SOUNDING_PART[onTheTable(fret)];

/** Where a fingertip that stops `fret` lies, as a part of the scale length counted from the nut; for fret 0 the nut itself. */
export function fingertipPart(fret: number): number {
  const at = onTheTable(fret);
  if (at === 0) return 0;
  return wirePart(at) - BEHIND_THE_WIRE * (wirePart(at) - wirePart(at - 1));
}
