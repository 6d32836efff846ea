/**
 * Typing ten keys a second in an open lesson of five hundred lines, its preview open: from the key to the picture of that very
 * version, through the server in a process of its own. Prints what it took; nothing fails by a timing. `npm run bench`.
 */
import { spawn } from 'node:child_process';
import { setTimeout as sleep } from 'node:timers/promises';
import { createProtocolConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver/node';
import { PREVIEW_UPDATED, WATCH_PREVIEW, type PreviewUpdate } from '../../server/src/protocol.ts';
import { evening } from './lessons.ts';

const SERVER = 'dist/stringcourse-server.cjs';
const PARTS = 20;
const KEYS_EVERY = 100;
const WIDTH = 800;
const URI = 'file:///long.lesson';

/** What is typed behind a line: into a progression, which adds bars, and into a cell, which changes all bars of its section. */
const TYPED: readonly (readonly [string, string, number, string])[] = [
  ['chords', 'progression row-3', 4, ' | G | Am7 | C | D | Em | G | Am | D'],
  ['a cell', 'cell hand-5', 2, ' p4 i3 m2 i3 a1 i3 m2 i3 p4 i3 m2'],
  ['prose', '  ## Part 9', 1, ' Count aloud, and keep it even.'],
];

const text = evening(PARTS);
const lines = text.split('\n');
const child = spawn(process.execPath, [SERVER, '--stdio'], { stdio: ['pipe', 'pipe', 'ignore'] });
const connection = createProtocolConnection(
  new StreamMessageReader(child.stdout),
  new StreamMessageWriter(child.stdin),
);
const drawn = new Map<number, number>();
connection.onNotification(PREVIEW_UPDATED, ({ version }: PreviewUpdate) => void drawn.set(version, performance.now()));
connection.listen();
await connection.sendRequest('initialize', { processId: process.pid, rootUri: null, capabilities: {} });
await connection.sendNotification('initialized', {});
await connection.sendNotification('textDocument/didOpen', {
  textDocument: { uri: URI, languageId: 'stringcourse', version: 1, text },
});
await connection.sendRequest(WATCH_PREVIEW, { uri: URI, width: WIDTH });

/** When the picture of this version, or of a newer one, came; waits for it. */
async function pictureOf(version: number): Promise<number> {
  for (;;) {
    const later = [...drawn].filter(([shown]) => shown >= version).map(([, at]) => at);
    if (later.length > 0) return Math.min(...later);
    await sleep(2);
  }
}

console.log(
  `\nten keys a second, ${lines.length} lines: from the key to its picture, in the middle and at the most, the last`,
);
let version = 1;
for (const [what, statement, below, typed] of TYPED) {
  const line = lines.indexOf(statement) + below;
  const keys = [...typed];
  const pressed: number[] = [];
  const start = performance.now();
  for (const [index, key] of keys.entries()) {
    await sleep(Math.max(0, start + index * KEYS_EVERY - performance.now()));
    const at = { line, character: lines[line].length };
    lines[line] += key;
    pressed.push(performance.now());
    await connection.sendNotification('textDocument/didChange', {
      textDocument: { uri: URI, version: ++version },
      contentChanges: [{ range: { start: at, end: at }, text: key }],
    });
  }
  const first = version - keys.length + 1;
  const waits = await Promise.all(pressed.map(async (at, index) => (await pictureOf(first + index)) - at));
  const sorted = [...waits].sort((a, b) => a - b);
  const shown = [sorted[sorted.length >> 1], sorted[sorted.length - 1], waits[waits.length - 1]];
  console.log(`  ${what.padEnd(22)}${shown.map((wait) => `${wait.toFixed(0).padStart(8)} ms`).join('')}`);
}
connection.dispose();
child.kill();
