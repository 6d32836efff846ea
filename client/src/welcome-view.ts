/** The view that leads to samples in a folder without lessons. What it says is in package.json; here it is told when to be there. */
import { commands, window, workspace, type Disposable, type TreeDataProvider } from 'vscode';
import { LESSONS } from './lesson-documents.ts';

const VIEW = 'stringcourse.welcome';
/** In the conditions of package.json. */
const HAS_LESSONS = 'stringcourse.hasLessons';

/** An empty list: the editor then shows what there is to do instead. */
const NOTHING: TreeDataProvider<never> = {
  getChildren: () => [],
  getTreeItem: (never) => never,
};

export function welcomeView(): Disposable[] {
  const look = async (): Promise<void> => {
    const [found] = await workspace.findFiles(LESSONS, undefined, 1);
    await commands.executeCommand('setContext', HAS_LESSONS, found !== undefined);
  };
  const watcher = workspace.createFileSystemWatcher(LESSONS, false, true, false);
  void look();
  return [
    window.registerTreeDataProvider(VIEW, NOTHING),
    watcher,
    watcher.onDidCreate(look),
    watcher.onDidDelete(look),
    workspace.onDidChangeWorkspaceFolders(look),
  ];
}
