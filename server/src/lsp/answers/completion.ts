/** Answers what may stand at the cursor, and what is shown beside the one that is looked at. */
import type { CompletionItem, CompletionList, CompletionParams } from 'vscode-languageserver';
import { completionsAt } from '../../features/completion.ts';
import { shapePage } from '../../features/completion-voicings.ts';
import { completionsFrom, markup, type OfferedItem } from '../convert.ts';
import type { Answer } from '../desk.ts';

/** The value of `CompletionTriggerKind.TriggerCharacter`: the editor asks by itself behind a blank. */
const BY_ITSELF = 2;

export const completion: Answer = {
  offers: ({ resolvesCompletions }) => ({
    completionProvider: { triggerCharacters: [' ', '{', '.'], ...(resolvesCompletions && { resolveProvider: true }) },
  }),
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
    connection.onCompletionResolve(async (item, token) => {
      const data = item.data as OfferedItem | undefined;
      if (!data) return item;
      const answer = about<OfferedItem, CompletionItem>(
        'completion',
        (lesson, { shape }) => {
          const page = shapePage(lesson.analysis, shape);
          return page.length === 0 ? item : { ...item, documentation: markup(page, client().markdownCompletion) };
        },
        item,
      );
      return answer(data, token);
    });
  },
};
