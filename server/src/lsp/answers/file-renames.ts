/** Answers what has to be written anew when files or folders get another name, and takes note once they have it. */
import {
  FileOperationPatternKind,
  type FileOperationRegistrationOptions,
  type FileRename,
  type RenameFilesParams,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import { carriedPaths, movedBy } from '../../features/file-renames.ts';
import type { Answer } from '../desk.ts';
import { workspaceEdit } from '../edits.ts';
import { known } from '../library-files.ts';

const FILES: FileOperationRegistrationOptions = {
  filters: [
    { pattern: { glob: '**/*.lesson', matches: FileOperationPatternKind.file } },
    { pattern: { glob: '**/*', matches: FileOperationPatternKind.folder } },
  ],
};

export const fileRenames: Answer = {
  offers: ({ asksBeforeRename, tellsOfRename }) => ({
    ...((asksBeforeRename || tellsOfRename) && {
      workspace: {
        fileOperations: { ...(asksBeforeRename && { willRename: FILES }), ...(tellsOfRename && { didRename: FILES }) },
      },
    }),
  }),
  listen({ connection, across, client, workspace, files }) {
    connection.workspace.onWillRenameFiles(
      across<RenameFilesParams, WorkspaceEdit | null>(
        'renaming of files',
        async ({ files: renamed }, token) => {
          const moved = movedBy(renamed.map(addresses));
          const lessons = await workspace.everyText(() => token.isCancellationRequested);
          const edits = lessons.flatMap((lesson) => {
            const placed = files.locate(lesson.document.uri);
            const carried = placed ? carriedPaths({ ...placed, document: lesson.analysis.document }, moved) : [];
            return carried.length > 0 ? { lesson, edits: carried } : [];
          });
          return edits.length > 0 ? workspaceEdit(edits, client()) : null;
        },
        null,
      ),
    );
    connection.workspace.onDidRenameFiles(async ({ files: renamed }) => {
      // Of a folder that was moved, a client that watches files does not tell what is in it.
      const all = renamed.flatMap(({ oldUri, newUri }) => [oldUri, newUri]);
      await Promise.all(all.map((uri) => files.reread(uri)));
      workspace.listChanged();
    });
  },
};

const addresses = ({ oldUri, newUri }: FileRename): { readonly from: string; readonly to: string } => ({
  from: known(oldUri).replace(/\/$/, ''),
  to: known(newUri).replace(/\/$/, ''),
});
