/** Tells what sounds at a moment of a timeline: for marking notes, bars and words while they are heard. */
import type { SoundBar, SoundNote, SoundTimeline } from '../../server/src/sound/timeline.ts';

export class SoundingNow {
  private readonly byString: readonly (readonly SoundNote[])[];

  constructor(private readonly timeline: SoundTimeline) {
    const strings = new Map<number, SoundNote[]>();
    for (const note of timeline.notes) {
      const own = strings.get(note.string);
      if (own) own.push(note);
      else strings.set(note.string, [note]);
    }
    this.byString = [...strings].sort(([one], [other]) => one - other).map(([, notes]) => notes);
  }

  /** At most one note a string, string 1 first. A note that is taken over at its own start, as a grace note is, is not told. */
  notesAt(seconds: number): readonly SoundNote[] {
    return this.byString.flatMap((notes) => {
      const note = notes[lastUntil(notes, seconds)];
      const sounds = note !== undefined && (note.rings || seconds < note.until);
      return sounds ? note : [];
    });
  }

  /** Index of the bar as it is played; −1 before the first, and the last one for what comes after it. */
  barAt(seconds: number): number {
    return lastUntil(this.timeline.bars, seconds);
  }

  bar(index: number): SoundBar | undefined {
    return this.timeline.bars[index];
  }
}

/** Index of the last that begins by then; −1 where none does. */
function lastUntil(sorted: readonly { readonly at: number }[], seconds: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (sorted[middle].at <= seconds) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}
