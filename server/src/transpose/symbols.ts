/** Chord symbols, keys and notes as they are written, an interval higher; what stands behind a root stays to the letter. */
import { parseChord } from '../theory/chord.ts';
import { formatKey, keyOf, parseKey, type Key } from '../theory/key.ts';
import {
  formatNoteName,
  formatPitch,
  midi,
  parseNoteName,
  parsePitch,
  pitchFromMidi,
  sameName,
  type NoteName,
} from '../theory/note.ts';
import { movedName, type Interval } from './interval.ts';

/** A text moved; `exact` is false where it had to be spelled otherwise than by the interval. */
export interface MovedText {
  readonly text: string;
  readonly exact: boolean;
}

/** What roots, basses and tonics may have; written notes one more. */
const SIGNS_OF_A_ROOT = 2;
const SIGNS_OF_A_NOTE = 3;

const ROOT = /^[A-G](?:#{1,2}|♯{1,2}|b{1,2}|♭{1,2}|♮|𝄪|𝄫)?/u;
const SLASH_BASS = /^(.*?)(\s*\/\s*)([A-G][#b♯♭♮𝄪𝄫]*)$/su;

/** A chord symbol; undefined for what is none. */
export function movedSymbol(symbol: string, interval: Interval): MovedText | undefined {
  const chord = parseChord(symbol);
  if (!chord) return undefined;
  const behind = symbol.slice(ROOT.exec(symbol)![0].length);
  const slash = SLASH_BASS.exec(behind);
  const root = movedName(chord.root, interval, SIGNS_OF_A_ROOT);
  const bass = slash ? movedBass(slash[3], interval) : undefined;
  const rest = slash && bass ? slash[1] + slash[2] + bass.text : behind;
  const exact = root.exact && (bass?.exact ?? true);
  // `Ab#11` a semitone up would read `A#11`: a natural sign then tells the root from what follows.
  for (const sign of ['', '♮']) {
    const text = formatNoteName(root.name) + sign + rest;
    const again = parseChord(text);
    if (again && again.quality === chord.quality && sameName(again.root, root.name)) return { text, exact };
  }
  return undefined;
}

/** A note or a pitch as `F#`, `Eb4`; `semitones` is how far a pitch goes, up or down. Undefined for what is neither. */
export function movedNote(written: string, interval: Interval, semitones: number): MovedText | undefined {
  const pitch = parsePitch(written);
  const name: NoteName | undefined = pitch ?? parseNoteName(written);
  if (!name) return undefined;
  const moved = movedName(name, interval, SIGNS_OF_A_NOTE);
  if (!pitch) return { text: formatNoteName(moved.name), exact: moved.exact };
  return { text: formatPitch(pitchFromMidi(midi(pitch) + semitones, moved.name)), exact: moved.exact };
}

/** A bass behind `over`: a note; undefined for a tone of the chord, which goes along by itself. */
export function movedBass(written: string, interval: Interval): MovedText | undefined {
  const name = parseNoteName(written);
  if (!name) return undefined;
  const moved = movedName(name, interval, SIGNS_OF_A_ROOT);
  return { text: formatNoteName(moved.name), exact: moved.exact };
}

/**
 * A key in the words in which it is written, `G major`, `Gmaj`, `g minor`: only the tonic changes, unless `mode` asks for
 * another mode. Undefined for what is no key.
 */
export function movedKey(written: string, interval: Interval, mode?: string): MovedText | undefined {
  const key = parseKey(written);
  if (!key) return undefined;
  const { name, exact } = movedName(key.tonic, interval, SIGNS_OF_A_ROOT);
  const meant = keyOf(name, mode ?? key.mode);
  if (!meant) return undefined;
  const rest = written.slice(1 + Math.abs(key.tonic.accidental));
  const tonic = formatNoteName(name);
  const small = written[0] === written[0].toLowerCase();
  const text = (small ? tonic[0].toLowerCase() + tonic.slice(1) : tonic) + rest;
  const again = mode === undefined || mode === key.mode ? parseKey(text) : undefined;
  return { text: again && sameKey(again, meant) ? text : formatKey(meant), exact };
}

export const sameKey = (a: Key, b: Key): boolean => a.mode === b.mode && sameName(a.tonic, b.tonic);
