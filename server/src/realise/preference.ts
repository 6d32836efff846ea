/** Which of several playable voicings a lesson would rather have, beyond how hard they are: by the player's level and the rule's kind. */
import { semitone } from '../theory/note.ts';
import type { FretList } from '../fretboard/frets.ts';
import { FINGERS, FIRST_POSITION, INDEX, MILLION, type Player } from '../hand/model.ts';
import type { Fingering } from '../hand/fingering.ts';
import type { Asked } from './demands.ts';
import type { Neck } from './neck.ts';

/** What a rule that leaves strings free to sound or not pays for each of them, and for lying up the neck. */
interface Fullness {
  /** Each silent string on the bass side, and on the treble side. */
  readonly silentBass: number;
  readonly silentTreble: number;
  /** Each fret between the nut and the lowest fret pressed. */
  readonly fret: number;
}

/** All set by judgement, on the scale of difficulties from 0 to 10. */
export const PREFERENCE = {
  /** Open chords: as full as the root in the bass allows. */
  full: { silentBass: 1.2, silentTreble: 1.8, fret: 0.12 } as Fullness,
  /** The same where the first string is not the lowest: every string belongs to the chord. */
  whole: { silentBass: 1.8, silentTreble: 1.8, fret: 0.12 } as Fullness,
  /** Shapes that move under the index: as near the nut as the roots on the two lowest strings allow. */
  movable: { silentBass: 0.3, silentTreble: 1.8, fret: 0.35 } as Fullness,
  /** Sequences of tones, such as power chords: on the lower strings, and not cut short. */
  low: { silentBass: 0.8, silentTreble: 0, fret: 0.25 } as Fullness,
  cutShort: 1,
  /** Of open chords: a fret beyond the first position, and each string that fewer than four sound. */
  beyondFirstPosition: 2.5,
  thin: 2,
  /** A tone of the chord, such as the fifth, that no string sounds though the symbol would allow it. */
  missingTone: 0.8,
  /** The string above the bass sounds neither root nor fifth: close intervals are muddy down there. */
  muddy: 0.8,
  /** It rings open above a pressed bass, whose finger is apt to touch it. */
  openAboveBass: 1.5,
  /** What a beginner should be spared: a stretch, an extreme reach, a barre over more than two strings, what is hard by itself. */
  stretch: 2,
  extreme: 4,
  barre: 2,
  hardFrom: 3.5,
  hard: 1,
} as const;

/**
 * By the built-in rules a chord is the shape that everybody knows: what speaks for it counts this much more than the way to the
 * next one, which alone would cut an open C short. [set]
 */
export const FAMILIAR = 4;

const BEGINNERS_BARRE = 2;
/** With fewer strings a chord is not full. */
const LEAST_FULL = 4;

/** In whole millionths; 0 for a rule that says itself which strings sound. */
export function fullnessCost({ rule, chord, neck }: Asked, frets: FretList, position: number): number {
  if (!rule.sparse) return 0;
  const first = frets.findIndex((fret) => fret !== null);
  let last = frets.length - 1;
  while (last > first && frets[last] === null) last--;
  const { reentrant } = neck.instrument.tuning;
  const movable = rule.bassAtLowestFret ? PREFERENCE.movable : PREFERENCE.full;
  const kind = rule.sequence ? PREFERENCE.low : reentrant ? PREFERENCE.whole : movable;
  let cost =
    kind.silentBass * first +
    kind.silentTreble * (frets.length - 1 - last) +
    kind.fret * Math.max(0, position - neck.nut - 1);
  if (rule.sequence) {
    return Math.round((cost + PREFERENCE.cutShort * (rule.sequence.length - 1 - last + first)) * MILLION);
  }
  cost += PREFERENCE.thin * Math.max(0, Math.min(LEAST_FULL, frets.length) - (last - first + 1));
  if (!rule.bassAtLowestFret && frets.some((fret, index) => fret !== null && isBeyond(neck, index, fret))) {
    cost += PREFERENCE.beyondFirstPosition;
  }
  let sounding = 0;
  for (let index = 0; index < frets.length; index++) sounding |= bitOn(neck, index, frets[index]);
  let firm = 0;
  for (const { name, degree } of chord.tones) {
    const bit = 1 << semitone(name);
    if ((sounding & bit) === 0) cost += PREFERENCE.missingTone;
    if (degree.number === 1 || degree.number === 5) firm |= bit;
  }
  const above = frets[first + 1];
  if (!reentrant && typeof above === 'number') {
    if ((bitOn(neck, first + 1, above) & firm) === 0) cost += PREFERENCE.muddy;
    if (above === 0 && frets[first] !== 0) cost += PREFERENCE.openAboveBass;
  }
  return Math.round(cost * MILLION);
}

const isBeyond = (neck: Neck, index: number, fret: number): boolean =>
  fret + neck.capo[index] - neck.nut > FIRST_POSITION;

/** The pitch class of a string as a bit; nothing where it is silent. */
const bitOn = (neck: Neck, index: number, fret: number | null): number =>
  fret === null ? 0 : 1 << ((((neck.open[index] + fret) % 12) + 12) % 12);

/** What a fingering costs a player of this level beyond its difficulty, in whole millionths; never a reason to refuse it. */
export function levelCost(fingering: Fingering, player: Player): number {
  if (player !== 'beginner') return 0;
  let cost = fingering.zone === 'stretch' ? PREFERENCE.stretch : fingering.zone === 'extreme' ? PREFERENCE.extreme : 0;
  if (longestBarre(fingering.fingers) > BEGINNERS_BARRE) cost += PREFERENCE.barre;
  const hard = Math.max(0, fingering.effort - PREFERENCE.hardFrom * MILLION) * PREFERENCE.hard;
  return Math.round(cost * MILLION + hard);
}

/** How many strings the longest barre spans; 1 or 0 where no finger lies over more than one. */
export function longestBarre(fingers: FretList): number {
  let longest = 0;
  for (let finger = INDEX; finger <= FINGERS; finger++) {
    const span = fingers.lastIndexOf(finger) - fingers.indexOf(finger) + 1;
    if (fingers.includes(finger) && span > longest) longest = span;
  }
  return longest;
}
