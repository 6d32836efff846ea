/** One voicing in words of the trade: what each string is to the chord, what it adds, what rubs, and what the whole is called. */
import { degreeOver, transposeChord, type Chord } from '../theory/chord.ts';
import { sameDegree, type Degree } from '../theory/interval.ts';
import type { Key } from '../theory/key.ts';
import { nameVoicing } from '../theory/name-voicing.ts';
import { pitchFromMidi, semitone } from '../theory/note.ts';
import type { FretList } from '../fretboard/frets.ts';
import { stringAtIndex } from '../fretboard/frets.ts';
import type { Fingering, ShapeVerdict } from '../hand/fingering.ts';
import type { Neck } from './neck.ts';
import type { Clash, Role, SoundingString, Voicing } from './score.ts';
import { shiftOf, sounded, type Shift } from './sounding.ts';

export interface Seen {
  readonly chord: Chord;
  readonly key: Key;
  readonly neck: Neck;
  /** Strings (player's numbers) that ring open beside the shape rather than belong to it. */
  readonly beside: ReadonlySet<number>;
}

/** Names are worked out when they are asked for: naming is dearer than all the rest, and most voicings are never shown. */
export function describeVoicing(
  seen: Seen,
  frets: FretList,
  verdict: ShapeVerdict,
  fingering: Fingering | undefined,
): Voicing {
  const shift = shiftOf(seen.key, seen.neck.shift);
  const strings = soundingStrings(seen, shift, frets, fingering);
  const shapeNames = once(() => namesOf(seen, strings, undefined));
  const sounding = shift.semitones === 0 ? shapeNames : once(() => namesOf(seen, strings, shift));
  return {
    frets,
    verdict,
    ...(fingering && { fingering }),
    strings,
    get sounding() {
      return sounding();
    },
    get shapeNames() {
      return shapeNames();
    },
    colours: coloursOf(strings),
    clashes: clashesOf(strings),
  };
}

function once<T>(compute: () => T): () => T {
  let value: { readonly is: T } | undefined;
  return () => (value ??= { is: compute() }).is;
}

function soundingStrings(
  { chord, key, neck, beside }: Seen,
  shift: Shift,
  frets: FretList,
  fingering: Fingering | undefined,
): readonly SoundingString[] {
  const heard: number[] = [];
  const strings: (SoundingString | undefined)[] = frets.map(() => undefined);
  // What rings beside the shape comes last: where the shape has its tone as well, it is the one that doubles.
  for (const later of [false, true]) {
    frets.forEach((fret, index) => {
      const string = stringAtIndex(index, frets.length);
      if (fret === null || beside.has(string) !== later) return;
      const shape = neck.open[index] + fret;
      const pitchClass = ((shape % 12) + 12) % 12;
      const over = degreeOver(chord, pitchClass, key);
      // A slash bass is asked for by the symbol, whether the chord has it or not.
      let role: Role = chord.bass && semitone(chord.bass) === pitchClass ? 'chord tone' : over.role;
      if (role !== 'colour' && heard.includes(pitchClass)) role = 'doubling';
      heard.push(pitchClass);
      const shapePitch = pitchFromMidi(shape, over.name);
      strings[index] = {
        string,
        fret,
        midi: shape + neck.shift,
        pitch: sounded(shapePitch, shift),
        shapePitch,
        degree: over.degree,
        role,
        finger: fret === 0 ? 0 : (fingering?.fingers[index] ?? 0),
      };
    });
  }
  return strings.filter((string) => string !== undefined);
}

/** Without a shift, as the shapes are named. */
function namesOf({ chord, key, neck }: Seen, strings: readonly SoundingString[], shift: Shift | undefined): string[] {
  const midis = strings.map(({ midi }) => (shift ? midi : midi - neck.shift));
  const intended = shift ? transposeChord(chord, shift.letters, shift.semitones) : chord;
  const { reentrant } = neck.instrument.tuning;
  return nameVoicing(midis, { intended, key: shift?.key ?? key, reentrant }).map(({ name }) => name);
}

function coloursOf(strings: readonly SoundingString[]): readonly Degree[] {
  const colours: Degree[] = [];
  for (const { role, degree } of strings) {
    if (role === 'colour' && !colours.some((each) => sameDegree(each, degree))) colours.push(degree);
  }
  return colours;
}

const MINOR_NINTH = 13;

/** An open string a semitone above or below a chord tone, or a minor ninth above one. */
function clashesOf(strings: readonly SoundingString[]): readonly Clash[] {
  const clashes: Clash[] = [];
  for (const open of strings) {
    if (open.fret !== 0) continue;
    for (const against of strings) {
      const above = open.midi - against.midi;
      if (against.role === 'colour' || (Math.abs(above) !== 1 && above !== MINOR_NINTH)) continue;
      // Of two open strings that rub, one is enough to say so.
      if (clashes.some((clash) => clash.open === against && clash.against === open)) continue;
      clashes.push({ open, against });
    }
  }
  return clashes;
}
