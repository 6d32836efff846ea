/** What a timeline asks of the strings, action by action, as bare numbers: sent in one piece, and read without allocating. */
import { powerOfTwo } from '../util/power.ts';
import type { Strike } from './excitation.ts';
import type { Damping } from './loss.ts';
import { STILL, type Movement } from './string.ts';
import type { SoundNote, SoundTimeline, Touch } from './timeline.ts';

/** Numbers an action takes. */
export const ACTION_SIZE = 17;

/** What stands at which place of an action. */
export const ACTION = {
  /** When it is due, in seconds of the timeline, and the moment of the note it belongs to. */
  time: 0,
  at: 1,
  /** See {@link PLUCK}, {@link JOIN} and {@link STOP}. */
  kind: 2,
  string: 3,
  midi: 4,
  force: 5,
  place: 6,
  softness: 7,
  scrape: 8,
  partial: 9,
  damping: 10,
  fretted: 11,
  glideFrom: 12,
  bend: 13,
  /** 0 none, 1 up, 2 up and down, 3 bent before, 4 bent before and let down. */
  bendKind: 14,
  vibrato: 15,
  /** How long the note lasts, or for a slide how long the way is; in seconds of the player's clock. */
  seconds: 16,
} as const;

export const PLUCK = 0;
export const JOIN = 1;
export const STOP = 2;

const DAMPINGS: readonly Damping[] = ['none', 'palm', 'dead', 'stopped'];

/** From the bridge, as a part of the open string: between the bridge and the end of the neck. Set by judgement. */
const USUAL_PLACE = 0.16;

/** How hard, how softly and how roughly each touch sets a string going; softness in seconds. Set by judgement. */
const TOUCHES: Readonly<Record<Touch, { force: number; softness: number; scrape: number; place?: number }>> = {
  pluck: { force: 1, softness: 0.00032, scrape: 0.12 },
  slap: { force: 1.15, softness: 0.00009, scrape: 0.3, place: 0.4 },
  tap: { force: 0.6, softness: 0.0007, scrape: 0.02, place: 0.45 },
  // The fretting hand alone: soft, without a nail, and at the end of what sounds.
  hammer: { force: 0.42, softness: 0.0011, scrape: 0, place: 0.45 },
  pull: { force: 0.46, softness: 0.0008, scrape: 0, place: 0.3 },
  slide: { force: 0, softness: 0.001, scrape: 0, place: 0.3 },
};
/** A string that is damped to a click has no tone to carry it. */
const DEAD_SCRAPE = 0.5;
/** A harder pluck lets go faster: softness times this less the force. */
const SOFTEST = 1.5;

/** A slide takes at most this long, and at most this part of the note that it leaves. In seconds. */
export const LONGEST_SLIDE = 0.14;
const SLIDE_PART = 0.5;

/** Two notes on one string that meet within this have nothing between them to stop. In seconds. */
const MEETS = 0.03;

/**
 * In order of time. `speed` is how many seconds of the timeline pass in one: what a hand does in its own time, as the strings of a
 * stroke in turn, lasts as long at any tempo.
 */
export function actionsOf({ notes, open }: SoundTimeline, speed = 1): Float64Array {
  const due = (note: SoundNote): number => note.at + note.offset * speed;
  const inOrder = [...notes].sort((a, b) => due(a) - due(b) || a.string - b.string);
  const previous = new Map<number, SoundNote>();
  const actions: number[][] = [];
  for (const note of inOrder) {
    const before = previous.get(note.string);
    if (before) end(before, due(note), actions);
    previous.set(note.string, note);
    const going = before && goesOn(before, due(note)) ? due(before) : undefined;
    actions.push(actionFor(note, due(note), open[note.string - 1] ?? note.midi, going, speed));
  }
  for (const last of previous.values()) end(last, Infinity, actions);
  actions.sort((a, b) => a[0] - b[0] || b[2] - a[2] || b[3] - a[3]);
  const flat = new Float64Array(actions.length * ACTION_SIZE);
  actions.forEach((action, index) => flat.set(action, index * ACTION_SIZE));
  return flat;
}

/** Whether it still sounds when the next note of its string comes. */
const goesOn = ({ until, rings }: SoundNote, next: number): boolean => rings || until > next - MEETS;

