/** What sounds at the chord that a claim about one bar names: string by string, from its shape or from the tab in its place. */
import type { BarClaim } from '../../lesson/claims.ts';
import type { Tone } from '../../lesson/lesson.ts';
import { degreeOver, toneOf, type Chord } from '../../theory/chord.ts';
import { degreeSemitones, formatDegree } from '../../theory/interval.ts';
import { nameVoicing } from '../../theory/name-voicing.ts';
import { formatNoteName, midi, semitone, type Pitch } from '../../theory/note.ts';
import type { Judgement } from './judgement.ts';
import {
  barNamed,
  barsOn,
  chordNamed,
  chordsOf,
  isPitched,
  placeNamed,
  untrue,
  type PlayedBar,
  type PlayedChord,
  type Stage,
} from './stage.ts';

/** One sounding string; pitches are named as the symbols name them, seen from a capo. */
export interface SoundingNote {
  readonly string: number;
  readonly fret: number;
  readonly pitch: Pitch;
}

export interface Sounding extends PlayedChord {
  readonly chord: Chord;
  /** The lowest first; of equal ones the one on the lower string. */
  readonly notes: readonly SoundingNote[];
}

/** The chord that a claim names, as it sounds, or why nothing can be said of it. */
export function soundingAt(stage: Stage, { bar, chord }: BarClaim): Sounding | Judgement {
  const there = barsOn(stage).find((one) => one.bar.number === bar);
  if (!there) return { undecided: `there is no bar ${bar}` };
  const place = chordsOf(there)[chord - 1];
  if (!place || !(place.plan.chord || place.plan.silent))
    return { undecided: `the chord of ${barNamed(stage, there)} cannot be read` };
  return soundingOf(place) ?? withoutSound(stage, place);
}

export const isJudged = (found: Sounding | Judgement): found is Judgement => !('notes' in found);

function withoutSound(stage: Stage, place: PlayedChord): Judgement {
  const where = placeNamed(stage, place);
  if (place.plan.silent) return untrue([place], { truth: `${where} has no chord` });
  return { undecided: `${chordNamed(stage, place)} has no voicing` };
}

/** Undefined where nothing sounds. */
export function soundingOf(place: PlayedChord): Sounding | undefined {
  const { chord, silent } = place.plan;
  const notes = silent ? [] : notesOf(place);
  return chord && notes.length > 0 ? { ...place, chord, notes } : undefined;
}

/** Every chord of the bars that sounds. */
export const soundingIn = (bars: readonly PlayedBar[]): readonly Sounding[] =>
  bars.flatMap((bar) => chordsOf(bar).flatMap((chord) => soundingOf(chord) ?? []));

function notesOf({ bar, played, score, at }: PlayedChord): readonly SoundingNote[] {
  const found = bar.tab
    ? played.events.filter((event) => event.voice === 'written' && event.chord === at && isPitched(event))
    : (score.voicing?.strings ?? []);
  const seen = new Set<string>();
  return found
    .map(({ string, fret, shapePitch }): SoundingNote => ({ string, fret, pitch: shapePitch }))
    .filter(({ string, pitch }) => {
      const mark = `${string} ${midi(pitch)}`;
      return !seen.has(mark) && seen.add(mark);
    })
    .sort((a, b) => midi(a.pitch) - midi(b.pitch) || b.string - a.string);
}

/** Names for what sounds, the strictest first, as seen from the capo. */
export function namesOf({ notes, score, bar, chord }: Sounding, { lesson }: Stage, section: number): readonly string[] {
  if (!bar.tab && score.voicing) return score.voicing.shapeNames;
  const { reentrant } = lesson.settings.instrument.tuning;
  const { key } = lesson.sections[section].plan;
  const sounds = notes.map(({ pitch }) => midi(pitch));
  return nameVoicing(sounds, { intended: chord, key, reentrant }).map(({ name }) => name);
}

/** `F# G D A`, from the lowest string sounding. */
export const notesNamed = ({ notes }: Sounding): string => notes.map(({ pitch }) => formatNoteName(pitch)).join(' ');

const keyAt = ({ lesson }: Stage, { section }: PlayedBar): Stage['lesson']['settings']['key'] =>
  lesson.sections[section].plan.key;

/** The degree of a note over the chord, as it would be claimed: `R`, `b3`, `11`. */
export const degreeNamed = (stage: Stage, place: PlayedBar, chord: Chord, pitch: Pitch): string =>
  formatDegree(degreeOver(chord, semitone(pitch), keyAt(stage, place)).degree, 'R');

/**
 * Whether a note is the tone that is claimed. A tone that the chord itself does not name comes from the key; it may also be the
 * natural one, as which it is shown where the key has another: no claim could name that otherwise.
 */
export function isTone(stage: Stage, place: PlayedBar, chord: Chord, tone: Tone, pitch: Pitch): boolean {
  const { degree, absolute } = tone;
  const meant = toneOf(chord, degree, absolute, keyAt(stage, place));
  if (meant && semitone(meant) === semitone(pitch)) return true;
  if (absolute || isOwn(chord, degree.number)) return false;
  return degreeSemitones(degree) === (semitone(pitch) - semitone(chord.root) + 12) % 12;
}

function isOwn({ tones }: Chord, number: number): boolean {
  const place = (number - 1) % 7;
  if (number === 1 || tones.some(({ degree }) => (degree.number - 1) % 7 === place)) return true;
  return number === 3 && tones.some(({ degree }) => degree.number === 2 || degree.number === 4);
}
