/** Writes under a grip the fingers that hold it most easily. */
import type { Analysis } from '../../analyze.ts';
import { formatFretList, type FretList } from '../../fretboard/frets.ts';
import { judgeShape } from '../../hand/fingering.ts';
import type { GripDefinition } from '../../lesson/lesson.ts';
import type { Edit } from '../../util/finding.ts';
import { type Actions } from './action.ts';
import { partHere } from './part-here.ts';

const KIND = 'refactor.rewrite.fingers';

export const fingers: Actions = {
  kind: KIND,
  at({ analysis, place }) {
    const grip = partHere(place, 'grip', analysis.lesson.grips);
    const { instrument, hand } = analysis.lesson.settings;
    const [best] = grip?.frets ? judgeShape(instrument, grip.frets, hand).fingerings : [];
    if (!grip || !best || (grip.fingers && isSame(grip.fingers, best.fingers))) return [];
    const words = listOf(best.fingers);
    const title = `Write the fingers that hold ${grip.name} most easily: ${words}`;
    return [{ id: 'fingers', kind: KIND, title, carryOut: () => ({ edits: [fingersEdit(analysis, grip, words)] }) }];
  },
};

const isSame = (one: FretList, other: FretList): boolean => listOf(one) === listOf(other);

const listOf = (list: FretList): string => formatFretList(list).replaceAll('-', '');

function fingersEdit({ lines, text }: Analysis, { lines: own, whole, fretsSpan }: GripDefinition, words: string): Edit {
  if (own.fingers) return { span: own.fingers, text: `fingers ${words}` };
  const line = lines.lineAt(fretsSpan.end);
  const end = lines.offsetAt({ line, character: lines.line(line).trimEnd().length });
  const below = lines.line(line + 1);
  const indent = whole.end > end ? /^\s*/.exec(below)![0] : '  ';
  const newline = text.includes('\r\n') ? '\r\n' : '\n';
  return { span: { start: end, end }, text: `${newline}${indent}fingers ${words}` };
}
