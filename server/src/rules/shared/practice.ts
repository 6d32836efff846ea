/** What the rules about practice reckon with. */
import type { PracticeStep } from '../../lesson/practice.ts';

/** Of the steps that state them. */
export const minutesOf = (practice: readonly PracticeStep[]): number =>
  practice.reduce((sum, step) => sum + (step.minutes ?? 0), 0);
