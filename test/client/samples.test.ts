/** The list of samples is what the folder holds, and a lesson that is begun from one is a lesson. */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { begun } from '../../client/src/lesson-beginnings.ts';
import { SAMPLES } from '../../client/src/samples.ts';
import { analyze } from '../../server/src/analyze.ts';

const read = (file: string): string => readFileSync(`samples/${file}`, 'utf8');

describe('the samples that are offered', () => {
  it('are those of the folder', () => {
    const files = readdirSync('samples').filter((name) => name.endsWith('.lesson'));
    assert.deepEqual(SAMPLES.map(({ file }) => file).sort(), files.sort());
  });
  for (const { file, title, level, teaches } of SAMPLES) {
    it(`say of ${file} what it says itself`, () => {
      const { lesson } = analyze(read(file));
      assert.deepEqual([title, level], [lesson.title, lesson.settings.level]);
      assert.equal(`; ${teaches}`, read(file).split('\n')[0]);
    });
    it(`begin a lesson without title and author: ${file}`, () => {
      const [before, after] = [read(file), begun(read(file))];
      const { lesson } = analyze(after);
      assert.equal(lesson.title, 'Untitled lesson');
      assert.doesNotMatch(after, /^\s+by /m);
      assert.ok(after.startsWith('lesson '));
      assert.equal(lesson.sections.length, analyze(before).lesson.sections.length);
    });
  }
});
