/** Takes the lesson to another key: on its `key`, or where the whole of it is chosen. */
import type { Analysis } from '../../analyze.ts';
import { keyWords } from '../../draw/facts.ts';
import { soundingKey } from '../../realise/sounding.ts';
import { counted } from '../../rules/shared/words.ts';
import { formatKey } from '../../theory/key.ts';
import { byCapo, capoFor, HIGHEST_USUAL_CAPO } from '../../transpose/by-capo.ts';
import { keysNearby } from '../../transpose/target-key.ts';
import { transposition, type Transposition } from '../../transpose/transpose.ts';
import { applyEdits } from '../../util/edits.ts';
import { covers, type Span } from '../../util/span.ts';
import { colourRows, type ColourRow } from '../transpose-table.ts';
import type { Action, Actions } from './action.ts';

const KIND = 'refactor.rewrite.key';
/** Chords of a lesson that is played in every key before anybody chooses one: an evening's. Longer ones do not say what they lose. */
const MOST_CHORDS_COMPARED = 48;

/** The other keys of the same mode, the nearest first: first those that the text is moved to, then those that a capo gives. */
export const transposing: Actions = {
  kind: KIND,
  at({ analysis, chosen }) {
    if (!speaksOfKey(analysis, chosen)) return [];
    let actions = known.get(analysis);
    if (!actions) known.set(analysis, (actions = actionsOf(analysis)));
    return actions;
  },
};

/** An editor asks again with every move of the cursor. */
const known = new WeakMap<Analysis, readonly Action[]>();

function actionsOf(analysis: Analysis): readonly Action[] {
  const { document, lesson } = analysis;
  const { key, instrument } = lesson.settings;
  const action = (id: string, title: string, { edits, losses }: Transposition, colours = ''): readonly Action[] => {
    const left = losses.filter(({ kind }) => kind === 'neck' || kind === 'unread').length;
    if (edits.length === 0) return [];
    const said = `${title}${colours}`;
    const stays = left === 1 ? 'one part stays' : `${left} parts stay`;
    return [{ id, kind: KIND, title: left === 0 ? said : `${said}; ${stays}`, carryOut: () => ({ edits }) }];
  };
  const compares = isCompared(analysis);
  const moved = keysNearby(key).flatMap((to) => {
    const transposed = transposition(document, key, to, instrument);
    const colours = compares ? colourWords(analysis, transposed) : '';
    return action(`transpose ${formatKey(to)}`, `Transpose to ${keyWords(to, instrument)}`, transposed, colours);
  });
  const sounding = soundingKey(key, instrument);
  const capoed = keysNearby(sounding).flatMap((to) => {
    const fret = capoFor(key, to, instrument);
    if (fret === undefined || fret > HIGHEST_USUAL_CAPO) return [];
    const how = fret === 0 ? 'without the capo' : `with the capo on fret ${fret}`;
    const title = `Let it sound in ${formatKey(to)} ${how}`;
    return action(`capo ${formatKey(to)}`, title, byCapo(document, key, to, instrument));
  });
  return [...moved, ...capoed];
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

/** Whether the lesson is short, and any string rings open in it. */
function isCompared({ score }: Analysis): boolean {
  const chords = score.sections.flatMap(({ bars }) => bars.flatMap((bar) => bar.chords));
  const rings = chords.some(({ voicing }) => voicing?.strings.some(({ fret }) => fret === 0));
  return rings && chords.length <= MOST_CHORDS_COMPARED;
}

/** ` (loses 2 colours, wins 1)`: what open strings add to a chord here and not there, each chord and colour once. */
function colourWords(analysis: Analysis, { edits }: Transposition): string {
  const rows = colourRows(analysis, analysis.rewritten(applyEdits(analysis.text, edits)));
  const [lost, won] = [countOf(rows, 'lost'), countOf(rows, 'won')];
  if (lost > 0) return ` (loses ${counted(lost, 'colour')}${won > 0 ? `, wins ${won}` : ''})`;
  return won > 0 ? ` (wins ${counted(won, 'colour')})` : '';
}

const countOf = (rows: readonly ColourRow[], which: 'won' | 'lost'): number =>
  new Set(rows.flatMap((row) => row[which].map((degree) => `${row.before.symbol} ${degree}`))).size;
