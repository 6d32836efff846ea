/** The commands that the extension adds to the editor. */
import { commands, Location, Position, Range, Uri, ViewColumn, window, workspace, type Disposable } from 'vscode';
import type { Location as LspLocation, Position as LspPosition } from 'vscode-languageclient';
import type { SectionPlace } from '../../server/src/protocol.ts';
import { isLesson, LANGUAGE } from './lesson-documents.ts';
import type { LessonServer } from './lesson-server.ts';
import type { PreviewPanels } from './preview/preview-panels.ts';
import { FIRST_LESSON } from './first-lesson.ts';

export function registerCommands(extension: Uri, server: LessonServer, previews: PreviewPanels): Disposable[] {
  return [
    commands.registerCommand('stringcourse.openPreview', (chosen?: unknown) => openPreview(previews, chosen)),
    commands.registerCommand('stringcourse.showReferences', showReferences),
    commands.registerCommand('stringcourse.newLesson', newLesson),
    commands.registerCommand('stringcourse.openSample', () => openSample(extension, previews)),
    commands.registerCommand('stringcourse.restartServer', () => server.restart()),
  ];
}

/**
 * From a title bar or a list of files the command is told which one, from above a section which section; from the keyboard it is
 * the lesson at hand.
 */
function openPreview(previews: PreviewPanels, chosen: unknown): void {
  if (isSection(chosen)) {
    previews.open(Uri.parse(chosen.uri), chosen);
    return;
  }
  const active = window.activeTextEditor?.document;
  const uri = chosen instanceof Uri ? chosen : active && isLesson(active) ? active.uri : undefined;
  if (uri) previews.open(uri);
  else
    void window.showInformationMessage('Open a lesson first, a file that ends in .lesson: there is none to preview.');
}

const isSection = (chosen: unknown): chosen is SectionPlace =>
  typeof (chosen as SectionPlace | undefined)?.uri === 'string' && !(chosen instanceof Uri);

/** The places of a name, in the editor's own view of references. */
async function showReferences(uri: string, position: LspPosition, places: readonly LspLocation[]): Promise<void> {
  const at = ({ line, character }: LspPosition): Position => new Position(line, character);
  const locations = places.map(
    ({ uri: file, range: { start, end } }) => new Location(Uri.parse(file), new Range(at(start), at(end))),
  );
  await commands.executeCommand('editor.action.showReferences', Uri.parse(uri), at(position), locations);
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
