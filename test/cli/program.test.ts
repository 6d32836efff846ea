/** The program as a user meets it: what it prints, and the status it ends with. */
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { exportLesson } from '../../server/src/cli/export.ts';
import { shape } from '../../server/src/cli/shape.ts';
import { voicings } from '../../server/src/cli/voicings.ts';
import { refusalOf, run, withFiles } from '../support/program.ts';

const GOOD = `lesson "Two chords"
key G major
progression p
  G | D
cell c
  each 1/4
  p(bass) i3 m2 a1
section verse
  progression p
  cell c
`;
const BAD = 'lesson "x"\nkey H major\n';

/** Each run starts Node anew, which on a busy machine takes its time. */
const PATIENCE_MS = 60_000;

describe('stringcourse', function () {
  this.timeout(PATIENCE_MS);

  it('tells its version and what it can do', () => {
    const { version } = JSON.parse(readFileSync('package.json', 'utf8')) as { version: string };
    assert.deepEqual(run(['--version']), { status: 0, out: `${version}\n`, told: '' });
    const help = run(['--help']).out;
    for (const command of ['check', 'format', 'export', 'watch', 'shape'])
      assert.match(help, new RegExp(`stringcourse ${command} `));
    assert.match(run(['export', '--help']).out, /^stringcourse export FILE/);
  });

  it('ends with 2 on wrong use, with one line that says what is wrong', () => {
    const wrong: readonly (readonly [readonly string[], RegExp])[] = [
      [['chekc'], /There is no command "chekc"\. Is check meant\?/],
      [['check', '--colour'], /--colour/],
      [['watch', 'no-such.lesson'], /There is no file/],
      [['shape', 'x02'], /"x02" is no fret list for 6 strings/],
    ];
    for (const [args, message] of wrong) {
      const { status, told } = run(args);
      assert.equal(status, 2, args.join(' '));
      assert.match(told, message);
      assert.equal(told.trimEnd().split('\n').length, 1, told);
    }
    assert.equal(run([]).status, 2);
  });

  it('says what is wrong with the options of each command', async () => {
    const sample = 'samples/harbour-lamps.lesson';
    const wrong: readonly (readonly [(args: readonly string[]) => number | Promise<number>, string[], RegExp])[] = [
      [exportLesson, ['no-such.lesson', '--to', 'tab'], /There is no file no-such\.lesson/],
      [exportLesson, [sample], /--to tab/],
      [exportLesson, [sample, '--to', 'tab', '--width', '3'], /--width takes a whole number from 20/],
      [exportLesson, ['samples', '--to', 'tab'], /samples is a folder/],
      [exportLesson, [sample, '--to', 'tab', '--variant', 'loud'], /No variant is called "loud": there is gentle\./],
      [shape, ['x02210', '--tuning', 'nonsense'], /--tuning takes/],
      [voicings, ['Hello'], /"Hello" is no chord/],
    ];
    for (const [command, args, message] of wrong) {
      const words = await refusalOf(() => command(args));
      assert.match(words, message);
      assert.doesNotMatch(words, /\n/);
    }
  });
});

