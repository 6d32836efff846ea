/** Answers where a name stands, in this lesson and in all others, and gives it another one. */
import {
  ErrorCodes,
  ResponseError,
  DocumentHighlightKind,
  type DocumentHighlight,
  type DocumentHighlightParams,
  type Location,
  type PrepareRenameParams,
  type Range,
  type ReferenceParams,
  type RenameParams,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import { namedAt, occurrencesIn } from '../../features/occurrences.ts';
import { newNameRefused, renamingAt } from '../../features/rename.ts';
import type { Answer } from '../desk.ts';
import { workspaceEdit } from '../edits.ts';
import type { OpenLesson } from '../lessons.ts';
import { occurrencesEverywhere } from '../occurrences.ts';
import type { Workspace } from '../workspace.ts';

export const names: Answer = {
  offers: ({ preparesRename }) => ({
    documentHighlightProvider: true,
    referencesProvider: true,
    renameProvider: preparesRename ? { prepareProvider: true } : true,
  }),
  listen({ connection, about, client, workspace }) {
    connection.onDocumentHighlight(
      about<DocumentHighlightParams, DocumentHighlight[] | null>(
        'highlights',
        (lesson, { position }) => {
          const found = namedAt(lesson.analysis, lesson.offsetOf(position));
          if (!found) return null;
          return occurrencesIn(lesson.analysis, found.named).map(({ span, gives }) => ({
            range: lesson.rangeOf(span),
            kind: gives ? DocumentHighlightKind.Write : DocumentHighlightKind.Read,
          }));
        },
        null,
      ),
    );
    connection.onReferences(
      about<ReferenceParams, Location[] | null>(
        'references',
        async (asked, { position, context }) => {
          const lesson = await whole(asked, workspace);
          const found = namedAt(lesson.analysis, lesson.offsetOf(position));
          if (!found) return null;
          const everywhere = await occurrencesEverywhere(found.named, lesson, workspace);
          return everywhere.flatMap(({ lesson: there, occurrences }) =>
            occurrences
              .filter(({ gives }) => context.includeDeclaration || !gives)
              .map(({ span }) => ({ uri: there.document.uri, range: there.rangeOf(span) })),
          );
        },
        null,
      ),
    );
    connection.onPrepareRename(
      about<PrepareRenameParams, { range: Range; placeholder: string } | null>(
        'renaming',
        async (asked, { position }) => {
          const lesson = await whole(asked, workspace);
          const renaming = renamingAt(lesson.analysis, lesson.offsetOf(position));
          if (!renaming) return null;
          if ('refused' in renaming) throw new ResponseError(ErrorCodes.InvalidRequest, renaming.refused);
          return { range: lesson.rangeOf(renaming.span), placeholder: renaming.named.name };
        },
        null,
      ),
    );
    connection.onRenameRequest(
      about<RenameParams, WorkspaceEdit | null>(
        'renaming',
        async (asked, { position, newName }) => {
          const lesson = await whole(asked, workspace);
          const renaming = renamingAt(lesson.analysis, lesson.offsetOf(position));
          if (!renaming) return null;
          if ('refused' in renaming) throw new ResponseError(ErrorCodes.InvalidRequest, renaming.refused);
          const everywhere = await occurrencesEverywhere(renaming.named, lesson, workspace);
          const refused = newNameRefused(
            renaming.named,
            newName,
            everywhere.map((one) => one.lesson.analysis),
          );
          if (refused && newName !== renaming.named.name) throw new ResponseError(ErrorCodes.InvalidParams, refused);
          const edits = everywhere.map(({ lesson: there, occurrences }) => ({
            lesson: there,
            edits: occurrences.map(({ span }) => ({ span, text: newName })),
          }));
          return workspaceEdit(edits, client());
        },
        null,
      ),
    );
  },
};

/** The lesson with every file that it speaks of at hand. */
const whole = async (lesson: OpenLesson, workspace: Workspace): Promise<OpenLesson> =>
  (await workspace.lessonAt(lesson.document.uri)) ?? lesson;
