/** What formatting promises of any lesson, tried on lessons by chance; the fuzz suite tries the same a thousand times. */
import fc from 'fast-check';
import assert from 'node:assert/strict';
import { formatText } from '../../server/src/syntax/format.ts';
import { generateLesson } from '../support/generate-lesson.ts';
import { meaningOf } from '../support/meaning.ts';
import { mutate, roughen } from '../support/mutate.ts';
import { checkFormatting } from '../support/use-all.ts';

const seeds = fc.integer({ min: 0, max: 0x7fff_ffff });

describe('formatting a lesson by chance', function () {
  this.timeout(60_000);

  const holds = (numRuns: number, property: (seed: number) => void): void =>
    fc.assert(fc.property(seeds, property), { numRuns });

  it('loses nothing, and leaves nothing to do, however broken it is', () => {
    holds(40, (seed) => {
      checkFormatting(generateLesson(seed));
      checkFormatting(generateLesson(seed, { only: 'broken' }));
      checkFormatting(mutate(generateLesson(seed), seed));
    });
  });
  it('gives the one text, however it was laid out', () => {
    holds(20, (seed) => {
      const text = formatText(generateLesson(seed));
      assert.equal(formatText(roughen(text, seed)), text);
    });
  });
  it('means what it meant', () => {
    holds(4, (seed) => {
      for (const text of [generateLesson(seed, { only: 'broken' }), mutate(generateLesson(seed), seed)])
        assert.deepEqual(meaningOf(formatText(text)), meaningOf(text));
    });
  });
});
