/** How long each string goes on sounding: until it is plucked again, stopped, or taken by a shape that does not leave it alone. */
import { compare, minus, ZERO, type Fraction } from '../util/fraction.ts';
import type { ChordPlace } from './timeline.ts';
import type { NoteEvent, Voicing } from './score.ts';

/** An event whose ringing is still to be found. */
export type Draft = { -readonly [Part in keyof NoteEvent]: NoteEvent[Part] };

/** An event on the section's line of time. */
export interface PlacedEvent {
  /** In whole notes from the start of the section. */
  readonly at: Fraction;
  /** Index of the bar that it lies in. */
  readonly bar: number;
  /** Index of the chord that it sounds, in the timeline. */
  readonly place: number;
  readonly event: Draft;
  /** Where it is silenced by itself: a melody's note before a rest. */
  readonly stop: Fraction | undefined;
}

export interface Surroundings {
  readonly chords: readonly ChordPlace[];
  /** Parallel to `chords`. */
  readonly voicings: readonly (Voicing | undefined)[];
  /** Instants at which the right hand silences everything, in order of time. */
  readonly silences: readonly Fraction[];
  /** Indexes of the bars that a tab writes out: their chords are names, and no shape takes a string. */
  readonly writtenOut: ReadonlySet<number>;
  readonly end: Fraction;
}

/** Parallel to `events`, which must be in order of time. */
export function ringingOf(events: readonly PlacedEvent[], around: Surroundings): readonly Fraction[] {
  const nextOnString = new Map<number, Fraction>();
  const ringing: Fraction[] = events.map(() => ZERO);
  let silence = around.silences.length;
  for (let index = events.length - 1; index >= 0; index--) {
    const placed = events[index];
    const { event, at } = placed;
    while (silence > 0 && compare(around.silences[silence - 1], at) > 0) silence--;
    let end = nextOnString.get(event.string) ?? around.end;
    const first = around.silences[silence];
    if (first && event.voice !== 'melody' && event.voice !== 'written') end = earlier(end, first);
    if (placed.stop) end = earlier(end, placed.stop);
    if (event.stroke === 'mute') end = at;
    ringing[index] = minus(untilTaken(placed, end, around), at);
    if (!(nextOnString.has(event.string) && compare(nextOnString.get(event.string)!, at) === 0)) {
      nextOnString.set(event.string, at);
    }
  }
  return ringing;
}

const earlier = (one: Fraction, other: Fraction): Fraction => (compare(one, other) <= 0 ? one : other);

/** Over a change of chord a string rings on only if the next shape has it at that fret, open strings being at fret 0. */
function untilTaken(
  { place, event }: PlacedEvent,
  end: Fraction,
  { chords, voicings, writtenOut }: Surroundings,
): Fraction {
  for (let next = place + 1; next < chords.length; next++) {
    const { sounds, bar } = chords[next];
    if (writtenOut.has(bar)) continue;
    if (compare(sounds, end) >= 0) return end;
    const there = voicings[next]?.strings.find(({ string }) => string === event.string);
    if (there?.fret !== event.fret) return sounds;
  }
  return end;
}
