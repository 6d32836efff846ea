/** Which documents are lessons, and where they are shown. */
import { TabInputText, ViewColumn, window, type TextDocument, type TextEditor, type Uri } from 'vscode';

/** The language's id, in the editor and for every client of the language server. */
export const LANGUAGE = 'stringcourse';

/** Every lesson of the workspace; what the editor itself leaves out of its searches is left out here too. */
export const LESSONS = '**/*.lesson';

export const isLesson = (document: TextDocument): boolean => document.languageId === LANGUAGE;

/** The editor in which a lesson is seen; where there are several, the one with the focus. */
export function editorOf(uri: Uri): TextEditor | undefined {
  const shows = (editor: TextEditor): boolean => `${editor.document.uri}` === `${uri}`;
  const active = window.activeTextEditor;
  return active && shows(active) ? active : window.visibleTextEditors.find(shows);
}

/** The column in which a lesson is seen, or else lies in a tab behind others; the first where it is not open. */
export function columnOf(uri: Uri): ViewColumn {
  const column = editorOf(uri)?.viewColumn;
  if (column !== undefined) return column;
  const holds = window.tabGroups.all.find((group) =>
    group.tabs.some(({ input }) => input instanceof TabInputText && `${input.uri}` === `${uri}`),
  );
  return holds?.viewColumn ?? ViewColumn.One;
}
