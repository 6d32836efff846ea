/** What a lesson is in one line: how hard, how long, for whom. For the editor's status bar. */
import type { Analysis } from '../analyze.ts';
import { difficultyOf, difficultyWord, factsOf } from '../draw/facts.ts';
import { counted } from '../truth/words.ts';
import type { Lesson, SectionPlan } from '../lesson/lesson.ts';
import { variantTitle } from '../lesson/variants.ts';
import { playedOrder } from '../lesson/played-order.ts';
import { secondsOfWhole } from '../realise/timeline.ts';
import { toNumber } from '../util/fraction.ts';
import type { LessonSummary } from '../protocol.ts';

/** What the findings are is told beside each, and changes with every word: it is left out. */
export function summaryOf({ lesson, score }: Analysis): Omit<LessonSummary, 'version'> {
  const { sections, variants, title } = lesson;
  const difficulty = difficultyOf(score);
  const bars = sections.reduce((sum, { plan }) => sum + plan.bars.filter(({ number }) => number > 0).length, 0);
  const facts = factsOf(lesson, score, []).filter(({ kind }) => kind !== 'findings' && kind !== 'difficulty');
  return {
    title: title ?? '',
    ...(difficulty !== undefined && {
      difficulty: { ofTen: difficulty.toFixed(1), word: difficultyWord(difficulty) },
    }),
    ...(lesson.minutes !== undefined && { minutes: lesson.minutes }),
    bars,
    sounds: lengthWords(secondsOf(lesson)),
    facts: facts.map(({ text }) => text),
    variants: variants.map((variant) => ({ name: variant.name, title: variantTitle(variant) })),
  };
}

/** How long the form lasts at the tempo, with its repeats. */
function secondsOf({ form, sections }: Lesson): number {
  const each = sections.map(({ plan }) => secondsOfSection(plan));
  return form.reduce((sum, index) => sum + each[index], 0);
}

function secondsOfSection(plan: SectionPlan): number {
  const wholes = playedOrder(plan).reduce((sum, index) => sum + toNumber(plan.bars[index].length), 0);
  return wholes * toNumber(secondsOfWhole(plan.tempo));
}

/** `17 seconds`, `2:05 minutes`. */
function lengthWords(seconds: number): string {
  const whole = Math.round(seconds);
  if (whole < 60) return counted(whole, 'second');
  return `${Math.floor(whole / 60)}:${`${whole % 60}`.padStart(2, '0')} minutes`;
}
