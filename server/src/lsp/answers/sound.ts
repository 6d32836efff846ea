/** Answers with all that a page needs to play a lesson or one of its variants, worked out when somebody wants to hear it. */
import { variantNamed } from '../../analyze.ts';
import { playableOf } from '../../export/lesson-sound.ts';
import { namesOf } from '../../features/preview-places.ts';
import { SOUND_OF, type LessonSound, type SoundQuestion } from '../../protocol.ts';
import type { CancellationToken } from 'vscode-languageserver';
import type { AboutLesson, Answer } from '../desk.ts';

export const sound: Answer = {
  offers: () => ({}),
  listen({ connection, about }) {
    const answer = about<SoundQuestion & AboutLesson, LessonSound | null>(
      'how a lesson sounds',
      ({ analysis, document }, { variant }) => {
        const played = variant === undefined ? analysis : variantNamed(analysis, variant);
        if (!played) return null;
        const playable = playableOf(played, namesOf(played.lesson));
        return { version: document.version, ...(variant !== undefined && { variant }), ...playable };
      },
      null,
    );
    connection.onRequest(SOUND_OF, (question: SoundQuestion, token: CancellationToken) =>
      answer({ ...question, textDocument: { uri: question.uri } }, token),
    );
  },
};
