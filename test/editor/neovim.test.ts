import assert from 'node:assert/strict';
import { execFile, execFileSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { test } from 'node:test';
import { promisify } from 'node:util';
import { BARS, lineOf, SAMPLE, SAMPLE_FILE, TONES } from './sample.ts';

interface Found {
  readonly line: number;
  readonly column: number;
  readonly code: string;
  readonly source: string;
}

interface Seen {
  readonly broken: readonly Found[];
  readonly hover: string;
  readonly actions: readonly string[];
  readonly fixed: string;
  readonly offered: readonly string[];
  /** The whole text. */
  readonly renamed: string;
  readonly formatted: string;
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
  'Neovim: findings, an edit, a hover, a fix, completion, a new name, one layout, a clean end',
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
      TUNING: `${lineOf('tuning') - 1}`,
      SHAPE: `${lineOf('shape lamp') - 1}`,
    };
    const running = promisify(execFile)('nvim', command, { timeout: 40_000, env });
    running.child.stdin?.end();
    const seen = JSON.parse((await running).stdout) as Seen;
    assert.deepEqual(
      seen.broken.map(({ line, column, code, source }) => ({ line, column, code, source })),
      [{ line: TONES - 1, column: 12, code: 'unknown-tone', source: 'stringcourse' }],
    );
    assert.match(seen.hover, /Dadd11/);
    assert.ok(seen.actions.length > 0);
    assert.match(seen.fixed, /^ {2}tones 3 R (?!8)\S+$/);
    for (const tuning of ['standard', 'dadgad', 'drop-d']) assert.ok(seen.offered.includes(tuning), tuning);
    const lamps = (text: string): number => text.split(/\blamp\b/).length - 1;
    const beacons = seen.renamed.split(/\bbeacon\b/).length - 1;
    assert.equal(lamps(seen.renamed), 0);
    assert.equal(beacons, lamps(readFileSync(SAMPLE_FILE, 'utf8')));
    assert.equal(seen.formatted, 'tuning standard');
    assert.deepEqual(seen.exit, { code: 0, signal: 0 });
  },
);
