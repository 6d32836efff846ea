/** `open 3 throughout`: in every shape these strings ring open. */
import { listed } from '../words.ts';
import type { Predicate, Said } from './judgement.ts';
import { chordNamed, judgedBy, shapesOn, type ShapedChord, type Stage } from './stage.ts';

const fretOn = ({ voicing }: ShapedChord, string: number): number | undefined =>
  voicing.strings.find((one) => one.string === string)?.fret;

export const open: Predicate<Said<'open'>> = {
  judge: ({ strings }, stage) => {
    const shapes = shapesOn(stage);
    return judgedBy(
      stage,
      shapes,
      (chord) => strings.some((string) => fretOn(chord, string) !== 0),
      (first) => {
        const right = openThroughout(shapes.shaped);
        const truth = stateOf(
          stage,
          first,
          strings.find((string) => fretOn(first, string) !== 0)!,
        );
        return right.length === 0 ? { truth } : { truth, repair: { strings: right.join(' ') } };
      },
    );
  },
  why: ({ strings }, stage) => {
    const { shaped } = shapesOn(stage);
    const coloured = shaped.filter(({ voicing }) =>
      voicing.strings.some(({ string, role }) => strings.includes(string) && role === 'colour'),
    ).length;
    const rings = strings.length === 1 ? `String ${strings[0]} rings` : `Strings ${listed(strings.map(String))} ring`;
    const gives = coloured === 0 ? 'a tone of every chord' : `a colour in ${coloured} of them`;
    return `${rings} open in all ${shaped.length} shapes, ${gives}.`;
  },
  truths: (stage) => {
    const { shaped, missing } = shapesOn(stage);
    const strings = missing === undefined ? openThroughout(shaped) : [];
    const detail = `in all ${shaped.length} shapes`;
    const each = strings.map((string) => ({ text: `open ${string} throughout`, detail }));
    return strings.length < 2 ? each : [{ text: `open ${strings.join(' ')} throughout`, detail }, ...each];
  },
};

/** From the lowest string up. */
function openThroughout(shaped: readonly ShapedChord[]): readonly number[] {
  const [first] = shaped;
  if (!first) return [];
  return first.voicing.strings
    .map(({ string }) => string)
    .filter((string) => shaped.every((chord) => fretOn(chord, string) === 0));
}

function stateOf(stage: Stage, chord: ShapedChord, string: number): string {
  const fret = fretOn(chord, string);
  const state = fret === undefined ? 'is silent' : `is held at fret ${fret}`;
  return `string ${string} ${state} under ${chordNamed(stage, chord)}`;
}
