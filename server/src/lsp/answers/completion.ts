/** Answers what may stand at the cursor. */
import type { CompletionList, CompletionParams } from 'vscode-languageserver';
import { completionsAt } from '../../features/completion.ts';
import { completionsFrom } from '../convert.ts';
import type { Answer } from '../desk.ts';

/** The value of `CompletionTriggerKind.TriggerCharacter`: the editor asks by itself behind a blank. */
const BY_ITSELF = 2;

export const completion: Answer = {
  offers: () => ({ completionProvider: { triggerCharacters: [' ', '{', '.'] } }),
  listen({ connection, about, client }) {
    connection.onCompletion(
      about<CompletionParams, CompletionList | null>(
        'completion',
        (lesson, { position, context }) => {
          const asked = context?.triggerKind !== BY_ITSELF;
          const found = completionsAt(lesson.analysis, lesson.offsetOf(position), asked);
          return found ? completionsFrom(found, lesson, client()) : null;
        },
        null,
      ),
    );
  },
};
