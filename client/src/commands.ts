/** The commands that the extension adds to the editor. */
import { commands, Uri, ViewColumn, window, workspace, type Disposable } from 'vscode';
import { isLesson, LANGUAGE } from './lesson-documents.ts';
import type { LessonServer } from './lesson-server.ts';
import type { PreviewPanels } from './preview/preview-panels.ts';
import { FIRST_LESSON } from './first-lesson.ts';

export function registerCommands(extension: Uri, server: LessonServer, previews: PreviewPanels): Disposable[] {
  return [
    commands.registerCommand('stringcourse.openPreview', (chosen?: unknown) => openPreview(previews, chosen)),
    commands.registerCommand('stringcourse.newLesson', newLesson),
    commands.registerCommand('stringcourse.openSample', () => openSample(extension, previews)),
    commands.registerCommand('stringcourse.restartServer', () => server.restart()),
  ];
}

/** From a title bar or a list of files the command is told which one; from the keyboard it is the lesson at hand. */
function openPreview(previews: PreviewPanels, chosen: unknown): void {
  const active = window.activeTextEditor?.document;
  const uri = chosen instanceof Uri ? chosen : active && isLesson(active) ? active.uri : undefined;
  if (uri) previews.open(uri);
  else
    void window.showInformationMessage('Open a lesson first, a file that ends in .lesson: there is none to preview.');
}

async function newLesson(): Promise<void> {
  const document = await workspace.openTextDocument({ language: LANGUAGE, content: FIRST_LESSON });
  await window.showTextDocument(document);
}

/** A copy, untitled, so that the sample itself stays as it came. */
async function openSample(extension: Uri, previews: PreviewPanels): Promise<void> {
  const file = Uri.joinPath(extension, 'samples', 'harbour-lamps.lesson');
  const content = new TextDecoder().decode(await workspace.fs.readFile(file));
  const document = await workspace.openTextDocument({ language: LANGUAGE, content });
  await window.showTextDocument(document, ViewColumn.One);
  previews.open(document.uri);
}
