/** What an export is made from: a lesson with all that was worked out of it, whoever did the working out. */
import type { Lesson } from '../lesson/lesson.ts';
import type { Score } from '../realise/score.ts';
import type { Finding } from '../util/finding.ts';
import type { LineMap } from '../util/line-map.ts';

export interface WorkedOut {
  readonly lesson: Lesson;
  readonly score: Score;
  readonly findings: readonly Finding[];
  readonly lines: LineMap;
  /** The lesson’s variants, each worked out as a lesson; none of a variant. */
  readonly variants: readonly WorkedOutVariant[];
}

export interface WorkedOutVariant extends WorkedOut {
  readonly definition: { readonly name: string; readonly title?: string };
}
