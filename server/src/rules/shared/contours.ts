/** The contour over a chord: how it was meant, what became of it and where it is written. */
import type { Contour, ContourDefinition } from '../../lesson/lesson.ts';
import type { ContourOutcome } from '../../realise/score.ts';
import type { Context } from '../rule.ts';
import type { PlacedChord } from './chords.ts';

export interface ContourOver {
  readonly contour: Contour;
  readonly outcome: ContourOutcome;
  readonly definition?: ContourDefinition;
}

/** Undefined where no contour lies over the chord. */
export function contourOver({ section, bar, played }: PlacedChord, { lesson }: Context): ContourOver | undefined {
  const contour = bar.contour === undefined ? undefined : section.plan.contours[bar.contour];
  if (!contour || !played.contour) return undefined;
  const definition = lesson.contours.find((one) => one.contour === contour);
  return { contour, outcome: played.contour, definition };
}
