/** The extension in an editor that runs in a browser: the language server runs in a worker. */
import { Uri, workspace, type ExtensionContext } from 'vscode';
import { LanguageClient } from 'vscode-languageclient/browser';
import { LANGUAGE } from './lesson-documents.ts';
import { LessonServer } from './lesson-server.ts';
import { startClient } from './start.ts';

let server: LessonServer | undefined;
let worker: Worker | undefined;

export function activate(context: ExtensionContext): void {
  const script = Uri.joinPath(context.extensionUri, 'dist', 'server-worker.js');
  // A worker cannot be stopped and started again, so every start of the client asks for a new one.
  const newWorker = async (): Promise<Worker> => {
    endWorker();
    worker = await startWorker(script);
    return worker;
  };
  server = new LessonServer((options) => new LanguageClient(LANGUAGE, 'Stringcourse', newWorker, options));
  startClient(context, server);
}

export async function deactivate(): Promise<void> {
  await server?.stop();
  endWorker();
}

/** Through a blob: where the extension's files lie at another address, a browser refuses to start a worker from there. */
async function startWorker(script: Uri): Promise<Worker> {
  const source = await workspace.fs.readFile(script);
  const address = URL.createObjectURL(new Blob([new Uint8Array(source)], { type: 'text/javascript' }));
  try {
    return new Worker(address, { name: 'Stringcourse' });
  } finally {
    URL.revokeObjectURL(address);
  }
}

function endWorker(): void {
  worker?.terminate();
  worker = undefined;
}
