import assert from 'node:assert/strict';
import { execFile, execFileSync } from 'node:child_process';
import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { test } from 'node:test';
import { promisify } from 'node:util';
import { BARS, SAMPLE, SAMPLE_FILE, TONES } from './sample.ts';

interface Found {
  readonly line: number;
  readonly column: number;
  readonly code: string;
  readonly source: string;
}

interface Seen {
  readonly broken: readonly Found[];
  readonly hover: string;
  readonly exit: { readonly code: number; readonly signal: number };
}

function isInstalled(): boolean {
  try {
    execFileSync('nvim', ['--version'], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
}

const missing = isInstalled() ? false : 'Neovim is not installed: test/editor/install-editor.sh does it';

test(
  'Neovim: findings, an edit, a hover, a clean end',
  { timeout: 60_000, skip: process.env.CI ? false : missing },
  async (context) => {
    const home = mkdtempSync(join(tmpdir(), 'stringcourse-neovim-'));
    context.after(() => rmSync(home, { recursive: true, force: true }));
    const lesson = join(home, SAMPLE);
    cpSync(SAMPLE_FILE, lesson);
    const command = ['--headless', '--clean', '-n', '-c', `luafile ${resolve('test/editor/neovim.lua')}`];
    const env = {
      ...process.env,
      HOME: home,
      XDG_CACHE_HOME: join(home, 'cache'),
      XDG_STATE_HOME: join(home, 'state'),
      NODE: process.execPath,
      SERVER: resolve('dist/stringcourse-server.cjs'),
      LESSON: lesson,
      TONES: `${TONES - 1}`,
      BARS: `${BARS - 1}`,
    };
    const running = promisify(execFile)('nvim', command, { timeout: 40_000, env });
    running.child.stdin?.end();
    const seen = JSON.parse((await running).stdout) as Seen;
    assert.deepEqual(
      seen.broken.map(({ line, column, code, source }) => ({ line, column, code, source })),
      [{ line: TONES - 1, column: 12, code: 'unknown-tone', source: 'stringcourse' }],
    );
    assert.match(seen.hover, /Dadd11/);
    assert.deepEqual(seen.exit, { code: 0, signal: 0 });
  },
);
