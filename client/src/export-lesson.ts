/** Writes a lesson as a file of another kind, where the author chooses; through the editor, so on any machine and in a browser. */
import { commands, ProgressLocation, Uri, window, workspace, type QuickPickItem } from 'vscode';
import {
  EXPORT_FORMATS,
  EXPORT_LESSON,
  SUMMARISE,
  type ExportLesson,
  type LessonExported,
  type LessonSummary,
} from '../../server/src/protocol.ts';
import type { LessonServer } from './lesson-server.ts';

type Format = (typeof EXPORT_FORMATS)[number];

const OPEN = 'Open';
const NO_ANSWER = 'Nothing was written: the language server does not answer.';

export async function exportLesson(server: LessonServer, lesson: Uri): Promise<void> {
  // From a list of files a lesson may be chosen that is not open; the server knows open ones alone.
  await workspace.openTextDocument(lesson);
  const format = await chooseFormat();
  if (!format) return;
  const textDocument = { uri: `${lesson}` };
  const summary = await server.ask<LessonSummary>(SUMMARISE, { textDocument });
  const variant = summary && summary.variants.length > 0 ? await chooseVariant(summary) : { name: undefined };
  if (!variant) return;
  const file = await window.showSaveDialog({
    title: `Export as ${format.title}`,
    filters: { [format.title]: [format.ending] },
    defaultUri: besides(lesson, summary?.title ?? '', variant.name, format.ending),
  });
  if (!file) return;
  const question: ExportLesson = {
    textDocument,
    to: format.format,
    ...(variant.name !== undefined && { variant: variant.name }),
  };
  await write(server, question, file);
}

async function write(server: LessonServer, question: ExportLesson, file: Uri): Promise<void> {
  const answer = await window.withProgress(
    // A sound takes some seconds, and may be called back; the rest is there at once.
    question.to === 'wav'
      ? { location: ProgressLocation.Notification, title: `Writing ${nameOf(file)}`, cancellable: true }
      : { location: ProgressLocation.Window, title: `Writing ${nameOf(file)}` },
    async (_, token) => {
      const exported = await server.ask<LessonExported>(EXPORT_LESSON, question, token);
      return token.isCancellationRequested ? 'called back' : exported;
    },
  );
  if (answer === 'called back') return;
  const bytes = answer && bytesOf(answer);
  if (!bytes) {
    void window.showWarningMessage(answer?.says ?? NO_ANSWER);
    return;
  }
  try {
    await workspace.fs.writeFile(file, bytes);
  } catch (failure) {
    void window.showErrorMessage(`${nameOf(file)} could not be written: ${String(failure)}`);
    return;
  }
  const tell = answer.says === undefined ? window.showInformationMessage : window.showWarningMessage;
  const written = `Written: ${nameOf(file)}.${answer.says === undefined ? '' : ` ${answer.says}`}`;
  if ((await tell(written, OPEN)) === OPEN) await commands.executeCommand('vscode.open', file);
}

async function chooseFormat(): Promise<Format | undefined> {
  const items = EXPORT_FORMATS.map((format): QuickPickItem & { readonly format: Format } => ({
    label: format.title,
    description: `.${format.ending}`,
    detail: format.says,
    format,
  }));
  const chosen = await window.showQuickPick(items, { title: 'Export Lesson', placeHolder: 'As what?' });
  return chosen?.format;
}

async function chooseVariant({ title, variants }: LessonSummary): Promise<{ name: string | undefined } | undefined> {
  const items = [
    { label: title === '' ? 'The lesson' : title, description: 'the lesson itself', name: undefined },
    ...variants.map((variant) => ({
      label: variant.title,
      description: `variant ${variant.name}`,
      name: variant.name,
    })),
  ];
  return window.showQuickPick(items, { title: 'Export Lesson', placeHolder: 'The lesson, or a variant?' });
}

/** Beside the lesson, under its name; for one that is not saved yet, under its title in the first folder that is open. */
function besides(lesson: Uri, title: string, variant: string | undefined, ending: string): Uri | undefined {
  const tail = `${variant === undefined ? '' : `-${variant}`}.${ending}`;
  if (lesson.scheme !== 'untitled') return lesson.with({ path: `${lesson.path.replace(/\.lesson$/, '')}${tail}` });
  const folder = workspace.workspaceFolders?.[0]?.uri;
  const name = title
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{N}]+/gu, '-')
    .replaceAll(/^-+|-+$/g, '');
  return folder && Uri.joinPath(folder, `${name === '' ? 'lesson' : name}${tail}`);
}

function bytesOf({ text, parts }: LessonExported): Uint8Array | undefined {
  if (text !== undefined) return new TextEncoder().encode(text);
  if (!parts) return undefined;
  const blocks = parts.map((part) => Uint8Array.from(atob(part), (sign) => sign.charCodeAt(0)));
  const bytes = new Uint8Array(blocks.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const block of blocks) {
    bytes.set(block, at);
    at += block.length;
  }
  return bytes;
}

const nameOf = ({ path }: Uri): string => path.slice(path.lastIndexOf('/') + 1);
