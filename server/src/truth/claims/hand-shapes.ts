/** Figures of a held shape that several claims speak of. */
import type { Voicing } from '../../realise/score.ts';

/** The lowest and the highest fret pressed; undefined where nothing is. */
export function pressedIn({ frets }: Voicing): { readonly lowest: number; readonly highest: number } | undefined {
  const pressed = frets.filter((fret): fret is number => fret !== null && fret > 0);
  return pressed.length === 0 ? undefined : { lowest: Math.min(...pressed), highest: Math.max(...pressed) };
}

/** Highest fret pressed less the lowest. */
export function reachOf(voicing: Voicing): number {
  const pressed = pressedIn(voicing);
  return pressed ? pressed.highest - pressed.lowest : 0;
}
