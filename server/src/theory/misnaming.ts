/** Whether a chord symbol is wrong for what sounds: in its root, its third, its seventh or its slash bass. */
import type { Chord, ChordTone } from './chord.ts';
import { toneAt } from './chord.ts';
import { degreeOver } from './colour.ts';
import { degreeSemitones } from './interval.ts';
import type { NoteName } from './note.ts';
import { semitone } from './note.ts';
import { degreeOf } from './quality.ts';

export interface Misnaming {
  /** The third (or what is suspended in its place), the seventh (or the sixth in its place) or the root that nothing sounds. */
  readonly missing?: ChordTone;
  /** What sounds against the symbol, a minor third under `C`, and the chord's own tone that it contradicts, if it has one. */
  readonly contradicted?: ChordTone & { readonly instead?: ChordTone };
  /** The note that is lowest in place of the slash bass. */
  readonly bass?: NoteName;
}

/**
 * What of a symbol is untrue of the sounding MIDI numbers; undefined where nothing is. Only the third, the seventh and a
 * written slash bass count, and a root that nothing lets hear: added colours and missing fifths do not make a name wrong. In a
 * re-entrant tuning there is no lowest string to hold the bass against. Silence contradicts nothing.
 */
export function misnames(chord: Chord, midis: readonly number[], reentrant = false): Misnaming | undefined {
  if (midis.length === 0) return undefined;
  const sounding = new Set(midis.map((each) => ((each % 12) + 12) % 12));
  const lowest = ((midis.reduce((a, b) => Math.min(a, b)) % 12) + 12) % 12;
  const root = semitone(chord.root);
  const sounds = (interval: number): boolean => sounding.has((root + interval) % 12);
  const wrong = { ...wrongSeventh(chord, sounds), ...wrongThird(chord, sounds), ...wrongRoot(chord, sounding) };
  const slash = chord.bass && !reentrant && semitone(chord.bass) !== lowest;
  if (!wrong.missing && !wrong.contradicted && !slash) return undefined;
  return { ...wrong, ...(slash ? { bass: lowestName(chord, lowest) } : {}) };
}

function lowestName(chord: Chord, pitchClass: number): NoteName {
  return toneAt(chord, pitchClass)?.name ?? degreeOver(chord, pitchClass).name;
}

function thirdOf(chord: Chord): ChordTone | undefined {
  const numbered = (number: number): ChordTone | undefined => chord.tones.find((tone) => tone.degree.number === number);
  return numbered(3) ?? numbered(4) ?? numbered(2);
}

type Sounds = (interval: number) => boolean;

function against(chord: Chord, interval: number, instead: ChordTone | undefined): Misnaming {
  const degree = interval === 3 ? degreeOf(3, -1) : interval === 4 ? degreeOf(3) : degreeOf(7, interval - 11);
  const { name } = degreeOver({ ...chord, tones: [] }, (semitone(chord.root) + interval) % 12);
  return { contradicted: { degree, name, ...(instead ? { instead } : {}) } };
}

function wrongThird(chord: Chord, sounds: Sounds): Misnaming | undefined {
  const third = thirdOf(chord);
  const sharpNinth = chord.tones.some(({ degree }) => degree.number === 9 && degree.accidental === 1);
  if (!third || third.degree.number !== 3) {
    // A suspension or a power chord says that there is no third.
    if (sounds(4)) return against(chord, 4, third);
    if (sounds(3) && !sharpNinth) return against(chord, 3, third);
    return third && !sounds(degreeSemitones(third.degree)) ? { missing: third } : undefined;
  }
  const own = degreeSemitones(third.degree);
  if (!sounds(own)) {
    const other = own === 4 ? 3 : 4;
    if (sounds(other) && !(own === 4 && sharpNinth)) return against(chord, other, third);
    return third.optional ? undefined : { missing: third };
  }
  // Beside a major third the minor one is a sharp ninth; beside a minor third the major one is a contradiction.
  return own === 3 && sounds(4) ? against(chord, 4, third) : undefined;
}

/**
 * A plain triad says nothing of a seventh, so that one is a colour which goes unsaid. A sixth chord and an added ninth,
 * eleventh or thirteenth say that there is none: with a seventh the same notes are a 13, a 9 or an 11. The sixth of a sixth
 * chord stands in the seventh's place and is missed like one.
 */
function wrongSeventh(chord: Chord, sounds: Sounds): Misnaming | undefined {
  const seventh = chord.tones.find(({ degree }) => degree.number === 7);
  const sixth = chord.tones.find(({ degree }) => degree.number === 6 && degree.accidental === 0);
  if (!seventh && !chord.tones.some(({ degree }) => degree.number === 6 || degree.number > 7)) return undefined;
  const own = seventh && degreeSemitones(seventh.degree);
  const heard = own !== undefined && sounds(own);
  // Over a diminished seventh chord the other sevenths are colours.
  if (heard && own === 9) return undefined;
  for (const other of [10, 11]) {
    if (other !== own && sounds(other)) return against(chord, other, seventh ?? sixth);
  }
  if (seventh) return heard ? undefined : { missing: seventh };
  return sixth && !sounds(degreeSemitones(sixth.degree)) ? { missing: sixth } : undefined;
}

/** A chord is heard without its root through two of its other tones, or where it is the only thing to be heard at all. */
function wrongRoot(chord: Chord, sounding: ReadonlySet<number>): Misnaming | undefined {
  const [root] = chord.tones;
  if (root?.degree.number !== 1 || sounding.has(semitone(root.name))) return undefined;
  const own = chord.tones.filter(({ name }) => sounding.has(semitone(name)));
  return own.length < 2 && sounding.size > own.length ? { missing: root } : undefined;
}
