/** Puts a contour on another string that has all of its notes over every chord, or lets it start on another tone as well. */
import type { Analysis } from '../../analyze.ts';
import { stringCount } from '../../fretboard/instrument.ts';
import type { ContourDefinition } from '../../lesson/lesson.ts';
import { placesOf, vicinityOf, type ContourOver } from '../../realise/contour.ts';
import { neckOf, stoppedOn, type Neck } from '../../realise/neck.ts';
import type { ChordScore, ContourOutcome } from '../../realise/score.ts';
import { leaf } from '../../syntax/tree.ts';
import { scaleOver } from '../../theory/key.ts';
import { applyEdits } from '../../util/edits.ts';
import type { Edit } from '../../util/finding.ts';
import { shifted, type Span } from '../../util/span.ts';
import { statementAt } from '../place.ts';
import { refusal, type Action, type Actions } from './action.ts';
import { partHere } from './part-here.ts';
import { isShort } from './size.ts';

const KIND = 'refactor.move.melody';
const MOST_STRINGS = 3;

export const moveContour: Actions = {
  kind: KIND,
  at({ analysis, place }) {
    const definition = partHere(place, 'contour', analysis.lesson.contours);
    if (!definition || definition.broken) return [];
    return [...toStrings(analysis, definition), ...fromAnotherTone(analysis, definition)];
  },
};

function toStrings(analysis: Analysis, definition: ContourDefinition): readonly Action[] {
  const { name } = definition;
  const word = voiceWord(analysis, definition);
  const outcomes = outcomesOf(analysis, definition);
  if (!word || outcomes.length === 0) return [];
  const edit = (string: number): Edit => ({ span: word, text: `${string}` });
  const action = (string: number): Action => ({
    id: `contour on ${string}`,
    kind: KIND,
    title: `Play ${name} on string ${string}`,
    carryOut: () => ({ edits: [edit(string)] }),
  });
  const strings = stringsFor(analysis, definition);
  if (!isTroubled(outcomes) || !isShort(analysis)) return strings.slice(0, MOST_STRINGS).map(action);
  // Whoever looks for help is only offered what helps.
  const good = strings.filter((string) => {
    const after = analysis.rewritten(applyEdits(analysis.text, [edit(string)]));
    const [moved] = after.lesson.contours.filter((one) => one.name === name);
    return moved && !isTroubled(outcomesOf(after, moved));
  });
  if (good.length > 0) return good.slice(0, MOST_STRINGS).map(action);
  return [refusal('contour on', KIND, `Play ${name} on another string`, 'No other string has all of it in reach.')];
}

/** The string or the word after `on`. */
function voiceWord(analysis: Analysis, { whole }: ContourDefinition): Span | undefined {
  const statement = statementAt(analysis, whole.start);
  const word = statement && (leaf(statement.tree.head, 'string') ?? leaf(statement.tree.head, 'voice'));
  return word && shifted(word, statement.start);
}

interface OverChord {
  readonly outcome: ContourOutcome;
  readonly score: ChordScore;
  readonly over: ContourOver;
}

function outcomesOf({ lesson, score }: Analysis, { contour }: ContourDefinition): readonly OverChord[] {
  const neck = neckOf(lesson.settings.instrument, lesson.settings.hand);
  return lesson.sections.flatMap(({ plan }, section) =>
    plan.bars.flatMap((bar, index) => {
      if (bar.contour === undefined || plan.contours[bar.contour] !== contour) return [];
      return bar.chords.flatMap(({ chord, scale: own }, at): OverChord | readonly [] => {
        const played = score.sections[section].bars[index]?.chords[at];
        if (!chord || !played?.contour) return [];
        const scale = contour.scale ? scaleOver(contour.scale, chord) : own;
        return { outcome: played.contour, score: played, over: { chord, key: plan.key, scale, neck } };
      });
    }),
  );
}

const isTroubled = (all: readonly OverChord[]): boolean =>
  all.some(
    ({ outcome: { start, unreachable, missed, reach } }) =>
      start < 0 || unreachable !== undefined || missed || reach?.zone === 'extreme',
  );

/** Strings with all notes over every chord, those first on which they lie nearest to the shapes. */
function stringsFor(analysis: Analysis, definition: ContourDefinition): readonly number[] {
  const { contour } = definition;
  const all = outcomesOf(analysis, definition);
  const count = stringCount(analysis.lesson.settings.instrument);
  const now = new Set(all.map(({ outcome }) => outcome.string));
  return Array.from({ length: count }, (_, index) => index + 1)
    .filter((string) => !(now.size === 1 && now.has(string)))
    .flatMap((string) => {
      let distance = 0;
      for (const { score, over } of all) {
        const near = vicinityOf(strings(score, over.neck), string);
        const [place] = placesOf({ ...contour, voice: string }, over, string, near);
        if (place.start < 0 || place.unreachable !== undefined) return [];
        distance += Math.abs(place.from - near.fret);
      }
      return [{ string, distance }];
    })
    .sort((a, b) => a.distance - b.distance || a.string - b.string)
    .map(({ string }) => string);
}

const strings = ({ voicing }: ChordScore, neck: Neck): ReturnType<typeof stoppedOn> =>
  voicing ? stoppedOn(neck, voicing.frets) : [];

/** A tone from which what is missed could be kept, behind those that are tried already. */
function fromAnotherTone(analysis: Analysis, definition: ContourDefinition): readonly Action[] {
  const { name, startSpans } = definition;
  const tones = outcomesOf(analysis, definition).flatMap(({ outcome: { missed } }) =>
    missed?.instead?.kind === 'start' ? missed.instead.tone : [],
  );
  const end = startSpans[startSpans.length - 1]?.end;
  if (end === undefined) return [];
  return [...new Set(tones)].slice(0, 1).map((tone): Action => ({
    id: `contour from ${tone}`,
    kind: KIND,
    title: `Let ${name} start on ${tone} where it is out of reach`,
    carryOut: () => ({ edits: [{ span: { start: end, end }, text: ` or ${tone}` }] }),
  }));
}
