/** Writes a lesson as plain text: prose and tab in the order in which a student meets them. */
import { contentsOf, contentsText } from '../draw/contents.ts';
import { columns } from '../draw/graphemes.ts';
import { practiceText } from '../draw/practice.ts';
import { textTab, type TextPart } from '../draw/text-tab.ts';
import { filledProse } from '../prose/filled.ts';
import { piecesOf, type Music } from '../prose/pieces.ts';
import { proseText } from '../prose/plain.ts';
import type { WorkedOut } from './worked-out.ts';

export interface TextOptions {
  /** In columns. */
  readonly width: number;
  /** Whether the notes for the teacher are written too. */
  readonly notes: boolean;
}

/** Longer lines of prose are hard to read, however wide the tab. In columns. */
const WIDEST_PROSE = 80;
const NOTE = 'For the teacher:';
const LEFT_OUT = 'No `show` sets these bars between the prose:';

/** With a line end. Bars that no `show` sets stand at the end, so that no tab is lost. What is no lesson is told by what it holds. */
export function lessonText({ lesson, score, findings, lines }: WorkedOut, { width, notes }: TextOptions): string {
  const { shown, leftOut } = piecesOf(lesson);
  const parts = shown.flatMap((piece): TextPart | readonly never[] => {
    if (piece.kind === 'music') return musicPart(piece);
    if (piece.kind === 'note' && !notes) return [];
    const room = Math.min(width, WIDEST_PROSE);
    const text = proseText(filledProse(piece, lesson, score), { width: room, columns });
    return piece.kind === 'note' && text !== '' ? `${NOTE}\n${text}` : text;
  });
  parts.push(practiceText(lesson, width));
  const contents = contentsOf(lesson, lines, findings);
  if (contents) {
    const below = parts.filter((part) => typeof part === 'string' && part !== '');
    return `${[contentsText(contents, width), ...below].join('\n\n')}\n`;
  }
  if (leftOut.length > 0) parts.push(LEFT_OUT, ...leftOut.map((music) => musicPart({ ...music, view: 'tab' })));
  return textTab(lesson, score, findings, width, parts);
}

const musicPart = ({ section, first, last, whole, view }: Music): TextPart => ({
  section,
  ...(!whole && { bars: { first, last } }),
  as: view === 'tab' || view === 'all' ? 'tab' : 'shapes',
});
