/** `same contour throughout`: one contour over every shape, from the first of its starts, whole and within the hand's reach. */
import { counted, quoted } from '../words.ts';
import type { Predicate, Said } from './judgement.ts';
import { barsOn, chordNamed, judgedBy, nothingPlayed, shapesOn, type ShapedChord, type Stage } from './stage.ts';
import { noMelody } from './melody.ts';

export const sameContour: Predicate<Said<'same contour'>> = {
  judge: (_, stage) => {
    const shapes = shapesOn(stage);
    if (shapes.shaped.length === 0) return shapes.missing ? { undecided: shapes.missing } : nothingPlayed(stage);
    if (barsOn(stage).every(({ bar }) => bar.contour === undefined)) {
      const found = noMelody(stage);
      return found.nothing ? { ...found, undecided: found.undecided.replace('melody', 'contour') } : found;
    }
    const [first] = namesIn(stage, shapes.shaped);
    return judgedBy(
      stage,
      shapes,
      (chord) => failingIn(stage, chord, first) !== undefined,
      (chord) => ({ truth: failingIn(stage, chord, first) ?? '' }),
    );
  },
  why: (_, stage) => {
    const { shaped } = shapesOn(stage);
    const [name] = namesIn(stage, shaped);
    const frets = [...new Set(shaped.map(({ score }) => score.contour?.frets.join(' ') ?? ''))];
    return `${quoted(name ?? '')} lies whole over ${counted(shaped.length, 'chord')}, at frets ${frets.join(', ')}.`;
  },
  truths: (stage) => {
    if (!sameContour.judge({ kind: 'same contour' }, stage).holds) return [];
    const { shaped } = shapesOn(stage);
    return [
      { text: 'same contour throughout', detail: `${namesIn(stage, shaped)[0]} over all ${shaped.length} chords` },
    ];
  },
};

const namesIn = (stage: Stage, shaped: readonly ShapedChord[]): readonly string[] =>
  shaped.flatMap((chord) => contourOver(stage, chord)?.name ?? []);

const contourOver = ({ lesson }: Stage, { section, bar }: ShapedChord) =>
  bar.contour === undefined ? undefined : lesson.sections[section].plan.contours[bar.contour];

/** What keeps a chord's contour from being the whole of the first one; undefined where nothing does. */
function failingIn(stage: Stage, chord: ShapedChord, name: string | undefined): string | undefined {
  const contour = contourOver(stage, chord);
  const outcome = chord.score.contour;
  const over = `over ${chordNamed(stage, chord)}`;
  if (!contour || !outcome) return `no contour lies ${over}`;
  if (contour.name !== name) return `${quoted(contour.name)} lies ${over}, and ${quoted(name ?? '')} before`;
  if (outcome.start < 0 || outcome.unreachable !== undefined)
    return `${quoted(contour.name)} leaves the string ${over}`;
  if (outcome.start > 0) {
    const [first, taken] = [contour.starts[0], contour.starts[outcome.start]];
    return `${over} it starts on ${taken.text} and not on ${first.text}`;
  }
  if (outcome.missed) {
    const { fret, string } = outcome.missed;
    return `${over} the hand cannot have fret ${fret} of string ${string}`;
  }
  return outcome.cut > 0
    ? `${over} its last ${outcome.cut === 1 ? 'note is' : `${outcome.cut} notes are`} cut`
    : undefined;
}
