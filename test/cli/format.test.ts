/** `stringcourse format` as a user meets it: what it writes, what it leaves, and how it ends. */
import assert from 'node:assert/strict';
import { chmodSync, lstatSync, readFileSync, readdirSync, statSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { run, withFiles } from '../support/program.ts';

const UNTIDY = 'lesson   "x"\r\nkey   G   major\r\nprogression p\r\n\tG|D\r\n\tAm7|C';
const TIDY = 'lesson "x"\r\nkey G major\r\n\r\nprogression p\r\n  G   | D\r\n  Am7 | C\r\n';

describe('stringcourse format', function () {
  this.timeout(60_000);

  it('writes every lesson below a folder, keeps its line ends, and leaves the tidy ones', async () => {
    await withFiles({ 'a.lesson': UNTIDY, 'b/c.lesson': UNTIDY, 'd.lesson': TIDY, 'e.txt': UNTIDY }, (folder) => {
      const { status, out, told } = run(['format'], { cwd: folder });
      assert.deepEqual(
        { status, out, told },
        { status: 0, out: `changed a.lesson\nchanged ${join('b', 'c.lesson')}\n`, told: '' },
      );
      assert.equal(readFileSync(join(folder, 'a.lesson'), 'utf8'), TIDY);
      assert.equal(readFileSync(join(folder, 'b', 'c.lesson'), 'utf8'), TIDY);
      assert.equal(readFileSync(join(folder, 'e.txt'), 'utf8'), UNTIDY);
      assert.deepEqual(readdirSync(folder).sort(), ['a.lesson', 'b', 'd.lesson', 'e.txt'], 'nothing is left beside');
    });
  });

  it('with --check tells what would change, writes nothing, and ends with 1', async () => {
    await withFiles({ 'a.lesson': UNTIDY, 'b.lesson': TIDY }, (folder) => {
      assert.deepEqual(run(['format', '--check', '.'], { cwd: folder }), {
        status: 1,
        out: 'would change a.lesson\n',
        told: '',
      });
      assert.equal(readFileSync(join(folder, 'a.lesson'), 'utf8'), UNTIDY);
      assert.equal(run(['format', '--check', 'b.lesson'], { cwd: folder }).status, 0);
      assert.equal(run(['format', '--check', '-'], { input: UNTIDY }).out, 'would change standard input\n');
    });
  });

  it('hands standard input on, laid out or as it was', () => {
    assert.equal(run(['format', '-'], { input: UNTIDY }).out, TIDY);
    assert.equal(run(['format', '-'], { input: TIDY }).out, TIDY);
    assert.deepEqual(run(['format', '-'], { input: '' }), { status: 0, out: '', told: '' });
  });

  it('leaves what is empty or holds signs that no text holds', async () => {
    const odd = 'key  G\u0001 major';
    await withFiles({ 'a.lesson': '', 'b.lesson': odd }, (folder) => {
      assert.deepEqual(run(['format'], { cwd: folder }), { status: 0, out: '', told: '' });
      assert.equal(readFileSync(join(folder, 'b.lesson'), 'utf8'), odd);
    });
  });

  it('leaves what is no UTF-8 and goes on with the others', async () => {
    await withFiles({ 'b.lesson': UNTIDY }, (folder) => {
      // A title in another encoding, as an old editor saves it.
      const old = Buffer.from('lesson   "caf\u00e9"\n', 'latin1');
      writeFileSync(join(folder, 'a.lesson'), old);
      const { status, out, told } = run(['format', 'none.lesson', 'a.lesson', 'b.lesson'], { cwd: folder });
      assert.deepEqual([status, out], [2, 'changed b.lesson\n']);
      assert.match(told, /There is no file none\.lesson\.\n.*a\.lesson is no UTF-8 text; it is left as it is\.\n$/);
      assert.deepEqual(readFileSync(join(folder, 'a.lesson')), old);
    });
  });

  if (process.platform !== 'win32')
    it('keeps who may read it, and a link as a link', async () => {
      await withFiles({ 'a.lesson': UNTIDY, 'b.lesson': UNTIDY }, (folder) => {
        // More than the usual mask of a user would leave.
        chmodSync(join(folder, 'a.lesson'), 0o666);
        symlinkSync('b.lesson', join(folder, 'c.lesson'));
        assert.equal(run(['format', 'a.lesson', 'c.lesson'], { cwd: folder }).status, 0);
        assert.equal(statSync(join(folder, 'a.lesson')).mode & 0o777, 0o666);
        assert.ok(lstatSync(join(folder, 'c.lesson')).isSymbolicLink());
        assert.equal(readFileSync(join(folder, 'b.lesson'), 'utf8'), TIDY);
      });
    });
});
