/** Makes of a timeline what a player is told, and of that the samples of a whole rendition. */
import { actionsOf } from './actions.ts';
import { Player, type Rendition, type Start } from './player.ts';
import type { SoundBar, SoundTimeline } from './timeline.ts';

/** `speed` is how many seconds of the timeline pass in one. */
export function renditionOf(timeline: SoundTimeline, speed = 1): Rendition {
  const beats = new Float64Array(timeline.beats.length * 2);
  timeline.beats.forEach(({ at, first }, index) => beats.set([at, first ? 1 : 0], index * 2));
  const { open, seconds } = timeline;
  return { open, actions: actionsOf(timeline, speed), beats, seconds, speed };
}

/** From a bar on, counted in where that is wanted. */
export const startAt = (bar: SoundBar | undefined, isCountedIn: boolean): Start => ({
  at: bar?.at ?? 0,
  countIn: isCountedIn && bar ? bar.countIn : [],
});

export interface Samples {
  /** Valid until the next ones are asked for. */
  readonly left: Float32Array;
  readonly right: Float32Array;
  readonly count: number;
}

const BLOCK = 4096;

/** All samples of a rendition, block by block, until the last string is at rest; at most `most`. `rate` in samples a second. */
export function* samplesOf(
  rendition: Rendition,
  start: Start,
  options: { readonly rate: number; readonly metronome: boolean; readonly most: number },
): Generator<Samples, void, void> {
  const player = new Player(options.rate);
  player.metronome = options.metronome;
  player.load(rendition);
  player.start(start);
  const left = new Float32Array(BLOCK);
  const right = new Float32Array(BLOCK);
  for (let done = 0; player.isPlaying && done < options.most; done += BLOCK) {
    const count = Math.min(BLOCK, options.most - done);
    player.render(left, right, 0, count);
    yield { left, right, count };
  }
}
