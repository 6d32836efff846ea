/** Takes a lesson to another key: a list of the keys, each with what the open strings win and lose there as soon as that is known. */
import { CancellationTokenSource, window, workspace, type QuickPickItem, type Uri } from 'vscode';
import { COLOURS_OF_KEY, LIST_KEYS, type AboutKey, type KeyChoices } from '../../server/src/protocol.ts';
import type { LessonServer } from './lesson-server.ts';

interface KeyItem extends QuickPickItem {
  readonly choice: number;
}

/** A line of its own from the start, so that the list does not grow under the mouse. */
const WORKING = '…';

export async function transposeLesson(server: LessonServer, lesson: Uri): Promise<void> {
  await workspace.openTextDocument(lesson);
  const textDocument = { uri: `${lesson}` };
  const keys = await server.ask<KeyChoices>(LIST_KEYS, { textDocument });
  if (!keys || keys.choices.length === 0) {
    void window.showInformationMessage('There is no other key to take this lesson to: it has no music yet.');
    return;
  }
  const { version } = keys;
  const choice = await chooseKey(server, textDocument, keys);
  if (choice === undefined) return;
  const { isWritten, says } = await server.takeToKey({ textDocument, version, choice });
  if (!isWritten) void window.showWarningMessage(says);
}

async function chooseKey(
  server: LessonServer,
  textDocument: AboutKey['textDocument'],
  { version, choices }: KeyChoices,
): Promise<number | undefined> {
  const pick = window.createQuickPick<KeyItem>();
  const closing = new CancellationTokenSource();
  pick.title = 'Transpose Lesson';
  pick.placeholder = 'To which key? Below each, what the open strings win and lose';
  pick.matchOnDetail = true;
  pick.keepScrollPosition = true;
  pick.busy = true;
  const items = choices.map(({ title }, choice): KeyItem => ({ label: title, detail: WORKING, choice }));
  pick.items = items;
  const chosen = new Promise<number | undefined>((done) => {
    pick.onDidAccept(() => {
      done(pick.selectedItems[0]?.choice);
      pick.hide();
    });
    pick.onDidHide(() => {
      done(undefined);
      closing.cancel();
      pick.dispose();
    });
  });
  pick.show();
  const { token } = closing;
  void (async () => {
    for (const { choice } of items) {
      if (token.isCancellationRequested) return;
      const detail = await server.ask<string>(COLOURS_OF_KEY, { textDocument, version, choice }, token);
      if (token.isCancellationRequested) return;
      items[choice] = { ...items[choice], detail: detail ?? '' };
      const active = pick.activeItems[0]?.choice;
      pick.items = items;
      pick.activeItems = items.filter((item) => item.choice === active);
    }
    pick.busy = false;
  })();
  return chosen;
}
