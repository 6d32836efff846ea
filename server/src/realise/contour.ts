/** A melody told as movement, worked out over one chord: which tone it starts on, at which fret, and where its steps lead on the string. */
import type { Chord } from '../theory/chord.ts';
import { toneOf } from '../theory/chord.ts';
import { scaleStep, type Key } from '../theory/key.ts';
import { midi, pitchFromMidi, semitone, type NoteName, type Pitch } from '../theory/note.ts';
import { indexOfString } from '../fretboard/frets.ts';
import type { Contour, ContourNote } from '../lesson/lesson.ts';
import type { Neck, Stopped } from './neck.ts';

export interface ContourOver {
  readonly chord: Chord;
  /** Names the tones that the chord itself does not. */
  readonly key: Key;
  /** What steps follow, from the tonic up. */
  readonly scale: readonly NoteName[];
  readonly neck: Neck;
}

/** One note of a contour: struck at a fret, held on, silent, or nowhere to be found. */
export type Placed =
  | { readonly kind: 'note'; readonly fret: number; readonly shapePitch: Pitch }
  | { readonly kind: 'hold' | 'rest' | 'unreachable' };

export interface PlacedContour {
  /** Index of the start taken; -1 where the contour has none. */
  readonly start: number;
  readonly string: number;
  /** The fret of that tone; -1 where there is none. */
  readonly from: number;
  /** Parallel to the contour's notes. */
  readonly notes: readonly Placed[];
  /** Index of the first note that lies nowhere on the string. */
  readonly unreachable?: number;
}

/** Octaves of one start that are looked at: the nearest to the shape. */
const MOST_OCTAVES = 2;

/** About where on its string a contour is looked for. */
export interface Vicinity {
  readonly fret: number;
  /** Whether the shape leaves the string open, so that it can sound without a finger. */
  readonly open: boolean;
}

/**
 * Where the contour can lie on a string: on each start in turn, the open string first where it is that tone, then the octaves
 * nearest to the shape. Places from which a step leaves the string are left out unless there are no others; then there is one, and
 * it says which note does.
 */
export function placesOf(
  contour: Contour,
  over: ContourOver,
  string: number,
  near: Vicinity,
): readonly PlacedContour[] {
  const places: PlacedContour[] = [];
  let fallback: PlacedContour | undefined;
  for (const start of startsInTurn(contour, over)) {
    let octaves = 0;
    for (const pitch of startPitches(contour, over, start, string, near)) {
      const placed = walk(contour, over, string, start, pitch);
      fallback ??= placed;
      if (placed.unreachable !== undefined || octaves >= MOST_OCTAVES) continue;
      octaves++;
      places.push(placed);
    }
  }
  if (places.length > 0) return places;
  const nowhere = contour.notes.map((): Placed => ({ kind: 'unreachable' }));
  return [fallback ?? { start: -1, string, from: -1, notes: nowhere, unreachable: 0 }];
}

/**
 * The string that the contour follows in a shape; undefined where the shape or the instrument does not have it. Of strings that
 * sound the same pitch, the one with the lower number leads on top and the higher below.
 */
export function stringOf({ voice }: Contour, strings: readonly Stopped[], neck: Neck): number | undefined {
  if (voice === 'top' || voice === 'bass') {
    const up = [...strings].sort((a, b) => a.midi - b.midi || b.string - a.string);
    return (voice === 'top' ? up.at(-1) : up[0])?.string;
  }
  return voice >= 1 && voice <= neck.strings ? voice : undefined;
}

/** Indexes of the contour's starts: those that the chord has, then those that only the key gives. */
function startsInTurn({ starts }: Contour, { chord, key }: ContourOver): readonly number[] {
  const own = starts.map((tone) => {
    const name = toneOf(chord, tone.degree, tone.absolute, key);
    return name !== undefined && chord.tones.some((each) => semitone(each.name) === semitone(name));
  });
  const indexes = starts.map((_, index) => index);
  return [...indexes.filter((index) => own[index]), ...indexes.filter((index) => !own[index])];
}

/** The start tone in each octave of the string: open, then the nearest to the shape first; of two as near, the lower. */
function startPitches(
  contour: Contour,
  over: ContourOver,
  start: number,
  string: number,
  near: Vicinity,
): readonly Pitch[] {
  const tone = contour.starts[start];
  const name = toneOf(over.chord, tone.degree, tone.absolute, over.key);
  if (!name) return [];
  const { neck } = over;
  const index = indexOfString(string, neck.strings);
  const frets: number[] = [];
  for (let fret = 0; fret <= neck.top[index]; fret++) {
    if ((neck.open[index] + fret - semitone(name)) % 12 === 0 && isPressable(neck, index, fret)) frets.push(fret);
  }
  const distance = (fret: number): number => (fret === 0 && near.open ? -1 : Math.abs(fret - near.fret));
  frets.sort((a, b) => distance(a) - distance(b) || a - b);
  return frets.map((fret) => pitchFromMidi(neck.open[index] + fret, name));
}

/** Where the shape is on this string, or else about where it is on the neck. */
function shapeFret(strings: readonly Stopped[], string: number): number {
  const own = strings.find((each) => each.string === string);
  if (own) return own.fret;
  const pressed = strings.filter(({ fret }) => fret > 0).map(({ fret }) => fret);
  return pressed.length === 0 ? 0 : (Math.min(...pressed) + Math.max(...pressed)) / 2;
}

export const vicinityOf = (strings: readonly Stopped[], string: number): Vicinity => ({
  fret: shapeFret(strings, string),
  open: strings.every((each) => each.string !== string || each.fret === 0),
});

const isPressable = (neck: Neck, index: number, fret: number): boolean =>
  fret === 0 || (fret >= neck.lowest[index] && fret <= neck.top[index]);

function walk(contour: Contour, over: ContourOver, string: number, start: number, from: Pitch): PlacedContour {
  const { neck } = over;
  const index = indexOfString(string, neck.strings);
  let last = from;
  let unreachable: number | undefined;
  const notes = contour.notes.map((note, place): Placed => {
    if (note.kind === 'hold' || note.kind === 'rest') return { kind: note.kind };
    const shapePitch = pitchOf(note, over, from, last);
    const fret = shapePitch ? midi(shapePitch) - neck.open[index] : -1;
    if (!shapePitch || fret < 0 || !isPressable(neck, index, fret)) {
      unreachable ??= place;
      return { kind: 'unreachable' };
    }
    last = shapePitch;
    return { kind: 'note', fret, shapePitch };
  });
  return {
    start,
    string,
    from: midi(from) - neck.open[index],
    notes,
    ...(unreachable !== undefined && { unreachable }),
  };
}

function pitchOf(
  note: ContourNote & { readonly kind: 'step' | 'tone' },
  { chord, key, scale }: ContourOver,
  from: Pitch,
  last: Pitch,
): Pitch | undefined {
  if (note.kind === 'tone') {
    const name = toneOf(chord, note.tone.degree, note.tone.absolute, key);
    return name && nearestTo(last, name);
  }
  const stepped = scaleStep(scale, from, note.steps);
  return note.bend === 0 ? stepped : { ...stepped, accidental: stepped.accidental + note.bend };
}

/** The note of that name nearest to a pitch; of two as near, the lower. */
function nearestTo(pitch: Pitch, name: NoteName): Pitch {
  const up = (semitone(name) - semitone(pitch) + 12) % 12;
  return pitchFromMidi(midi(pitch) + (up < 6 ? up : up - 12), name);
}
