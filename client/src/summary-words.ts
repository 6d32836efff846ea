/** What the status bar says of a lesson. */
import type { LessonSummary } from '../../server/src/protocol.ts';

/** `moderate · 15 min`; without minutes its bars; empty where there is neither music nor a length. */
export const shortWords = ({ difficulty, minutes, bars }: LessonSummary): string =>
  [difficulty?.word, minutes === undefined ? (bars > 0 ? counted(bars, 'bar') : undefined) : `${minutes} min`]
    .filter((words) => words !== undefined)
    .join(' · ');

/** The same for who listens. */
export const spokenWords = (summary: LessonSummary): string =>
  `Lesson: ${detailLines(summary).join('; ')}. Open preview`;

/** One line each: title, difficulty, length, settings, and what a click does. */
export const tooltipLines = (summary: LessonSummary): readonly string[] => [
  ...(summary.title === '' ? [] : [summary.title]),
  ...detailLines(summary),
  ...(summary.variants.length === 0 ? [] : [`Variants: ${summary.variants.map(({ title }) => title).join(', ')}`]),
  summary.facts.join(' · '),
  'Click to open the preview',
];

const detailLines = ({ difficulty, minutes, bars, sounds }: LessonSummary): readonly string[] => [
  ...(difficulty ? [`Difficulty ${difficulty.ofTen} of 10, ${difficulty.word}`] : []),
  ...(minutes === undefined ? [] : [counted(minutes, 'minute')]),
  ...(bars === 0 ? [] : [`${counted(bars, 'bar')}, ${sounds} as played`]),
];

const counted = (count: number, word: string): string => `${count} ${word}${count === 1 ? '' : 's'}`;
