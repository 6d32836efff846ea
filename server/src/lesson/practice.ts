/** The plan of practice: steps at a tempo for some minutes, or climbing from tempo to tempo. */
import type { Span } from '../util/span.ts';
import type { Scope, Source } from './reader.ts';

export interface PracticeStep {
  readonly title: string;
  /** Tempi in beats a minute in the order played; one for `at 60`, more for a ladder (`from 60 to 84 by 6`). At most 100. */
  readonly tempi: readonly number[];
  /** As written; undefined where the step does not say. */
  readonly minutes?: number;
  /** Index in the lesson's sections; undefined: the whole lesson. */
  readonly section?: number;
  readonly first?: number;
  readonly last?: number;
  readonly span: Span;
}

/** The steps of all `practice` statements, in order. */
export function readPractice(
  _sources: readonly Source[],
  _scope: Scope,
  _sections: readonly { readonly name: string }[],
): readonly PracticeStep[] {
  return [];
}
