/** Watching a lesson: again after every way of saving, and a clean end. */
import assert from 'node:assert/strict';
import type { ChildProcessWithoutNullStreams } from 'node:child_process';
import { existsSync, renameSync, unlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { run, start, withFiles } from '../support/program.ts';

const titled = (title: string): string => `lesson "${title}"\nprogression p\n  G\nsection verse\n  progression p\n`;

/** Waits until the program has printed what is looked for; the test's own limit ends a wait that is in vain. */
function printed(child: ChildProcessWithoutNullStreams): (text: string) => Promise<void> {
  let all = '';
  const waiting: (() => void)[] = [];
  child.stdout.on('data', (chunk: Buffer) => {
    all += chunk.toString('utf8');
    for (const look of waiting) look();
  });
  return (text) =>
    new Promise((resolve) => {
      const look = (): void => {
        if (all.includes(text)) resolve();
      };
      waiting.push(look);
      look();
    });
}

describe('stringcourse watch', function () {
  this.timeout(60_000);

  before(() => {
    assert.ok(existsSync('dist/preview.js'), 'the page is not built: npm run build');
  });

  let child: ChildProcessWithoutNullStreams | undefined;
  // A test that waits in vain must not leave the program running.
  afterEach(() => child?.kill('SIGKILL'));

  it('shows the lesson again after it was saved in place, by renaming, and by deleting and writing', async () => {
    await withFiles({ 'a.lesson': titled('First') }, async (folder) => {
      const path = join(folder, 'a.lesson');
      child = start(['watch', path]);
      const seen = printed(child);
      const ended = new Promise<number | null>((resolve) => child!.once('exit', resolve));
      await seen('First\n');
      await seen('Live preview: http://127.0.0.1:');
      writeFileSync(path, titled('Second'));
      await seen('Second\n');
      writeFileSync(`${path}.new`, titled('Third'));
      renameSync(`${path}.new`, path);
      await seen('Third\n');
      unlinkSync(path);
      writeFileSync(path, titled('Fourth'));
      await seen('Fourth\n');
      child.kill('SIGINT');
      assert.equal(await ended, 0);
    });
  });

  it('shows the lesson again after a file that it uses was saved', async () => {
    const using = 'use p from "parts/rows.lesson"\nsection verse\n  progression p\n';
    await withFiles({ 'a.lesson': using, 'parts/rows.lesson': 'progression p\n  Gsus4\n' }, async (folder) => {
      child = start(['watch', join(folder, 'a.lesson')]);
      const seen = printed(child);
      await seen('Gsus4');
      await seen('Live preview: ');
      writeFileSync(join(folder, 'parts', 'rows.lesson'), 'progression p\n  Dsus2\n');
      await seen('Dsus2');
    });
  });

  it('shows it once and ends with --once', async () => {
    await withFiles({ 'a.lesson': titled('Only') }, (folder) => {
      const { status, out } = run(['watch', join(folder, 'a.lesson'), '--once']);
      assert.equal(status, 0);
      assert.match(out, /Only\n[^]*Live preview: http:/);
    });
  });
});
