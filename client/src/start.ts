/** What both kinds of host do when the extension wakes: commands and panels at once, the server behind them. */
import type { ExtensionContext } from 'vscode';
import { registerCommands } from './commands.ts';
import type { LessonServer } from './lesson-server.ts';
import { PreviewPanels } from './preview/preview-panels.ts';

export function startClient(context: ExtensionContext, server: LessonServer): void {
  const previews = new PreviewPanels(context.extensionUri, server, context.workspaceState);
  context.subscriptions.push(server, previews, ...registerCommands(context.extensionUri, server, previews));
  // Not waited for: a panel that is restored, or a command, must not stand still until the server is up.
  void server.start();
}
