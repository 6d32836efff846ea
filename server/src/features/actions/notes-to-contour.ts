/** Turns a melody, or the top voice of a tab, into a contour that is played as the same notes. */
import type { Analysis } from '../../analyze.ts';
import type { WrittenDefinition } from '../../lesson/written.ts';
import { applyEdits } from '../../util/edits.ts';
import type { Edit } from '../../util/finding.ts';
import { covers, shifted, type Span } from '../../util/span.ts';
import { statementAt } from '../place.ts';
import { NOTHING, refusal, type Action, type Actions } from './action.ts';
import { contourFrom, type FoundContour } from './contour-from-notes.ts';
import { partHere } from './part-here.ts';
import { isShort } from './size.ts';

const ID = 'contour of';
const KIND = 'refactor.rewrite.contour';

export const notesToContour: Actions = {
  kind: KIND,
  at({ analysis, place }) {
    const { lesson } = analysis;
    const part = partHere(place, 'melody', lesson.melodies) ?? partHere(place, 'tab', lesson.tabs);
    if (!part) return [];
    const found = contourFrom(lesson, part);
    const voice = typeof found !== 'string' && found.leaves ? 'the top voice of ' : '';
    const title = `Turn ${voice}${part.kind} ${part.name} into a contour`;
    const refused = (why: string): readonly Action[] => [refusal(ID, KIND, title, why)];
    if (typeof found === 'string') return refused(`No contour tells it: ${found}.`);
    const calls = callsOf(analysis, part);
    if (calls.length === 0) return refused('A variant or an ending names it, and would lose it.');
    const edits = editsFor(analysis, part, found, calls);
    const keeps = (): boolean => isKept(analysis, part, found.string, edits);
    if (!isShort(analysis)) return [{ id: ID, kind: KIND, title, carryOut: () => (keeps() ? { edits } : NOTHING) }];
    return keeps() ? [{ id: ID, kind: KIND, title, carryOut: () => ({ edits }) }] : refused(MOVED);
  },
};

const MOVED = 'No contour tells it: over the shapes of its section the hand would play it elsewhere.';

/** The keyword and the name of each line by which a section calls for it; none where something else names it too. */
function callsOf(analysis: Analysis, part: WrittenDefinition): readonly { keyword: Span; name: Span }[] {
  const uses = analysis.lesson.uses.filter(({ definition }) => definition === part);
  const calls = uses.flatMap(({ span }) => {
    const statement = statementAt(analysis, span.start);
    if (statement?.tree.keyword !== 'section') return [];
    const line = statement.tree.body.find(
      (one) => one.form === part.kind && covers(shifted(one, statement.start), span.start),
    );
    return line ? [{ keyword: shifted(line.keyword, statement.start), name: span }] : [];
  });
  return calls.length === uses.length ? calls : [];
}

function editsFor(
  { lesson, text }: Analysis,
  { name: own, whole }: WrittenDefinition,
  { string, each, from, leaves }: FoundContour,
  calls: ReturnType<typeof callsOf>,
): readonly Edit[] {
  const newline = text.includes('\r\n') ? '\r\n' : '\n';
  const taken = new Set(lesson.contours.map(({ name }) => name));
  let name = own;
  for (let number = 2; taken.has(name); number++) name = `${own}-${number}`;
  const words = [`contour ${name} on ${string}`, `  ${each}`, `  ${from}`].join(newline);
  // What the contour does not tell stays, if nothing else then to be looked at.
  const written: Edit = leaves
    ? { span: { start: whole.end, end: whole.end }, text: newline + newline + words }
    : { span: whole, text: words };
  const called = calls.flatMap((call): readonly Edit[] => [
    { span: call.keyword, text: 'contour' },
    { span: call.name, text: name },
  ]);
  return [written, ...called].sort((a, b) => a.span.start - b.span.start);
}

/** Whether the contour is played as the notes that were written, at the same times and places. */
function isKept(analysis: Analysis, part: WrittenDefinition, string: number, edits: readonly Edit[]): boolean {
  const after = analysis.rewritten(applyEdits(analysis.text, edits));
  const starts = new Set(part.places.map(({ span }) => span.start));
  const bars = analysis.lesson.sections.flatMap(({ places }, section) =>
    places.flatMap((place, bar) => (starts.has(place[part.kind]?.span.start ?? -1) ? { section, bar } : [])),
  );
  const notes = ({ score }: Analysis, voices: readonly string[]): string =>
    bars
      .map(({ section, bar }) =>
        (score.sections[section]?.bars[bar]?.events ?? [])
          .filter((event) => event.string === string && voices.includes(event.voice))
          .map(({ start, fret, midi }) => `${start.over}/${start.under} ${fret} ${midi}`)
          .join(),
      )
      .join('|');
  return notes(analysis, ['melody', 'written']) === notes(after, ['melody']);
}