describe('stringcourse check', function () {
  this.timeout(PATIENCE_MS);

  it('ends with 0 where nothing is wrong and with 1 on an error', async () => {
    await withFiles({ 'good.lesson': GOOD, 'bad.lesson': BAD }, (folder) => {
      assert.equal(run(['check', 'good.lesson'], { cwd: folder }).status, 0);
      const { status, out } = run(['check', 'bad.lesson'], { cwd: folder });
      assert.equal(status, 1);
      assert.match(out, /^bad\.lesson:2:5: error: .*\(unknown-key\)\n +2 \| key H major\n +\| {5}\^{7}\n/);
    });
  });

  it('finds what a lesson uses below the library it lies in, wherever the program is run', async () => {
    const using = GOOD.replace('progression p\n  G | D\n', 'use p from "../parts/rows.lesson"\n');
    const files = {
      'library.lesson': 'library "Lamps"\n  requires level\n',
      'parts/rows.lesson': 'progression p\n  G | D\n',
      'week/good.lesson': using,
      'week/lost.lesson': using.replace('rows', 'columns'),
    };
    await withFiles(files, (folder) => {
      const good = run(['check', 'good.lesson'], { cwd: join(folder, 'week') });
      assert.match(good.out, /^good\.lesson:1:8: warning: .*`level`.*\(library-requirement\)/);
      assert.equal(good.status, 0);
      const lost = run(['check', join(folder, 'week', 'lost.lesson')]);
      assert.match(lost.out, /no file `\.\.\/parts\/columns\.lesson`.*\(file-missing\)/);
      assert.equal(lost.status, 1);
    });
  });

  it('takes a folder for all lessons below it, and standard input for one', async () => {
    await withFiles({ 'good.lesson': GOOD, 'bad.lesson': BAD, 'notes.txt': 'key H' }, (folder) => {
      const { status, out } = run(['check'], { cwd: folder });
      assert.equal(status, 1);
      assert.match(out, /2 lessons: one error\.\n$/);
    });
    assert.match(run(['check', '-'], { input: BAD }).out, /^standard input:2:5: error/);
  });

  it('goes on behind a file that is missing', async () => {
    await withFiles({ 'bad.lesson': BAD }, (folder) => {
      const { status, out, told } = run(['check', 'gone.lesson', 'bad.lesson'], { cwd: folder });
      assert.equal(status, 2);
      assert.match(told, /There is no file gone\.lesson/);
      assert.match(out, /bad\.lesson:2:5/);
    });
  });

  it('writes findings as JSON', () => {
    const { status, out } = run(['check', '-', '--format', 'json'], { input: BAD });
    assert.equal(status, 1);
    const read = JSON.parse(out) as { version: number; files: { path: string; findings: { code: string }[] }[] };
    assert.equal(read.version, 1);
    assert.equal(read.files[0].path, '-');
    assert.equal(read.files[0].findings[0].code, 'unknown-key');
  });

  it('puts the caret under the place, wide letters and tabs counted', () => {
    const { out } = run(['check', '-'], { input: 'key\tH major\n' });
    const [, line, caret] = out.split('\n');
    assert.equal(caret.indexOf('^'), line.indexOf('H'));
  });

  it('prints control characters of a lesson harmlessly, and no colours into a pipe', () => {
    const { out } = run(['check', '-'], { input: 'key \u009b31mH\u202e major\n' });
    for (const sign of ['\u001b', '\u009b', '\u202e']) assert.ok(!out.includes(sign));
  });
});

describe('stringcourse export', function () {
  this.timeout(PATIENCE_MS);

  it('writes tab, drawing and data to standard output', () => {
    const sample = 'samples/harbour-lamps.lesson';
    assert.match(run(['export', sample, '--to', 'tab']).out, /^Harbour lamps\n/);
    assert.match(run(['export', sample, '--to', 'svg', '--width', '500']).out, /^<svg xmlns="[^"]+" width="500"/);
    assert.equal((JSON.parse(run(['export', sample, '--to', 'json']).out) as { version: number }).version, 1);
    assert.match(run(['export', '-', '--to', 'tab'], { input: GOOD }).out, /^Two chords\n/);
    assert.match(run(['export', sample, '--to', 'tab', '--variant', 'gentle']).out, /^Harbour lamps: Gentler, /);
  });

  it('overwrites what it wrote, nothing else, unless it is forced', async () => {
    await withFiles({ 'a.lesson': GOOD, 'mine.txt': 'by hand' }, (folder) => {
      const write = (out: string, ...more: string[]) =>
        run(['export', 'a.lesson', '--to', 'tab', '--out', out, ...more], { cwd: folder });
      assert.equal(write('tab.txt').status, 0);
      assert.equal(write('tab.txt').status, 0);
      const refused = write('mine.txt');
      assert.equal(refused.status, 2);
      assert.match(refused.told, /mine\.txt was not written by this program/);
      assert.equal(readFileSync(join(folder, 'mine.txt'), 'utf8'), 'by hand');
      writeFileSync(join(folder, 'tab.txt'), 'changed by hand');
      assert.match(write('tab.txt').told, /was changed since it was written/);
      assert.equal(write('tab.txt', '--force').status, 0);
      assert.match(readFileSync(join(folder, 'tab.txt'), 'utf8'), /^Two chords/);
      assert.equal(write('a.lesson').status, 2);
      assert.ok(existsSync(join(folder, 'a.lesson')));
    });
  });

  it('ends without a word when nobody reads on', () => {
    const { status, stderr } = spawnSync(
      'sh',
      ['-c', '"$0" dist/stringcourse.cjs export samples/harbour-lamps.lesson --to json | head -c 10', process.execPath],
      { encoding: 'utf8' },
    );
    assert.equal(status, 0);
    assert.equal(stderr, '');
  });
});

