/** Asking the client to ask again: many reasons at once are one message, sent when nothing else is left to do. */
import { LSPErrorCodes, ResponseError } from 'vscode-languageserver';
import type { Desk } from './desk.ts';
import type { OpenLesson } from './lessons.ts';
import type { Workspace } from './workspace.ts';

/** What is returned may be called as often as there is a reason; `send` is the client's own request to ask again. */
export function refresher({ idle }: Pick<Desk, 'idle'>, send: () => Promise<void>): () => void {
  let isAnnounced = false;
  return () => {
    if (isAnnounced) return;
    isAnnounced = true;
    void idle().then(() => {
      isAnnounced = false;
      // A client that is about to leave does not answer any more.
      send().catch(() => {});
    });
  };
}

/** The lesson with every file that it speaks of at hand. Fails where its text has changed meanwhile: the answer would be of another. */
export async function withFiles(lesson: OpenLesson, workspace: Workspace): Promise<OpenLesson> {
  const { uri, version } = lesson.document;
  const whole = (await workspace.lessonAt(uri)) ?? lesson;
  if (whole.document.version !== version)
    throw new ResponseError(LSPErrorCodes.ContentModified, 'the lesson has changed', { retriggerRequest: true });
  return whole;
}