function end({ until, rings, string, at }: SoundNote, next: number, actions: number[][]): void {
  if (rings || until > next - MEETS || until <= at) return;
  const action = Array.from({ length: ACTION_SIZE }, () => 0);
  action[ACTION.time] = until;
  action[ACTION.at] = at;
  action[ACTION.kind] = STOP;
  action[ACTION.string] = string;
  actions.push(action);
}

/** `before`: when the note that a slide goes on with began. */
function actionFor(note: SoundNote, due: number, open: number, before: number | undefined, speed: number): number[] {
  const { touch, damping } = note;
  const usual = TOUCHES[touch];
  const isSlide = touch === 'slide' && before !== undefined && note.from !== undefined;
  const way = isSlide ? Math.min(LONGEST_SLIDE, ((due - before) / speed) * SLIDE_PART) : 0;
  // Where the hand plucks stays where it is while the string grows shorter.
  const place = Math.min(0.5, USUAL_PLACE * powerOfTwo((note.midi - open) / 12));
  const action = Array.from({ length: ACTION_SIZE }, () => 0);
  action[ACTION.time] = due - way * speed;
  action[ACTION.at] = note.at;
  action[ACTION.kind] = touch === 'pluck' || touch === 'slap' || (touch === 'slide' && !isSlide) ? PLUCK : JOIN;
  action[ACTION.string] = note.string;
  action[ACTION.midi] = note.midi;
  action[ACTION.force] = note.force * (touch === 'slide' && !isSlide ? TOUCHES.pluck.force : usual.force);
  action[ACTION.place] = usual.place ?? place;
  action[ACTION.softness] = usual.softness * (SOFTEST - 0.5 * note.force);
  action[ACTION.scrape] = damping === 'dead' ? DEAD_SCRAPE : usual.scrape;
  action[ACTION.partial] = note.partial;
  action[ACTION.damping] = DAMPINGS.indexOf(damping);
  action[ACTION.fretted] = note.fretted ? 1 : 0;
  action[ACTION.glideFrom] = isSlide ? note.from! - note.midi : 0;
  action[ACTION.bend] = note.bend?.semitones ?? 0;
  action[ACTION.bendKind] = note.bend ? (note.bend.before ? 3 : 1) + (note.bend.release ? 1 : 0) : 0;
  action[ACTION.vibrato] = note.vibrato ? 1 : 0;
  action[ACTION.seconds] = isSlide ? way : (note.until - note.at) / speed;
  return action;
}

type Open<T> = { -readonly [Part in keyof T]: T[Part] };

/** Room for what one string is told next, so that nothing is made while it sounds. */
export interface Told {
  readonly strike: Open<Strike>;
  readonly movement: Open<Movement>;
}

export const newTold = (): Told => ({
  strike: { force: 0, place: 0.5, softness: 0, scrape: 0, partial: 1, seed: 0 },
  movement: { ...STILL },
});

/** A bend comes up over this part of its note, or in this time where the note is long; likewise down. In seconds. */
const BEND_PART = 0.3;
const LONGEST_BEND = 0.22;
/** When it is let down, as a part of the note. */
const RELEASED_AT = 0.5;

/** Reads the action whose numbers begin at `index`. A seed is its place in time, so that each pluck scrapes as it did before. */
export function readAction(actions: Float64Array, index: number, { strike, movement }: Told): void {
  strike.force = actions[index + ACTION.force];
  strike.place = actions[index + ACTION.place];
  strike.softness = actions[index + ACTION.softness];
  strike.scrape = actions[index + ACTION.scrape];
  strike.partial = actions[index + ACTION.partial];
  strike.seed = Math.round(actions[index + ACTION.at] * 1000) * 8 + actions[index + ACTION.string];
  const seconds = actions[index + ACTION.seconds];
  const kind = actions[index + ACTION.bendKind];
  const way = Math.min(LONGEST_BEND, seconds * BEND_PART);
  movement.glideFrom = actions[index + ACTION.glideFrom];
  movement.glideSeconds = movement.glideFrom === 0 ? 0 : seconds;
  movement.bend = actions[index + ACTION.bend];
  movement.bendAt = kind >= 3 ? 0 : way / 4;
  movement.bendSeconds = kind >= 3 ? 0 : way;
  movement.releaseAt = kind === 2 || kind === 4 ? seconds * RELEASED_AT : Infinity;
  movement.releaseSeconds = way;
  movement.vibrato = actions[index + ACTION.vibrato] === 1;
}

export const dampingAt = (actions: Float64Array, index: number): Damping =>
  DAMPINGS[actions[index + ACTION.damping]] ?? 'none';
