/** `stringcourse transpose` as a user meets it. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { transpose } from '../../server/src/cli/transpose.ts';
import { refusalOf, run, withFiles } from '../support/program.ts';

const LESSON = 'key G major\nprogression p\n  G | D at 3\nsection s\n  progression p\n';
const IN_A = 'key A major\nprogression p\n  A | E at 5\nsection s\n  progression p\n';

/** Each run starts Node anew, which on a busy machine takes its time. */
const PATIENCE_MS = 60_000;

describe('stringcourse transpose', function () {
  this.timeout(PATIENCE_MS);

  it('writes the lesson in the other key, and tells what it left', () => {
    assert.deepEqual(run(['transpose', '-', '--to', 'A'], { input: LESSON }), { status: 0, out: IN_A, told: '' });
    const { out, told } = run(['transpose', '-', '--to', 'a', '--capo'], { input: `${LESSON}text\n  Hear the G.\n` });
    assert.match(out, /^key G major\ncapo 2\nprogression p\n {2}G \| D at 3\n/);
    assert.equal(
      told,
      'stringcourse: standard input:7:12: Plain words name G, and stay: see whether they are still true.\n',
    );
  });

  it('writes the table instead', () => {
    const { status, out } = run(['transpose', '-', '--to', 'A', '--table'], { input: LESSON });
    assert.equal(status, 0);
    assert.match(out, /^From G major to A major\.\n\nbar +before +open /);
  });

  it('writes back, or elsewhere, and never over a file that it does not know', async () => {
    await withFiles({ 'a.lesson': LESSON, 'b.lesson': 'mine\n' }, (folder) => {
      const at = (name: string): string => readFileSync(join(folder, name), 'utf8');
      const refused = run(['transpose', 'a.lesson', '--to', 'A', '--out', 'b.lesson'], { cwd: folder });
      assert.equal(refused.status, 2);
      assert.match(refused.told, /b\.lesson was not written by this program; --force overwrites it/);
      assert.equal(at('b.lesson'), 'mine\n');
      assert.equal(run(['transpose', 'a.lesson', '--to', 'A', '--out', 'c.lesson'], { cwd: folder }).status, 0);
      assert.equal(at('c.lesson'), IN_A);
      assert.equal(at('a.lesson'), LESSON);
      assert.match(run(['transpose', 'a.lesson', '--to', 'A', '--write'], { cwd: folder }).out, /^From G major/);
      assert.equal(at('a.lesson'), IN_A);
    });
  });

  it('ends with 2 on wrong use, with one line that says what is wrong', async () => {
    const { status, out, told } = run(['transpose', '-', '--to', 'H'], { input: LESSON });
    assert.deepEqual([status, out], [2, '']);
    assert.match(told, /^stringcourse: --to takes a key such as A or "Bb major", not "H"[^\n]*\n$/);
    await withFiles({ 'a.lesson': LESSON }, async (folder) => {
      const wrong: readonly (readonly [string, readonly string[], RegExp])[] = [
        ['a.lesson', [], /must be told the key/],
        ['a.lesson', ['--to', 'A minor'], /The lesson is in G major and keeps its mode/],
        ['a.lesson', ['--to', 'A', '--table', '--out', 'x'], /do not go together/],
      ];
      for (const [file, options, message] of wrong)
        assert.match(await refusalOf(() => transpose([join(folder, file), ...options])), message);
    });
    const capo = run(['transpose', '-', '--to', 'A', '--capo'], { input: `capo 2 on 5 4 3\n${LESSON}` });
    assert.equal(capo.status, 2);
    assert.match(capo.told, /A capo on some strings only[^\n]*\n$/);
    assert.match(await refusalOf(() => transpose(['-', '--to', 'A', '--write'])), /--write needs a file/);
  });
});
