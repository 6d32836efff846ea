/** Answers with what a lesson is in one line, for a client that has a status bar. */
import { summaryOf } from '../../features/summary.ts';
import { SUMMARISE, type LessonSummary } from '../../protocol.ts';
import type { AboutLesson, Answer } from '../desk.ts';

export const summary: Answer = {
  offers: () => ({}),
  listen({ connection, about }) {
    connection.onRequest(
      SUMMARISE,
      about<AboutLesson, LessonSummary | null>('a summary', ({ analysis }) => summaryOf(analysis), null),
    );
  },
};
