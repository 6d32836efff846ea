/** What the page and the thread that makes the sound say to each other. */
import type { Loop, Rendition, Start } from '../../server/src/sound/player.ts';

export type ToSound =
  /** Takes the place of what was loaded before; while that plays, it goes on from the same second of the timeline. */
  | { readonly kind: 'load'; readonly rendition: Rendition }
  /** Begins there, after what sounds has faded. `run` comes back with each word about it. */
  | { readonly kind: 'start'; readonly run: number; readonly start: Start }
  /** Fades and ends. */
  | { readonly kind: 'stop' }
  /** Round and round from now on, or on to the end. */
  | { readonly kind: 'loop'; readonly loop: Loop | undefined }
  | { readonly kind: 'metronome'; readonly isHeard: boolean };

export type FromSound =
  /** Where it is, in seconds of the timeline; below the start while it is counted in. Some forty times a second. */
  | { readonly kind: 'position'; readonly run: number; readonly seconds: number }
  /** All is silent: at the end, or because it was stopped. */
  | { readonly kind: 'ended'; readonly run: number };

/** The name that the processor is known by in its thread. */
export const PROCESSOR = 'stringcourse-strings';
