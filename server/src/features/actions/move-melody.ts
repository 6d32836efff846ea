/** Plays a written melody, or the notes of it that are out of reach, at the same pitches on other strings. */
import type { Analysis } from '../../analyze.ts';
import { openMidi, stringCount, topFret, type Instrument } from '../../fretboard/instrument.ts';
import type { WrittenDefinition } from '../../lesson/written.ts';
import { isGroup, leaf, type Leaf, type Part } from '../../syntax/tree.ts';
import { fretsOf, movedSign } from '../../transpose/frets.ts';
import { applyEdits } from '../../util/edits.ts';
import type { Edit } from '../../util/finding.ts';
import { shifted } from '../../util/span.ts';
import { statementAt } from '../place.ts';
import { refusal, type Action, type Actions } from './action.ts';
import { editsBetween } from './layout.ts';
import { partHere } from './part-here.ts';
import { isShort } from './size.ts';

const KIND = 'refactor.move.melody';
const MOST_STRINGS = 3;
/** So often a lesson is played anew to see whether a note on another string helps. */
const MOST_TRIES = 24;

export const moveMelody: Actions = {
  kind: KIND,
  at({ analysis, place }) {
    const melody = partHere(place, 'melody', analysis.lesson.melodies);
    return melody ? [...wholeMelody(analysis, melody), ...troubledNotes(analysis, melody)] : [];
  },
};

/** A sign of a melody with the string that it is on, and the mark that names that string, where one stands right before it. */
interface Sign {
  readonly word: Leaf;
  readonly string: number | undefined;
  readonly mark?: Leaf;
}

interface Signs {
  readonly start: number;
  /** The string in the head. */
  readonly head?: Leaf;
  readonly all: readonly Sign[];
}

function signsOf(analysis: Analysis, { whole }: WrittenDefinition): Signs | undefined {
  const statement = statementAt(analysis, whole.start);
  if (!statement) return undefined;
  const head = leaf(statement.tree.head, 'string');
  const all: Sign[] = [];
  let string = head && Number(head.text);
  let mark: Leaf | undefined;
  const each = (parts: readonly Part[]): void => {
    for (const part of parts) {
      if (isGroup(part)) each(part.parts);
      else if (part.label === 'string') {
        mark = part;
        string = Number(part.text);
      } else if (part.label === 'sign') {
        all.push({ word: part, string, ...(mark && { mark }) });
        mark = undefined;
      }
    }
  };
  for (const line of statement.tree.body) if (line.form === 'notes') each(line.parts);
  return { start: statement.start, ...(head && { head }), all };
}

/** The whole of a melody that lies on one string, on others that have it; where it is out of reach here, on those that help. */
function wholeMelody(analysis: Analysis, melody: WrittenDefinition): readonly Action[] {
  const signs = signsOf(analysis, melody);
  const { head } = signs ?? {};
  if (!signs || !head || signs.all.some(({ mark }) => mark)) return [];
  const { instrument } = analysis.lesson.settings;
  const now = Number(head.text);
  const id = (string: number): string => `melody on ${string}`;
  const moves = Array.from({ length: stringCount(instrument) }, (_, index) => index + 1)
    .filter((string) => string !== now)
    .sort((a, b) => Math.abs(a - now) - Math.abs(b - now) || a - b)
    .flatMap((string) => {
      const edits = onString(signs, head, now, string, instrument);
      return edits ? [{ string, edits }] : [];
    });
  const troubled = isTroubled(analysis, melody.name);
  const helping =
    troubled && isShort(analysis)
      ? moves.filter(({ edits }) => !isTroubled(analysis.rewritten(applyEdits(analysis.text, edits)), melody.name))
      : moves;
  if (helping.length === 0) {
    const why = troubled ? 'No other string has all of it in reach.' : 'No other string has all of its notes.';
    return [refusal(id(0), KIND, `Play ${melody.name} on another string`, why)];
  }
  return helping.slice(0, MOST_STRINGS).map(({ string, edits }) => {
    const title = `Play ${melody.name} on string ${string}, at the same pitches`;
    return { id: id(string), kind: KIND, title, carryOut: () => ({ edits }) };
  });
}

