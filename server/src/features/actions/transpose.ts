/** Offers to take the lesson to another key: on its `key`, or where the whole of it is chosen. */
import type { Analysis } from '../analyze.ts';
import { keyWords } from '../draw/facts.ts';
import { soundingKey } from '../realise/sounding.ts';
import { formatKey } from '../theory/key.ts';
import { byCapo, capoFor, HIGHEST_USUAL_CAPO } from '../transpose/by-capo.ts';
import { keysNearby } from '../transpose/target-key.ts';
import { transposition, type Transposition } from '../transpose/transpose.ts';
import type { Edit } from '../util/finding.ts';
import { covers, type Span } from '../util/span.ts';

export interface LessonAction {
  /** What it does, as an order. */
  readonly title: string;
  readonly edits: readonly Edit[];
}

/** The other keys of the same mode, the nearest first: first those that the text is moved to, then those that a capo gives. */
export function transposeActions(analysis: Analysis, chosen: Span): readonly LessonAction[] {
  if (!speaksOfKey(analysis, chosen)) return [];
  const { document, lesson } = analysis;
  const { key, instrument } = lesson.settings;
  const action = (title: string, { edits, losses }: Transposition): LessonAction[] => {
    const left = losses.filter(({ kind }) => kind === 'neck' || kind === 'unread').length;
    if (edits.length === 0) return [];
    return [{ title: left === 0 ? title : `${title}; ${left === 1 ? 'one part stays' : `${left} parts stay`}`, edits }];
  };
  const moved = keysNearby(key).flatMap((to) =>
    action(`Transpose to ${keyWords(to, instrument)}`, transposition(document, key, to, instrument)),
  );
  const sounding = soundingKey(key, instrument);
  const capoed = keysNearby(sounding).flatMap((to) => {
    const fret = capoFor(key, to, instrument);
    if (fret === undefined || fret > HIGHEST_USUAL_CAPO) return [];
    const how = fret === 0 ? 'without the capo' : `with the capo on fret ${fret}`;
    return action(`Let it sound in ${formatKey(to)} ${how}`, byCapo(document, key, to, instrument));
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
