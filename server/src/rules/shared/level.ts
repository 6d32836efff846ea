/** What a lesson's level means for its findings. */
import type { Context } from '../rule.ts';

/** Levels 1 and 2. */
const HIGHEST_BEGINNERS_LEVEL = 2;

export function isForBeginners({ lesson }: Context): boolean {
  const { level } = lesson.settings;
  return level !== undefined && level <= HIGHEST_BEGINNERS_LEVEL;
}
