/** The extension on the desktop and on remote machines: the language server runs as a process of its own. */
import type { ExtensionContext } from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { LANGUAGE } from './lesson-documents.ts';
import { LessonServer } from './lesson-server.ts';
import { startClient } from './start.ts';

let server: LessonServer | undefined;

export function activate(context: ExtensionContext): void {
  const module = context.asAbsolutePath('dist/stringcourse-server.cjs');
  server = new LessonServer(
    (options) => new LanguageClient(LANGUAGE, 'Stringcourse', { module, transport: TransportKind.ipc }, options),
  );
  startClient(context, server);
}

/** The editor waits for what this returns before it ends the extension's host. */
export const deactivate = (): Promise<void> | undefined => server?.stop();
