/** Opens samples to look at, and lessons to write: empty ones, or begun from a sample. Always copies, so that a sample stays as it came. */
import { Uri, ViewColumn, window, workspace, type QuickPickItem, type TextDocument } from 'vscode';
import { FIRST_LESSON } from './first-lesson.ts';
import { begun } from './lesson-beginnings.ts';
import { LANGUAGE } from './lesson-documents.ts';
import type { PreviewPanels } from './preview/preview-panels.ts';
import { SAMPLES, type Sample } from './samples.ts';

export const newLesson = (): Promise<TextDocument> => openUntitled(FIRST_LESSON);

/** `chosen` is the name of a sample's file, where a link says which. */
export async function openSample(extension: Uri, previews: PreviewPanels, chosen: unknown): Promise<void> {
  const sample = SAMPLES.find(({ file }) => file === chosen) ?? (await choose('Open a Sample Lesson'));
  if (!sample) return;
  const document = await openUntitled(await read(extension, sample));
  previews.open(document.uri);
}

export async function newLessonFromSample(extension: Uri): Promise<void> {
  const sample = await choose('New Lesson from a Sample');
  if (sample) await openUntitled(begun(await read(extension, sample)));
}

async function choose(title: string): Promise<Sample | undefined> {
  const items = SAMPLES.map((sample): QuickPickItem & { readonly sample: Sample } => ({
    label: sample.title,
    description: `level ${sample.level}`,
    detail: sample.teaches,
    sample,
  }));
  const placeHolder = 'What should it teach?';
  const item = await window.showQuickPick(items, { title, placeHolder, matchOnDescription: true, matchOnDetail: true });
  return item?.sample;
}

const read = async (extension: Uri, { file }: Sample): Promise<string> =>
  new TextDecoder().decode(await workspace.fs.readFile(Uri.joinPath(extension, 'samples', file)));

async function openUntitled(content: string): Promise<TextDocument> {
  const document = await workspace.openTextDocument({ language: LANGUAGE, content });
  await window.showTextDocument(document, ViewColumn.One);
  return document;
}