describe('stringcourse shape', function () {
  this.timeout(PATIENCE_MS);

  it('names a shape, its notes and how it is held', () => {
    const { out } = run(['shape', 'x32010']);
    assert.match(out, /^x-3-2-0-1-0 {2}C\b/);
    assert.match(out, /notes {6}C3 E3 G3 C4 E4/);
    assert.match(out, /intervals {2}1 3 5 1 3/);
    assert.match(out, /│ 3 │ │ │ │/);
  });

  it('writes one JSON line a shape, from standard input too', () => {
    const { out, status } = run(['shape', '-', '--format', 'json'], { input: 'x32010\n\nx-x-4-0-3-5\n' });
    assert.equal(status, 0);
    const lines = out
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line) as Record<string, unknown>);
    const keys = 'frets names bass notes intervals playable zone difficulty fingerings';
    assert.equal(Object.keys(lines[0]).join(' '), keys);
    // As every method teaches it: ring finger, middle and index.
    assert.deepEqual((lines[0].fingerings as unknown[])[0], [null, 3, 2, 0, 1, 0]);
    assert.deepEqual(lines[0].notes, ['C3', 'E3', 'G3', 'C4', 'E4']);
    assert.equal(lines[0].bass, 'C3');
    assert.equal(lines[1].bass, 'F#3');
  });

  it('counts frets from a capo, and takes other tunings', () => {
    // A C shape with a capo at the third fret sounds E flat.
    assert.match(run(['shape', 'x32010', '--capo', '3']).out, / {2}Eb\b/);
    // The open strings of D A D G A D are D suspended 4.
    assert.match(run(['shape', '000000', '--tuning', 'dadgad']).out, / {2}Dsus4\b/);
    assert.match(run(['shape', '000000', '--tuning', 'D2 A2 D3 G3 A3 D4']).out, / {2}Dsus4\b/);
  });

  it('spells a black key from both sides where no key decides, and in flats where the tuning is', () => {
    const named = (args: readonly string[]): string[] =>
      (JSON.parse(run(['shape', ...args, '--format', 'json']).out) as { names: string[] }).names;
    assert.deepEqual(named(['x-6-5-6-4-x']), ['Eb7', 'D#7']);
    assert.equal(named(['320003', '--tuning', 'half-step-down'])[0], 'Gb');
    assert.equal(named(['x-6-5-6-4-x', '--key', 'G# minor'])[0], 'D#7');
  });

  it('tells the wrong one among others, and goes on', () => {
    const { out, told, status } = run(['shape', '-', '--format', 'json'], { input: 'x32010\nbanana\n022000\n' });
    assert.equal(status, 2);
    assert.match(told, /"banana" is no fret list/);
    assert.equal(out.trimEnd().split('\n').length, 2);
  });
});

describe('stringcourse voicings', function () {
  this.timeout(PATIENCE_MS);

  it('finds what a shape rule finds, the easiest first', () => {
    const asked = ['voicings', 'G', '--strings', '3,2,1', '--frets', '1-13', '--reach', '2', '--format', 'json'];
    const { out, status } = run(asked);
    assert.equal(status, 0);
    const found = out
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line) as { frets: string; notes: string[] });
    // G B D on the upper three strings: 4-3-3, 7-8-7 and 12-12-10, by hand on a fretboard chart.
    assert.deepEqual(found.map(({ frets }) => frets).sort(), ['x-x-x-12-12-10', 'x-x-x-4-3-3', 'x-x-x-7-8-7']);
  });

  it('draws them, and says how many there are', () => {
    const { out } = run(['voicings', 'Em', '--most', '1']);
    assert.match(out, /^[x\d-]+ {2}Em/);
    assert.match(out, /voicings of Em.*the 1 easiest/);
  });

  it('says what no hand can hold', () => {
    const none = run(['voicings', 'C', '--strings', '6,5', '--frets', '1-1']);
    assert.equal(none.status, 1);
    assert.match(none.out, /No voicing of C/);
  });
});
