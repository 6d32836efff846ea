/** Takes the lesson to another key: on its `key`, or where the whole of it is chosen. */
import type { Analysis } from '../../analyze.ts';
import { counted } from '../../rules/shared/words.ts';
import { formatKey } from '../../theory/key.ts';
import type { Transposition } from '../../transpose/transpose.ts';
import { applyEdits } from '../../util/edits.ts';
import { covers, type Span } from '../../util/span.ts';
import { otherKeys } from '../key-choices.ts';
import { colourRows, type ColourRow } from '../transpose-table.ts';
import type { Action, Actions } from './action.ts';
import { isShort } from './size.ts';

const KIND = 'refactor.rewrite.key';
/** The other keys of the same mode, the nearest first: first those that the text is moved to, then those that a capo gives. */
export const transposing: Actions = {
  kind: KIND,
  at({ analysis, chosen }) {
    if (!speaksOfKey(analysis, chosen)) return [];
    return actionsOf(analysis);
  },
};

/** What open strings win and lose, by the key: as far as it has been worked out. */
const known = new WeakMap<Analysis, Map<string, string>>();

/**
 * Works out, a key at a step, what the titles say of colours: dearer than all else that is listed, so that it is left to a moment
 * when nothing else is to be done. A lesson that is long, or in which no string rings open, is let be.
 */
export function* coloursByKey(analysis: Analysis): Generator<void> {
  if (known.has(analysis) || !isShort(analysis) || !ringsOpen(analysis)) return;
  const colours = new Map<string, string>();
  known.set(analysis, colours);
  for (const { key, by, transposition } of otherKeys(analysis)) {
    if (by === 'capo') continue;
    yield;
    colours.set(formatKey(key), colourWords(analysis, transposition()));
  }
}

function actionsOf(analysis: Analysis): readonly Action[] {
  const short = isShort(analysis);
  return otherKeys(analysis).flatMap(({ key, by, title, transposition }): readonly Action[] => {
    const id = `${by === 'text' ? 'transpose' : 'capo'} ${formatKey(key)}`;
    const colours = by === 'text' ? (known.get(analysis)?.get(formatKey(key)) ?? '') : '';
    const carryOut: Action['carryOut'] = () => ({ edits: transposition().edits });
    if (!short) return [{ id, kind: KIND, title: title + colours, carryOut }];
    const done = transposition();
    if (done.edits.length === 0) return [];
    return [{ id, kind: KIND, title: title + colours + leftBehind(done), carryOut }];
  });
}

function leftBehind({ losses }: Transposition): string {
  const left = losses.filter(({ kind }) => kind === 'neck' || kind === 'unread').length;
  return left === 0 ? '' : `; ${left === 1 ? 'one part stays' : `${left} parts stay`}`;
}

function speaksOfKey({ document, lesson, text }: Analysis, { start, end }: Span): boolean {
  if (lesson.sections.length === 0 && lesson.progressions.length === 0) return false;
  const whole = start < end && text.slice(0, start).trim() === '' && text.slice(end).trim() === '';
  const onKey = document.statements.some(({ tree, start: at }) => {
    const line = { start: at, end: at + tree.head.end };
    return tree.keyword === 'key' && covers(line, start) && covers(line, end);
  });
  return whole || onKey;
}

const ringsOpen = ({ score }: Analysis): boolean =>
  score.sections.some(({ bars }) =>
    bars.some(({ chords }) => chords.some(({ voicing }) => voicing?.strings.some(({ fret }) => fret === 0))),
  );

/** ` (loses 2 colours, wins 1)`: what open strings add to a chord here and not there, each chord and colour once. */
function colourWords(analysis: Analysis, { edits }: Transposition): string {
  const rows = colourRows(analysis, analysis.rewritten(applyEdits(analysis.text, edits)));
  const [lost, won] = [countOf(rows, 'lost'), countOf(rows, 'won')];
  if (lost > 0) return ` (loses ${counted(lost, 'colour')}${won > 0 ? `, wins ${won}` : ''})`;
  return won > 0 ? ` (wins ${counted(won, 'colour')})` : '';
}

const countOf = (rows: readonly ColourRow[], which: 'won' | 'lost'): number =>
  new Set(rows.flatMap((row) => row[which].map((degree) => `${row.before.symbol} ${degree}`))).size;
