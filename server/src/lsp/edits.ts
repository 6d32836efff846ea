/** Edits of lessons as the client takes them: with the versions that they are for, where it knows of such. */
import type { CreateFile, TextDocumentEdit, TextEdit, WorkspaceEdit } from 'vscode-languageserver';
import type { Edit } from '../util/finding.ts';
import type { Client } from './client.ts';
import type { OpenLesson } from './lessons.ts';

export interface EditsOfLesson {
  readonly lesson: OpenLesson;
  readonly edits: readonly Edit[];
}

export const textEdits = (edits: readonly Edit[], lesson: OpenLesson): TextEdit[] =>
  edits.map(({ span, text }) => ({ range: lesson.rangeOf(span), newText: text }));

/** A file that is made, and never in the place of another. */
export interface NewFile {
  readonly uri: string;
  readonly text: string;
}

/** The edits of a lesson, and a file that is made before them: only for clients that can make files. */
export function editWithFile(edits: EditsOfLesson, { uri, text }: NewFile, client: Client): WorkspaceEdit {
  const create: CreateFile = { kind: 'create', uri, options: { overwrite: false, ignoreIfExists: false } };
  const start = { line: 0, character: 0 };
  const write: TextDocumentEdit = {
    textDocument: { uri, version: null },
    edits: [{ range: { start, end: start }, newText: text }],
  };
  return { documentChanges: [create, write, ...(workspaceEdit([edits], client).documentChanges ?? [])] };
}

export function workspaceEdit(all: readonly EditsOfLesson[], { versionedEdits }: Client): WorkspaceEdit {
  if (!versionedEdits)
    return {
      changes: Object.fromEntries(all.map(({ lesson, edits }) => [lesson.document.uri, textEdits(edits, lesson)])),
    };
  const documentChanges = all.map(({ lesson, edits }): TextDocumentEdit => {
    const { uri, version } = lesson.document;
    // A lesson that is not open has no version: the client edits the file as it finds it.
    return { textDocument: { uri, version: version > 0 ? version : null }, edits: textEdits(edits, lesson) };
  });
  return { documentChanges };
}
