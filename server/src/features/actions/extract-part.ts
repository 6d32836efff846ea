/** Takes a part out of the lesson into a file of its own beside it, from which the lesson uses it. */
import type { Analysis } from '../../analyze.ts';
import type { Edit } from '../../util/finding.ts';
import { covers } from '../../util/span.ts';
import { definitionsOf, wholeOf, type Place } from '../place.ts';
import { refusal, type Action, type Actions, type Outcome } from './action.ts';
import { partsOf, wholeLines, type PartName, type WrittenPart } from './parts.ts';

const ID = 'extract';
const KIND = 'refactor.extract.part';
/** Parts that hold frets, which mean other notes in another tuning. */
const FRETTED: ReadonlySet<string> = new Set(['melody', 'tab']);

export const extractPart: Actions = {
  kind: KIND,
  at({ analysis, place }) {
    const part = partAt(analysis, place);
    if (!part) return [];
    const title = `Move ${part.kind} ${part.name} to a file of its own`;
    const needed = part.calls.map((call) => useLine(analysis, call));
    const staying = part.calls[needed.indexOf(undefined)];
    const refused = (why: string): readonly Action[] => [refusal(ID, KIND, title, why)];
    if (analysis.files.path === undefined) return refused('Save the lesson first: the file is made beside it.');
    if (staying)
      return refused(`It speaks of ${staying.kind} ${staying.name}, which would stay here: move that first.`);
    const uses = needed.flatMap((line) => line ?? []);
    const carryOut: Action['carryOut'] = (file) => movedTo(analysis, part, uses, file);
    return [{ id: ID, kind: KIND, title, makesFile: part.name, carryOut }];
  },
};

/** The part whose statement the cursor is in; a grip is called by its symbol, and stays with its chords. */
function partAt({ document, text }: Analysis, { offset, inside, statement }: Place): WrittenPart | undefined {
  if (!statement || inside === 'prose' || !covers(wholeOf(statement), offset)) return undefined;
  return partsOf({ ...document, statements: [statement] }, text).find(({ kind }) => kind !== 'grip');
}

/** The line that brings a part which this lesson has from elsewhere; undefined for its own. */
function useLine(analysis: Analysis, { kind, name }: PartName): string | undefined {
  const from = analysis.lesson.imports.find(({ brought }) =>
    brought.some((one) => one.kind === kind && one.name === name),
  );
  const own = definitionsOf(analysis).some((one) => one.kind === kind && one.name === name && !one.from);
  return from && !own ? `use ${name} from "${from.path}"` : undefined;
}

function movedTo(analysis: Analysis, part: WrittenPart, uses: readonly string[], file: string): Outcome {
  const { document, text } = analysis;
  const newline = text.includes('\r\n') ? '\r\n' : '\n';
  const tuning = document.statements.find(({ tree }) => tree.keyword === 'tuning');
  const head = FRETTED.has(part.kind) && tuning ? [text.slice(wholeOf(tuning).start, wholeOf(tuning).end)] : [];
  const blocks = [
    ...head,
    ...(uses.length > 0 ? [uses.join(newline)] : []),
    text.slice(part.span.start, part.span.end),
  ];
  const newFile = `${blocks.join(newline + newline)}${newline}`;
  const line = `use ${part.name} from "${file}"`;
  const last = document.statements.filter(({ tree }) => tree.keyword === 'use').pop();
  if (!last) return { newFile, edits: [{ span: part.span, text: line }] };
  const { end } = wholeOf(last);
  const behind = end + /^[^\r\n]*/.exec(text.slice(end))![0].trimEnd().length;
  const edits: readonly Edit[] = [
    { span: { start: behind, end: behind }, text: `${newline}${line}` },
    { span: wholeLines(part.span, text), text: '' },
  ];
  return { newFile, edits: [...edits].sort((a, b) => a.span.start - b.span.start) };
}
