/** Runs the built program as a user's terminal does. */
import assert from 'node:assert/strict';
import { spawn, spawnSync } from 'node:child_process';
import type { ChildProcessWithoutNullStreams } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { WrongUse } from '../../server/src/cli/wrong-use.ts';

const PROGRAM = resolve('dist/stringcourse.cjs');

export interface Ended {
  readonly status: number | null;
  readonly out: string;
  readonly told: string;
}

/** Runs to the end. `input` goes to standard input. */
export function run(args: readonly string[], more: { readonly input?: string; readonly cwd?: string } = {}): Ended {
  assert.ok(existsSync(PROGRAM), 'dist/stringcourse.cjs is missing: npm run build');
  const { status, stdout, stderr } = spawnSync(process.execPath, [PROGRAM, ...args], {
    input: more.input ?? '',
    cwd: more.cwd,
    encoding: 'utf8',
  });
  return { status, out: stdout, told: stderr };
}

/** What a command of the program says where it cannot do what is asked, without a process of its own: the words that it ends with 2 on. */
export async function refusalOf(command: () => number | Promise<number>): Promise<string> {
  try {
    await command();
  } catch (problem) {
    if (problem instanceof WrongUse) return problem.message;
    throw problem;
  }
  assert.fail('nothing was refused');
}

export const start = (args: readonly string[]): ChildProcessWithoutNullStreams =>
  spawn(process.execPath, [PROGRAM, ...args]);

/** A folder of its own with these files, gone when `use` is through. */
export async function withFiles<T>(
  files: Readonly<Record<string, string>>,
  use: (folder: string) => T | Promise<T>,
): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'stringcourse-'));
  try {
    for (const [name, content] of Object.entries(files)) {
      mkdirSync(dirname(join(folder, name)), { recursive: true });
      writeFileSync(join(folder, name), content);
    }
    return await use(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
