/** A finger list read back as what each finger holds. */
import type { Grip } from './grip.ts';
import { FINGERS, INDEX } from './model.ts';
import type { Held, Run } from './search.ts';

/** `fingers` must belong to the grip: each finger of it on one fret only, none where nothing is pressed. */
export function heldOf(grip: Grip, fingers: readonly (number | null)[]): Held {
  const held: (Run | undefined)[] = [undefined, undefined, undefined, undefined, undefined];
  for (let finger = INDEX; finger <= FINGERS; finger++) {
    const first = fingers.indexOf(finger);
    if (first < 0) continue;
    const level = grip.levels.find((each) => each.fret === grip.pressed[first]);
    if (level) held[finger] = { level, first, last: fingers.lastIndexOf(finger) };
  }
  return held;
}
