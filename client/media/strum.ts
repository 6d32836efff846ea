/** What is heard of a voicing that is chosen: its strings from the lowest to the highest, left ringing. */
import type { SoundTimeline } from '../../server/src/sound/timeline.ts';

/** From string to string, in seconds. Set by judgement: slow enough to hear each. */
const STEP_SECONDS = 0.055;
const RINGS_SECONDS = 3;
const FORCE = 0.7;

/** `open`: the MIDI numbers of the open strings, string 1 first. `strings`: player's number and MIDI number of each that sounds. */
export function strumOf(open: readonly number[], strings: readonly (readonly [number, number])[]): SoundTimeline {
  const inTurn = [...strings].sort(([one], [other]) => other - one);
  const place = { section: 0, bar: 0, chord: 0, event: -1, start: 0, end: 0 };
  const notes = inTurn.map(([string, midi], turn) => ({
    at: 0,
    offset: turn * STEP_SECONDS,
    until: RINGS_SECONDS,
    rings: true,
    string,
    midi,
    partial: 1,
    force: FORCE,
    touch: 'pluck' as const,
    damping: 'none' as const,
    fretted: midi !== open[string - 1],
    vibrato: false,
    place,
  }));
  return { open, seconds: RINGS_SECONDS, notes, beats: [], bars: [] };
}

/** `64 59 55 50 45 40` and `5:48 4:52`, as the page has them. */
export function strumFrom(open: string, sounds: string): SoundTimeline {
  const strings = sounds.split(' ').flatMap((word): readonly (readonly [number, number])[] => {
    const [string, midi] = word.split(':').map(Number);
    return Number.isFinite(string) && Number.isFinite(midi) ? [[string, midi]] : [];
  });
  return strumOf(open.split(' ').map(Number), strings);
}
