/** What is to be heard, in time: plain data that can be sent from whoever worked it out to whoever plays it. */
import type { Damping } from './loss.ts';

/** How a note begins; `hammer`, `pull` and `slide` go on with what sounds on the string. */
export type Touch = 'pluck' | 'slap' | 'tap' | 'hammer' | 'pull' | 'slide';

export interface SoundBend {
  /** How far the pitch rises, in semitones. */
  readonly semitones: number;
  /** The string is bent before it is plucked. */
  readonly before: boolean;
  /** Let down again while it sounds. */
  readonly release: boolean;
}

/** Where a sounding note stands in the lesson. */
export interface SoundPlace {
  /** Index in the lesson's sections. */
  readonly section: number;
  /** Index in the section's bars as written. */
  readonly bar: number;
  /** Index in the bar's chords. */
  readonly chord: number;
  /** Index in the bar's events; −1 for what the bar before strikes early, where that bar is not played. */
  readonly event: number;
  /** Where it is written, in UTF-16 units of the text: the note itself, or the chord that it sounds. */
  readonly start: number;
  readonly end: number;
}

export interface SoundNote {
  /** When it begins, in seconds from the start, at the tempo of the timeline. */
  readonly at: number;
  /** How much later it begins whatever the tempo, in seconds: a string's turn in a stroke; below 0 for a grace note. */
  readonly offset: number;
  /** Until when it sounds, in seconds from the start. */
  readonly until: number;
  /** Nobody ends it: it sounds until its string is taken or it has died away. */
  readonly rings: boolean;
  /** Player's number, 1 the highest. */
  readonly string: number;
  /** The pitch of the string as it is pressed; a harmonic sounds above it. */
  readonly midi: number;
  /** 1; or which partial a harmonic is: 2 for the octave. */
  readonly partial: number;
  /** 0 to 1. */
  readonly force: number;
  readonly touch: Touch;
  readonly damping: Damping;
  readonly fretted: boolean;
  /** Where a slide comes from, as a MIDI number. */
  readonly from?: number;
  readonly bend?: SoundBend;
  readonly vibrato: boolean;
  readonly place: SoundPlace;
}

export interface SoundBeat {
  /** In seconds from the start; below 0 for what is counted before it. */
  readonly at: number;
  /** The first of its bar. */
  readonly first: boolean;
}

/** A bar as it is played: one written bar comes as often as it is repeated. */
export interface SoundBar {
  /** In seconds from the start. */
  readonly at: number;
  readonly seconds: number;
  /** Index in the lesson's sections, and in the section's bars as written. */
  readonly section: number;
  readonly bar: number;
  /** As counted in the section, from 1; 0 for a pick-up. */
  readonly number: number;
  /** The beats that may be counted before it: one bar of them or more. */
  readonly countIn: readonly SoundBeat[];
  /** Where it is written, in UTF-16 units of the text. */
  readonly start: number;
  readonly end: number;
}

export interface SoundTimeline {
  /** What each open string sounds without a capo, as a MIDI number, string 1 first. */
  readonly open: readonly number[];
  /** How long the bars last, in seconds; the last notes may ring on. */
  readonly seconds: number;
  /** By start. */
  readonly notes: readonly SoundNote[];
  readonly beats: readonly SoundBeat[];
  readonly bars: readonly SoundBar[];
}
