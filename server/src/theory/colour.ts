/** Single notes over a chord: which degree a sounding note is, and which note a degree means. */
import type { Chord } from './chord.ts';
import type { Degree } from './interval.ts';
import { degreeSemitones } from './interval.ts';
import type { Key } from './key.ts';
import { countingScale } from './key.ts';
import type { NoteName } from './note.ts';
import { semitone, transposeName } from './note.ts';
import { degreeOf } from './quality.ts';

export interface ToneOver {
  readonly degree: Degree;
  readonly name: NoteName;
  readonly role: 'root' | 'chord tone' | 'colour';
}

/** What the choice of a colour's degree depends on. */
interface Frame {
  readonly third: boolean;
  readonly fifth: boolean;
  readonly seventh: boolean;
}

function frameOf(chord: Chord): Frame {
  let third = false;
  let fifth = false;
  let seventh = false;
  for (const { degree } of chord.tones) {
    if (degree.number === 3) third = true;
    if (degree.number === 5 && degree.accidental === 0) fifth = true;
    if (degree.number === 7) seventh = true;
  }
  return { third, fifth, seventh };
}

const D = degreeOf;

/**
 * The degrees that an interval outside the chord may be, the likeliest first; only a note of the key decides for
 * another. With a third the 2 is a 9 and the 4 an 11, with a seventh the 6 is a 13; beside the natural fifth a
 * tritone is #11, a minor sixth b6 or b13, and never an altered fifth unless the key spells it so.
 */
function candidates(interval: number, chord: Chord, frame: Frame): readonly Degree[] {
  const { third, fifth, seventh } = frame;
  const suspended = chord.tones.some(({ degree }) => degree.number === 4 || degree.number === 2);
  const flatSixth = seventh ? D(13, -1) : D(6, -1);
  switch (interval) {
    case 0:
      return [D(1)];
    case 1:
      return [third || seventh || suspended ? D(9, -1) : D(2, -1)];
    case 2:
      return [third || seventh || suspended ? D(9) : D(2)];
    case 3:
      return [third ? D(9, 1) : D(3, -1)];
    case 4:
      return [D(3)];
    case 5:
      return [third || seventh || suspended ? D(11) : D(4)];
    case 6:
      return fifth ? [third || seventh ? D(11, 1) : D(4, 1), D(5, -1)] : [D(5, -1), D(11, 1)];
    case 7:
      return [D(5)];
    case 8:
      return fifth ? [flatSixth, D(5, 1)] : hasFlatFifth(chord) ? [flatSixth] : [D(5, 1), flatSixth];
    case 9:
      return [seventh ? D(13) : D(6)];
    case 10:
      return [D(7, -1)];
    default:
      return [D(7)];
  }
}

function hasFlatFifth(chord: Chord): boolean {
  return chord.tones.some(({ degree }) => degree.number === 5 && degree.accidental < 0);
}

/**
 * What a sounding pitch class (0–11) is over a chord, spelled by the chord and, where a colour could be spelled two ways, by
 * the key. A note of the chord keeps the chord's own degree and name; everything else is a colour.
 */
export function degreeOver(chord: Chord, pitchClass: number, key?: Key): ToneOver {
  const root = semitone(chord.root);
  const interval = (((pitchClass - root) % 12) + 12) % 12;
  for (const { degree, name } of chord.tones) {
    if (degreeSemitones(degree) === interval) return { degree, name, role: interval === 0 ? 'root' : 'chord tone' };
  }
  if (interval === 0) return { degree: D(1), name: chord.root, role: 'root' };
  const possible = candidates(interval, chord, frameOf(chord));
  const inKey = key?.scale.find((note) => semitone(note) === (root + interval) % 12);
  const degree = (inKey && possible.find((each) => letterOf(chord.root, each) === inKey.letter)) ?? possible[0];
  return { degree, name: transposeName(chord.root, degree.number - 1, degreeSemitones(degree)), role: 'colour' };
}

const letterOf = (root: NoteName, degree: Degree): number => (root.letter + degree.number - 1) % 7;

/**
 * The note that a degree means over a chord. With `absolute`, as for every degree written with an accidental, it counts from
 * the major scale on the root. Otherwise it follows the chord's quality: 3 is the minor third over `Am` and the suspended
 * tone over a `sus`; 2 and 9, 4 and 11, 6 and 13 are one; what the chord does not name comes from the key, on its letter.
 * Undefined for numbers that are no degree.
 */
export function toneOf(chord: Chord, degree: Degree, absolute: boolean, key: Key): NoteName | undefined {
  const { number } = degree;
  if (number < 1 || number > 13 || number === 8 || number === 10 || number === 12) return undefined;
  if (absolute) return transposeName(chord.root, number - 1, degreeSemitones(degree));
  if (number === 1) return chord.root;
  const place = (number - 1) % 7;
  const own =
    chord.tones.find((tone) => tone.degree.number === number) ??
    chord.tones.find((tone) => (tone.degree.number - 1) % 7 === place);
  if (own) return own.name;
  if (number === 3) {
    const suspended = chord.tones.find((tone) => tone.degree.number === 4 || tone.degree.number === 2);
    if (suspended) return suspended.name;
  }
  const letter = (chord.root.letter + place) % 7;
  return key.scale.find((note) => note.letter === letter) ?? countingScale(key).find((note) => note.letter === letter);
}
