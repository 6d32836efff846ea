#!/usr/bin/env node
/** Starts the language server in Node: over standard input and output, a socket, a pipe or the parent's own channel. */
import { readdir, readFile, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { createConnection } from 'vscode-languageserver/node';
import type { Disk } from './disk.ts';
import { encoded } from './library-files.ts';
import { serve } from './server.ts';

/** What is larger is no lesson. In bytes. */
const LARGEST_FILE = 8_000_000;
/** A folder with more entries below it is no library of lessons. */
const MOST_ENTRIES = 200_000;

/** Of files on this machine; of other addresses nothing is known here. */
const disk: Disk = {
  async read(uri) {
    if (!uri.startsWith('file:')) return null;
    const path = fileURLToPath(uri);
    const { size } = await stat(path);
    return size > LARGEST_FILE ? null : readFile(path, 'utf8');
  },
  async list(folders) {
    const found: string[] = [];
    let entries = 0;
    const waiting = folders.filter((uri) => uri.startsWith('file:')).map((uri) => fileURLToPath(encoded(uri)));
    for (let folder = waiting.pop(); folder !== undefined && entries < MOST_ENTRIES; folder = waiting.pop()) {
      for (const entry of await readdir(folder, { withFileTypes: true }).catch(() => [])) {
        entries++;
        if (entry.name.startsWith('.') || entry.name === 'node_modules') continue;
        if (entry.isDirectory()) waiting.push(join(folder, entry.name));
        else if (entry.isFile() && entry.name.endsWith('.lesson'))
          found.push(pathToFileURL(join(folder, entry.name)).href);
      }
    }
    return found;
  },
};

const CHANNELS = ['--stdio', '--node-ipc', '--socket', '--pipe'];

const isChannel = (argument: string): boolean =>
  CHANNELS.some((channel) => argument === channel || argument.startsWith(`${channel}=`));

if (process.argv.slice(2).some(isChannel)) {
  serve(createConnection(), (callback) => setImmediate(callback), disk);
} else {
  process.stderr.write(
    'Stringcourse’s language server is started by an editor: stringcourse-server --stdio, --node-ipc, --socket=PORT or --pipe=NAME.\n',
  );
  process.exitCode = 2;
}
