/** Samples of single notes and chords for the tests of the synthesis. */
import { PlayedInstrument } from '../../server/src/sound/instrument.ts';
import type { Strike } from '../../server/src/sound/excitation.ts';
import { renditionOf, samplesOf } from '../../server/src/sound/rendition.ts';
import { STILL } from '../../server/src/sound/string.ts';
import type { SoundNote, SoundTimeline } from '../../server/src/sound/timeline.ts';

/** MIDI numbers of the open strings, string 1 first, as every teacher of the instrument names them: E4 B3 G3 D3 A2 E2 and so on. */
export const GUITAR = [64, 59, 55, 50, 45, 40];
export const BASS = [43, 38, 33, 28];
export const UKULELE = [69, 64, 60, 67];

export const RATE = 44_100;

export const STRIKE: Strike = { force: 0.8, place: 0.16, softness: 0.00032, scrape: 0.12, partial: 1, seed: 7 };

/** The left channel of one open string, plucked at once. */
export function oneNote(midi: number, seconds: number, strike: Partial<Strike> = {}, rate = RATE): Float32Array {
  const instrument = new PlayedInstrument([midi], rate);
  instrument.string(1)!.pluck({ ...STRIKE, ...strike }, midi, 'none', false, STILL);
  const left = new Float32Array(Math.round(seconds * rate));
  instrument.render(left, new Float32Array(left.length), 0, left.length);
  return left;
}

export const note = (more: Partial<SoundNote> & Pick<SoundNote, 'at' | 'string' | 'midi'>): SoundNote => ({
  offset: 0,
  until: more.at + 1,
  rings: false,
  partial: 1,
  force: 0.8,
  touch: 'pluck',
  damping: 'none',
  fretted: true,
  vibrato: false,
  place: { section: 0, bar: 0, chord: 0, event: 0, start: 0, end: 0 },
  ...more,
});

export const timeline = (
  notes: readonly SoundNote[],
  seconds: number,
  more: Partial<SoundTimeline> = {},
): SoundTimeline => ({
  open: GUITAR,
  seconds,
  notes,
  beats: [],
  bars: [],
  ...more,
});

export interface Heard {
  readonly left: Float32Array;
  readonly right: Float32Array;
}

/** All samples of both channels, until the last string is at rest. */
export function heard(played: SoundTimeline, speed = 1): Heard {
  const blocks: Heard[] = [];
  for (const { left, right, count } of samplesOf(
    renditionOf(played, speed),
    { at: 0, countIn: [] },
    {
      rate: RATE,
      metronome: false,
      most: 60 * RATE,
    },
  )) {
    blocks.push({ left: left.slice(0, count), right: right.slice(0, count) });
  }
  return { left: joined(blocks.map(({ left }) => left)), right: joined(blocks.map(({ right }) => right)) };
}

function joined(blocks: readonly Float32Array[]): Float32Array {
  const all = new Float32Array(blocks.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const block of blocks) {
    all.set(block, at);
    at += block.length;
  }
  return all;
}

export const loudest = (samples: Float32Array, from = 0, to = samples.length): number => {
  let most = 0;
  for (let index = from; index < to; index++) most = Math.max(most, Math.abs(samples[index]));
  return most;
};

/** The largest step from one sample to the next. */
export const steepest = (samples: Float32Array, from = 1, to = samples.length): number => {
  let most = 0;
  for (let index = Math.max(1, from); index < to; index++) {
    most = Math.max(most, Math.abs(samples[index] - samples[index - 1]));
  }
  return most;
};
