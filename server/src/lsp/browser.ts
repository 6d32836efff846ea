/** Starts the language server in a browser's worker. */
import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser';
import { serve } from './server.ts';

/** A message to oneself comes back behind those that wait already; a timer would be held up by the browser. */
const { port1, port2 } = new MessageChannel();
const waiting: (() => void)[] = [];
port1.onmessage = () => waiting.shift()?.();

const scope = self as unknown as DedicatedWorkerGlobalScope;
serve(createConnection(new BrowserMessageReader(scope), new BrowserMessageWriter(scope)), (callback) => {
  waiting.push(callback);
  port2.postMessage(undefined);
});
