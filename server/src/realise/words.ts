/** The words of a section on the notes that they are sung to. */
import type { BarPlan } from '../lesson/lesson.ts';
import { sungNotes } from '../lesson/words.ts';
import type { Syllable } from '../lesson/written.ts';
import { equal, type Fraction } from '../util/fraction.ts';
import type { Draft } from './ringing.ts';

/**
 * Gives the notes of one bar, in order of time, their syllables. Where no melody is played, what the right hand does carries them:
 * syllables that are fewer than its strokes are spread evenly over them, and of more than its strokes several share one, so that an
 * easier strum does not cut the verse short.
 */
export function setWords({ words, melody, tab }: BarPlan, events: readonly Draft[]): void {
  if (!words || words.length === 0) return;
  const written = melody ?? tab;
  if (written) {
    const notes = sungNotes(written, melody ? 'melody' : 'tab').map((index) => written.notes[index]);
    notes.forEach(({ start, string }, index) => {
      const event = events.find((one) => one.string === string && equal(one.start, start) && !one.technique?.grace);
      if (event && words[index]) event.syllable = words[index];
    });
    return;
  }
  const melodic = events.filter(({ voice }) => voice === 'melody');
  const carriers = melodic.length > 0 ? melodic : firstAtEach(events);
  const spread = melodic.length > 0 ? 1 : carriers.length / words.length;
  words.forEach((syllable, index) => {
    const event = carriers[Math.floor(index * spread)];
    if (event) event.syllable = event.syllable ? sungTogether(event.syllable, syllable) : syllable;
  });
}

/** Two syllables on one stroke: what is joined is written as one word, `win-` and `dow` as `window`. */
function sungTogether(one: Syllable, other: Syllable): Syllable {
  if (other.text === '') return one;
  return { text: `${one.text}${one.joined ? '' : ' '}${other.text}`, joined: other.joined };
}

/** Of several strings at one instant the first. */
function firstAtEach(events: readonly Draft[]): readonly Draft[] {
  let before: Fraction | undefined;
  return events.filter(({ start }) => {
    const isNew = !before || !equal(before, start);
    before = start;
    return isNew;
  });
}
