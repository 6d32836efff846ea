/** Starts the language server in Node: over standard input and output, a socket, a pipe or the parent's own channel. */
import { createConnection } from 'vscode-languageserver/node';
import { serve } from './server.ts';

const CHANNELS = ['--stdio', '--node-ipc', '--socket', '--pipe'];

const isChannel = (argument: string): boolean =>
  CHANNELS.some((channel) => argument === channel || argument.startsWith(`${channel}=`));

if (process.argv.slice(2).some(isChannel)) {
  serve(createConnection(), (callback) => setImmediate(callback));
} else {
  process.stderr.write(
    'Stringcourse’s language server is started by an editor: stringcourse-server --stdio, --node-ipc, --socket=PORT or --pipe=NAME.\n',
  );
  process.exitCode = 2;
}
