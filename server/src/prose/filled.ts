/** A prose with the facts of its braces looked up. */
import type { Lesson } from '../lesson/lesson.ts';
import type { Prose, ProseText } from '../lesson/prose.ts';
import type { Score } from '../realise/score.ts';
import { factAt, isKnown } from '../truth/facts.ts';

export interface FilledFact {
  readonly path: string;
  /** Undefined where the lesson has no such fact. */
  readonly value?: string;
}

export interface FilledProse {
  readonly text: ProseText;
  /** Parallel to the braces of `text`. */
  readonly facts: readonly FilledFact[];
}

export const filledProse = ({ prose, facts }: Prose, lesson: Lesson, score: Score): FilledProse => ({
  text: prose,
  facts: facts.map(({ path }): FilledFact => {
    const fact = factAt(path, lesson, score);
    return isKnown(fact) ? { path, value: fact.value } : { path };
  }),
});
