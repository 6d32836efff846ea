import assert from 'node:assert/strict';
import { readDocument } from '../../server/src/syntax/document.ts';
import { formatText } from '../../server/src/syntax/format.ts';
import { statements } from '../../server/src/syntax/statements.ts';
import { losses } from '../support/format-losses.ts';
import { generateLesson, type Wishes } from '../support/generate-lesson.ts';
import { mutate } from '../support/mutate.ts';
import { problemsOf } from '../support/syntax-outline.ts';

const SEEDS = Array.from({ length: 300 }, (_, i) => i + 1);

describe('generated lessons', () => {
  it('read without a problem', () => {
    for (const seed of SEEDS) {
      const text = generateLesson(seed);
      assert.deepEqual(problemsOf(text), [], `seed ${seed}\n${text}`);
    }
  });
  it('are the same for the same seed, and differ for others', () => {
    assert.equal(generateLesson(7), generateLesson(7));
    assert.equal(mutate(generateLesson(7), 9), mutate(generateLesson(7), 9));
    assert.equal(new Set(SEEDS.map((seed) => generateLesson(seed))).size, SEEDS.length);
  });
  it('hold every statement and every line of the table', () => {
    const seen = new Set<string>();
    const kinds: readonly Wishes['kind'][] = ['lesson', 'course', 'library', 'parts'];
    for (const seed of SEEDS) {
      for (const kind of seed <= 20 ? kinds : kinds.slice(0, 1)) {
        for (const { tree } of readDocument(generateLesson(seed, { kind })).statements) {
          seen.add(`${tree.keyword}`);
          for (const line of tree.body) seen.add(`${tree.keyword}: ${line.form}`);
        }
      }
    }
    const wanted = statements.flatMap((form) => [
      form.keyword,
      ...form.body.map((line) => `${form.keyword}: ${line.label}`),
    ]);
    assert.deepEqual(
      wanted.filter((one) => !seen.has(one)),
      [],
    );
  });
  it('hold as many bars and sections as are asked for', () => {
    const { statements: read } = readDocument(generateLesson(3, { bars: 30, sections: 5 }));
    const progressions = read.filter(({ tree }) => tree.keyword === 'progression');
    assert.equal(progressions.length, 5);
    assert.equal(read.filter(({ tree }) => tree.keyword === 'section').length, 5);
    // Each line holds four bars at most.
    for (const { tree } of progressions) assert.equal(tree.body.length, 8);
  });
  it('hold a slip where one is asked for, most of the time', () => {
    const broken = SEEDS.filter((seed) => problemsOf(generateLesson(seed, { only: 'broken' })).length > 0);
    assert.ok(broken.length > SEEDS.length / 2, `${broken.length} of ${SEEDS.length}`);
  });
  it('are formatted without loss, whole, with slips and damaged', () => {
    for (const seed of SEEDS) {
      const texts = [
        generateLesson(seed),
        generateLesson(seed, { only: 'broken' }),
        mutate(generateLesson(seed), seed),
      ];
      for (const text of texts) {
        const formatted = formatText(text);
        assert.equal(formatText(formatted), formatted, `seed ${seed}`);
        assert.deepEqual(losses(text, formatted), [], `seed ${seed}`);
      }
    }
  });
});