/** Undefined where the other string lacks a note; harmonics sound elsewhere as other notes. */
function onString(
  { start, all }: Signs,
  head: Leaf,
  from: number,
  to: number,
  instrument: Instrument,
): readonly Edit[] | undefined {
  const by = openMidi(instrument, from) - openMidi(instrument, to);
  const top = topFret(instrument, to);
  const frets = all.map(({ word }) => fretsOf(word.text));
  if (frets.some(({ touched }) => touched.length > 0)) return undefined;
  if (frets.some(({ pressed }) => pressed.some((fret) => fret + by < 0 || fret + by > top))) return undefined;
  return [
    { span: shifted(head, start), text: `${to}` },
    ...all.map(({ word }) => ({ span: shifted(word, start), text: movedSign(word.text, by) })),
  ];
}

/** The notes that are out of reach, on other strings of the same pitch, as far as that helps. */
function troubledNotes(analysis: Analysis, melody: WrittenDefinition): readonly Action[] {
  if (!isTroubled(analysis, melody.name)) return [];
  const carryOut: Action['carryOut'] = () => ({ edits: editsBetween(analysis.text, relieved(analysis, melody.name)) });
  const title = `Play what is out of reach of ${melody.name} on other strings`;
  if (isShort(analysis) && carryOut('').edits.length === 0) return [];
  return [{ id: 'notes', kind: KIND, title, carryOut }];
}

/** The text with each troubled note on the string that relieves the hand, where there is one. */
function relieved(analysis: Analysis, name: string): string {
  const { instrument } = analysis.lesson.settings;
  const givenUp = new Set<number>();
  let now = analysis;
  let tries = MOST_TRIES;
  for (;;) {
    const troubles = troubledSpans(now, name);
    const melody = now.lesson.melodies.find((one) => one.name === name);
    const signs = melody && signsOf(now, melody);
    const at = signs?.all.findIndex(
      ({ word }, index) => !givenUp.has(index) && troubles.includes(signs.start + word.start),
    );
    if (!signs || at === undefined || at < 0) return now.text;
    let better: Analysis | undefined;
    for (const edits of onOtherStrings(signs, at, instrument)) {
      if (tries-- <= 0) return now.text;
      const tried = now.rewritten(applyEdits(now.text, edits));
      if (troubledSpans(tried, name).length >= troubles.length) continue;
      better = tried;
      break;
    }
    if (better) now = better;
    else givenUp.add(at);
  }
}

/** One note on each other string that has it, nearest strings first; what stands before and behind it keeps its string. */
function onOtherStrings({ all, start }: Signs, at: number, instrument: Instrument): readonly (readonly Edit[])[] {
  const { word, string, mark } = all[at];
  const next = all[at + 1];
  // What is joined to its neighbour, bent or a harmonic belongs to its string.
  const plain = /^\(?\d+\)?~?$/.test(word.text) && !/^[hp/\\]/.test(next?.word.text ?? '');
  if (string === undefined || !plain) return [];
  return Array.from({ length: stringCount(instrument) }, (_, index) => index + 1)
    .filter((other) => other !== string)
    .sort((a, b) => Math.abs(a - string) - Math.abs(b - string) || a - b)
    .flatMap((other) => {
      const by = openMidi(instrument, string) - openMidi(instrument, other);
      const fret = Number(/\d+/.exec(word.text)![0]) + by;
      if (fret < 0 || fret > topFret(instrument, other)) return [];
      const moved = movedSign(word.text, by);
      const edits: Edit[] = mark
        ? [
            { span: shifted(mark, start), text: `${other}` },
            { span: shifted(word, start), text: moved },
          ]
        : [{ span: shifted(word, start), text: `${other}: ${moved}` }];
      if (next && !next.mark) {
        const before = start + next.word.start;
        edits.push({ span: { start: before, end: before }, text: `${string}: ` });
      }
      return [edits];
    });
}

/** Where the notes of a melody stand that the hand cannot have, or only at the edge of its reach. */
function troubledSpans({ lesson, score }: Analysis, name: string): readonly number[] {
  const melody = lesson.melodies.find((one) => one.name === name);
  const starts = new Set(melody?.places.map(({ span }) => span.start));
  return lesson.sections.flatMap(({ places }, section) =>
    places.flatMap(({ melody: place }, bar) => {
      if (!place || !starts.has(place.span.start)) return [];
      return (score.sections[section].bars[bar]?.troubles ?? []).flatMap((trouble) => {
        const hard = trouble.kind === 'missed' || (trouble.kind === 'reach' && trouble.zone === 'extreme');
        return (hard && trouble.voice === 'melody' ? place.notes[trouble.note]?.start : undefined) ?? [];
      });
    }),
  );
}

const isTroubled = (analysis: Analysis, name: string): boolean => troubledSpans(analysis, name).length > 0;
