/** The contour that written notes follow: one tone of each chord to start on, and the same steps from there over all of them. */
import type { Lesson } from '../../lesson/lesson.ts';
import type { WrittenDefinition, WrittenNote } from '../../lesson/written.ts';
import { indexOfString } from '../../fretboard/frets.ts';
import { neckOf } from '../../realise/neck.ts';
import { techniqueOf } from '../../realise/written.ts';
import { aboveRoot, toneOf, type Chord } from '../../theory/chord.ts';
import { scaleStep, type Key } from '../../theory/key.ts';
import { midi, pitchFromMidi, semitone, type NoteName } from '../../theory/note.ts';
import { degreeOf } from '../../theory/quality.ts';
import { compare, equal, formatFraction, minus, plus, type Fraction } from '../../util/fraction.ts';

/** The notes over one chord. */
interface Group {
  readonly chord: Chord;
  readonly key: Key;
  readonly scale: readonly NoteName[];
  /** From the chord's start, in whole notes. */
  readonly starts: readonly Fraction[];
  readonly lengths: readonly Fraction[];
  /** As the symbols name them. */
  readonly midis: readonly number[];
}

export interface FoundContour {
  readonly string: number;
  /** The lines of its body. */
  readonly each: string;
  readonly from: string;
  /** Whether the part has notes on other strings, which the contour does not tell. */
  readonly leaves: boolean;
}

/** Tones that a contour starts on, the likeliest first. */
const TONES = [1, 3, 5, 7, 9, 6, 11, 13, 2, 4];
/** Scale steps from the start: two octaves. */
const FARTHEST = 14;

/** The top voice of a melody or tab as a contour; half a sentence on why not, where it is none. */
export function contourFrom(lesson: Lesson, part: WrittenDefinition): FoundContour | string {
  const notes = part.bars.flatMap((bar) => bar.notes);
  if (notes.length === 0) return 'it has no notes';
  const string = Math.min(...notes.map((note) => note.string));
  const top = notes.filter((note) => note.string === string);
  if (part.kind === 'melody' && top.length < notes.length)
    return 'it is on several strings, and a contour stays on one';
  if (!top.every(isPlain)) return 'its signs are more than steps: slides, bends, ghosts and the like';
  const groups = groupsOf(lesson, part, string);
  if (typeof groups === 'string') return groups;
  const [first, ...others] = groups;
  if (!first) return 'no chord of a progression lies under it';
  const alike = (one: readonly Fraction[], other: readonly Fraction[]): boolean =>
    one.length === other.length && one.every((each, index) => equal(each, other[index]));
  if (others.some(({ starts, lengths }) => !alike(starts, first.starts) || !alike(lengths, first.lengths)))
    return 'it has not the same rhythm over every chord';
  const tone = TONES.find((number) => groups.every((group) => startsOn(group, number)));
  if (tone === undefined) return 'it starts on another tone over another chord';
  const steps = first.midis.map((_, note) => stepOf(groups, tone, note));
  if (steps.includes(undefined)) return 'it does not take the same steps over every chord';
  const each = usual(first.lengths);
  const words = steps.map((step, note) => {
    const length = first.lengths[note];
    return equal(length, each) ? step : `${step} ${formatFraction(length)}`;
  });
  return {
    string,
    each: `each ${formatFraction(each)}`,
    from: `from ${tone === 1 ? 'R' : tone}: ${words.join(' ')}`,
    leaves: top.length < notes.length,
  };
}

/** A contour knows no technique, no accent and no triplet. */
const isPlain = (note: WrittenNote): boolean => techniqueOf(note) === undefined && !note.accent && !note.triplet;

function groupsOf({ sections, settings }: Lesson, part: WrittenDefinition, string: number): readonly Group[] | string {
  const neck = neckOf(settings.instrument, settings.hand);
  const open = neck.open[indexOfString(string, neck.strings)];
  const starts = new Map(part.places.map(({ span }, index) => [span.start, part.bars[index]]));
  const groups: Group[] = [];
  for (const { places, plan } of sections) {
    for (const [index, place] of places.entries()) {
      const written = starts.get(place[part.kind]?.span.start ?? -1);
      if (!written) continue;
      if (place.chords.length === 0) return 'its section has no progression for a contour to lie over';
      if (written.stops.length > 0 || written.rests.length > 0) return 'it has rests';
      if (written.held.some((one) => one.string === string)) return 'a note is held over the bar line';
      for (const { chord, start, length, scale } of plan.bars[index].chords) {
        if (!chord) return 'there is a bar without a chord';
        const end = plus(start, length);
        const own = written.notes.filter(
          (note) => note.string === string && compare(note.start, start) >= 0 && compare(note.start, end) < 0,
        );
        if (own.length === 0 || !equal(own[0].start, start)) return 'not every chord begins with a note of it';
        groups.push({
          chord,
          key: plan.key,
          scale,
          starts: own.map((note) => minus(note.start, start)),
          lengths: own.map((note, at) => minus(own[at + 1]?.start ?? end, note.start)),
          midis: own.map(({ fret }) => open + fret),
        });
      }
    }
  }
  return groups;
}

const startName = ({ chord, key }: Group, number: number): NoteName | undefined =>
  toneOf(chord, degreeOf(number), false, key);

/** Whether the tone is the group's first note; one that the chord does not have would be looked for last. */
function startsOn(group: Group, number: number): boolean {
  const name = startName(group, number);
  if (!name || (group.midis[0] - semitone(name)) % 12 !== 0) return false;
  return group.chord.tones.some((tone) => aboveRoot(group.chord, tone.name) === aboveRoot(group.chord, name));
}

/** The step that leads every group from its start to that note; bent by a semitone where no scale step does. */
function stepOf(groups: readonly Group[], tone: number, note: number): string | undefined {
  for (const bend of [0, 1, -1]) {
    for (let size = 0; size <= FARTHEST; size++) {
      for (const steps of size === 0 ? [0] : [size, -size]) {
        const leads = groups.every((group) => {
          const from = pitchFromMidi(group.midis[0], startName(group, tone)!);
          return midi(scaleStep(group.scale, from, steps)) + bend === group.midis[note];
        });
        if (leads) return `${steps > 0 ? '+' : ''}${steps}${bend === 0 ? '' : bend > 0 ? '#' : 'b'}`;
      }
    }
  }
  return undefined;
}

/** The length that most notes have, of as many the first. */
function usual(lengths: readonly Fraction[]): Fraction {
  const count = (one: Fraction): number => lengths.filter((other) => equal(one, other)).length;
  return lengths.reduce((best, one) => (count(one) > count(best) ? one : best));
}
