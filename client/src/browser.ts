/** The extension in an editor that runs in a browser: the language server runs in a worker. */
import { Uri, workspace, type ExtensionContext } from 'vscode';
import {
  BrowserMessageReader,
  BrowserMessageWriter,
  LanguageClient,
  type MessageTransports,
} from 'vscode-languageclient/browser';
import { LANGUAGE } from './lesson-documents.ts';
import { LessonServer } from './lesson-server.ts';
import { startClient } from './start.ts';

let server: LessonServer | undefined;
let endWorker = (): void => {};

export function activate(context: ExtensionContext): void {
  const script = Uri.joinPath(context.extensionUri, 'dist', 'server-worker.js');
  // A worker cannot be stopped and started again, so every start of the client asks for a new one.
  const connect = async (): Promise<MessageTransports> => {
    endWorker();
    const worker = await startWorker(script);
    return { reader: new BrowserMessageReader(worker), writer: new BrowserMessageWriter(worker) };
  };
  server = new LessonServer((options) => new LanguageClient(LANGUAGE, 'Stringcourse', connect, options));
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
  const worker = new Worker(address, { name: 'Stringcourse' });
  endWorker = () => {
    worker.terminate();
    // Not before: an editor may load the address some time after the worker was asked for.
    URL.revokeObjectURL(address);
    endWorker = () => {};
  };
  return worker;
}
