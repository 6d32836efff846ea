/** Answers with the keys that a lesson can be taken to, what each wins and loses, and the edit that takes it there. */
import { colourLine, keyChoices, type KeyChoice } from '../../features/key-choices.ts';
import {
  COLOURS_OF_KEY,
  LIST_KEYS,
  TAKE_TO_KEY,
  type AboutKey,
  type ChordChanged,
  type KeyChoices,
} from '../../protocol.ts';
import { applyEdits } from '../../util/edits.ts';
import type { AboutLesson, Answer } from '../desk.ts';
import { workspaceEdit } from '../edits.ts';
import type { OpenLesson } from '../lessons.ts';

const GONE = 'The lesson has changed meanwhile: choose again.';

export const keys: Answer = {
  offers: () => ({}),
  listen({ connection, about, client, idle }) {
    /** Kept as long as the version is: each of them is asked about. */
    const known = new WeakMap<OpenLesson, readonly KeyChoice[]>();
    const choicesOf = (lesson: OpenLesson): readonly KeyChoice[] => {
      const choices = known.get(lesson) ?? keyChoices(lesson.analysis);
      known.set(lesson, choices);
      return choices;
    };
    const chosen = (lesson: OpenLesson, { version, choice }: AboutKey): KeyChoice | undefined =>
      lesson.document.version === version ? choicesOf(lesson)[choice] : undefined;

    connection.onRequest(
      LIST_KEYS,
      about<AboutLesson, KeyChoices | null>(
        'keys',
        (lesson) => ({
          version: lesson.document.version,
          choices: choicesOf(lesson).map(({ title }) => ({ title })),
        }),
        null,
      ),
    );
    connection.onRequest(
      COLOURS_OF_KEY,
      about<AboutKey, string | null>(
        'the colours of a key',
        async (lesson, params, token) => {
          // Each is as much work as the lesson: whoever writes meanwhile is answered first.
          await idle();
          const choice = chosen(lesson, params);
          if (!choice || token.isCancellationRequested) return null;
          const { analysis } = lesson;
          const { edits, losses } = choice.transposition;
          return colourLine(analysis, analysis.rewritten(applyEdits(analysis.text, edits)), losses);
        },
        null,
      ),
    );
    connection.onRequest(
      TAKE_TO_KEY,
      about<AboutKey, ChordChanged | null>(
        'another key',
        (lesson, params) => {
          const choice = chosen(lesson, params);
          if (!choice) return { says: GONE };
          const { edits } = choice.transposition;
          return { says: choice.title, edit: workspaceEdit([{ lesson, edits }], client()) };
        },
        null,
      ),
    );
  },
};
