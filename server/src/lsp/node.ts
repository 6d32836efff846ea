/** Starts the language server in Node: over standard input and output, a socket, a pipe or the parent's own channel. */
import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { createConnection } from 'vscode-languageserver/node';
import type { FetchFile } from './library-files.ts';
import { serve } from './server.ts';

/** Of files on this machine; of other addresses nothing is known here. */
const fetchFile: FetchFile = async (uri) => (uri.startsWith('file:') ? readFile(fileURLToPath(uri), 'utf8') : null);

const CHANNELS = ['--stdio', '--node-ipc', '--socket', '--pipe'];

const isChannel = (argument: string): boolean =>
  CHANNELS.some((channel) => argument === channel || argument.startsWith(`${channel}=`));

if (process.argv.slice(2).some(isChannel)) {
  serve(createConnection(), (callback) => setImmediate(callback), fetchFile);
} else {
  process.stderr.write(
    'Stringcourse’s language server is started by an editor: stringcourse-server --stdio, --node-ipc, --socket=PORT or --pipe=NAME.\n',
  );
  process.exitCode = 2;
}
