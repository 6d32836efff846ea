/** The lesson that a command is about. */
import { Uri, window, workspace } from 'vscode';
import { isLesson } from './lesson-documents.ts';
import type { PreviewPanels } from './preview/preview-panels.ts';

/**
 * From a menu a command is told which lesson; from the keyboard it is the one whose text or preview has the focus, or else one that
 * is seen: beside the page of a walkthrough, say.
 */
export function lessonAtHand(previews: PreviewPanels, chosen: unknown): Uri | undefined {
  if (chosen instanceof Uri) return chosen;
  const active = window.activeTextEditor?.document;
  const seen = active ? [active] : window.visibleTextEditors.map(({ document }) => document);
  const uri = previews.active ?? [...seen, ...workspace.textDocuments].find(isLesson)?.uri;
  if (!uri) void window.showInformationMessage('Open a lesson first, a file that ends in .lesson.');
  return uri;
}
