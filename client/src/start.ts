/** What both kinds of host do when the extension wakes: commands and panels at once, the server behind them. */
import type { ExtensionContext } from 'vscode';
import { registerCommands } from './commands.ts';
import type { LessonServer } from './lesson-server.ts';
import { LessonStatus } from './lesson-status.ts';
import { PreviewPanels } from './preview/preview-panels.ts';
import { serverStatus } from './server-status.ts';
import { welcomeView } from './welcome-view.ts';

export function startClient(context: ExtensionContext, server: LessonServer): void {
  const previews = new PreviewPanels(context.extensionUri, server, context.workspaceState);
  context.subscriptions.push(
    server,
    previews,
    ...registerCommands(context.extensionUri, server, previews),
    ...serverStatus(server),
    new LessonStatus(server),
    ...welcomeView(),
  );
  // Not waited for: a panel that is restored, or a command, must not stand still until the server is up.
  void server.start();
}
