/** Scales by name, out of tonal. The only module that imports tonal: it copies, checks and freezes what it takes. */
import { ScaleType } from 'tonal';
import { LETTER_SEMITONES } from './note.ts';

/** One note of a scale, counted from its tonic. */
export interface ScaleNote {
  /** Letters above the tonic, 0–6. */
  readonly letters: number;
  /** Semitones above the tonic, 0–11. */
  readonly semitones: number;
}

export interface NamedScale {
  readonly name: string;
  readonly aliases: readonly string[];
  /** Rising from the tonic, which is the first. */
  readonly notes: readonly ScaleNote[];
}

/** What an interval's quality adds to the major or perfect one. Minor and diminished differ by the kind of interval. */
const PERFECT: Readonly<Record<string, number>> = { P: 0, A: 1, d: -1 };
const MAJOR: Readonly<Record<string, number>> = { M: 0, m: -1, A: 1, d: -2 };

/** Reads `3m`, `4A`, `7d`; undefined for what doesn't lie within an octave. */
function scaleNote(interval: string): ScaleNote | undefined {
  const match = /^([1-7])([PMmAd])$/.exec(interval);
  if (!match) return undefined;
  const letters = Number(match[1]) - 1;
  const change = (letters === 0 || letters === 3 || letters === 4 ? PERFECT : MAJOR)[match[2]];
  return change === undefined ? undefined : Object.freeze({ letters, semitones: LETTER_SEMITONES[letters] + change });
}

/** Scales that carry a person's name, and aliases that say nothing to a guitarist, are left out. */
const LEFT_OUT = /'|#\dp|#7m|pomeroy|gypsy|indian|chinese|arabian|hindu|oriental|dominant$/;
const KEPT = new Set(['lydian dominant', 'phrygian dominant']);
const wanted = (name: string): boolean => KEPT.has(name) || !LEFT_OUT.test(name);

function collect(): readonly NamedScale[] {
  const scales: NamedScale[] = [];
  for (const scale of ScaleType.all()) {
    const notes = scale.intervals.map(scaleNote).filter((note) => note !== undefined);
    const rising = notes.every((note, place) => place === 0 || note.semitones > notes[place - 1].semitones);
    if (notes.length !== scale.intervals.length || notes[0]?.semitones !== 0 || !rising || !wanted(scale.name))
      continue;
    const aliases = Object.freeze(scale.aliases.filter(wanted));
    scales.push(Object.freeze({ name: scale.name, aliases, notes: Object.freeze(notes) }));
  }
  return Object.freeze(scales);
}

let collected: readonly NamedScale[] | undefined;

/** Every scale known, frozen; read from tonal once, on first need. */
export function namedScales(): readonly NamedScale[] {
  collected ??= collect();
  return collected;
}
