/** Copies parts of another file into the lesson, in the place of the `use` that brings them. */
import type { Analysis } from '../../analyze.ts';
import type { Definition } from '../../lesson/lesson.ts';
import type { Import } from '../../lesson/imports.ts';
import { listed } from '../../rules/shared/words.ts';
import { readDocument } from '../../syntax/document.ts';
import type { Edit } from '../../util/finding.ts';
import { covers, type Span } from '../../util/span.ts';
import { wholeOf, type Place } from '../place.ts';
import { refusal, type Action, type Actions } from './action.ts';
import { partsOf, type PartName, type WrittenPart } from './parts.ts';

const ID = 'inline';
const KIND = 'refactor.inline.part';

export const inlinePart: Actions = { kind: KIND, at: ({ analysis, place }) => inlining(analysis, place) };

function inlining(analysis: Analysis, { offset, statement, inside }: Place): readonly Action[] {
  if (statement?.tree.keyword !== 'use' || inside !== 'words') return [];
  const whole = wholeOf(statement);
  const used = analysis.lesson.imports.find(({ span }) => covers(whole, span.start));
  if (!used || !covers(whole, offset) || used.to === undefined) return [];
  const chosen = chosenOf(analysis, used, offset);
  const title = `Copy ${wordsFor(chosen, used)} here`;
  const refused = (why: string): readonly Action[] => [refusal(ID, KIND, title, why)];
  const text = analysis.files.read(used.to);
  if (typeof text !== 'string') return refused(`${used.path} cannot be read.`);
  if (chosen.length === 0) return refused(`Nothing that ${used.path} has is used here.`);
  const copied = copiedOf(analysis, partsOf(readDocument(text), text), chosen, used.to);
  if (typeof copied === 'string') return refused(copied);
  const words = copied.map(({ span }) => text.slice(span.start, span.end));
  return [{ id: ID, kind: KIND, title, carryOut: () => ({ edits: edits(analysis, whole, used, chosen, words) }) }];
}

/** The name that the cursor is on, or else all that the line brings; of a whole file, what is played. */
function chosenOf({ lesson }: Analysis, { names, brought }: Import, offset: number): readonly Definition[] {
  const own = names.find(({ span }) => names.length > 1 && covers(span, offset));
  if (own) return brought.filter(({ name }) => name === own.name);
  if (names.length > 0) return brought;
  return brought.filter((part) => lesson.uses.some(({ definition }) => definition === part));
}

const wordsFor = (parts: readonly Definition[], { path }: Import): string =>
  `${parts.length === 0 ? 'what is used' : listed(parts.map(({ kind, name }) => `${kind} ${name}`))} from ${path}`;

/** The parts in the order of their file, with those of the file that they speak of; why not, where it cannot be. */
function copiedOf(
  analysis: Analysis,
  theirs: readonly WrittenPart[],
  chosen: readonly PartName[],
  path: string,
): readonly WrittenPart[] | string {
  const wanted: PartName[] = [...chosen];
  const taken = new Set<WrittenPart>();
  for (let next = wanted.shift(); next; next = wanted.shift()) {
    const { kind, name } = next;
    const part = theirs.find((one) => one.kind === kind && one.name === name);
    if (!part) return `It speaks of ${kind} ${name}, which comes from a third file.`;
    if (taken.has(part)) continue;
    taken.add(part);
    for (const call of part.calls) {
      const here = ownPart(analysis, call);
      if (here && here.from?.path !== path)
        return `It speaks of ${call.kind} ${call.name} of its own file, and the lesson has another.`;
      if (!here) wanted.push(call);
    }
  }
  return theirs.filter((part) => taken.has(part));
}

/** What a name means in the lesson. */
function ownPart({ lesson }: Analysis, { kind, name }: PartName): Definition | undefined {
  const own = [...lesson.shapes, ...lesson.cells].find((one) => one.kind === kind && one.name === name);
  return own ?? lesson.imports.flatMap(({ brought }) => brought).find((one) => one.kind === kind && one.name === name);
}

function edits(
  { text }: Analysis,
  whole: Span,
  { names }: Import,
  chosen: readonly Definition[],
  words: readonly string[],
): readonly Edit[] {
  const newline = text.includes('\r\n') ? '\r\n' : '\n';
  const written = words.map((one) => one.replace(/\r\n|\n|\r/g, newline)).join(newline + newline);
  const left = names.filter(({ name }) => !chosen.some((part) => part.name === name));
  if (left.length === 0) return [{ span: whole, text: written }];
  const list = { start: names[0].span.start, end: names[names.length - 1].span.end };
  const end = whole.end + /^[^\r\n]*/.exec(text.slice(whole.end))![0].trimEnd().length;
  return [
    { span: list, text: left.map(({ name }) => name).join(', ') },
    { span: { start: end, end }, text: `${newline}${newline}${written}` },
  ];
}
