/** The days of a course as they are played, whatever their order on the page. */
import type { CourseDay } from '../../lesson/library.ts';

export const inOrder = (days: readonly CourseDay[]): readonly CourseDay[] => [...days].sort((a, b) => a.day - b.day);
