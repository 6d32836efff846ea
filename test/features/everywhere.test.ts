/** Whatever stands in a text, and wherever the cursor is: an answer, and spans that lie in the text. */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { analyze } from '../../server/src/analyze.ts';
import { completionsAt } from '../../server/src/features/completion.ts';
import { definitionAt } from '../../server/src/features/definition.ts';
import { foldsOf } from '../../server/src/features/folding.ts';
import { hoverAt } from '../../server/src/features/hover.ts';
import { markdownOf } from '../../server/src/features/page.ts';
import { symbolsOf, type LessonSymbol } from '../../server/src/features/symbols.ts';
import type { Span } from '../../server/src/util/span.ts';
import { generateLesson } from '../support/generate-lesson.ts';

const samples = readdirSync('samples')
  .filter((name) => name.endsWith('.lesson'))
  .map((name) => readFileSync(`samples/${name}`, 'utf8'));
const mutilated = samples.map((text) =>
  text.replace(/[ \n](\S)/g, (whole, first) => ('aeGp'.includes(first) ? ' ' : whole)),
);
const generated = Array.from({ length: 8 }, (_, seed) => generateLesson(seed, { only: seed % 2 ? 'broken' : 'valid' }));

const contains = (outer: Span, inner: Span): boolean =>
  outer.start <= inner.start && inner.start <= inner.end && inner.end <= outer.end;

function checkSymbols(symbols: readonly LessonSymbol[], within: Span): void {
  for (const { name, whole, named, children } of symbols) {
    assert.notEqual(name, '');
    assert.ok(contains(within, whole) && contains(whole, named), `${name} lies where it belongs`);
    checkSymbols(children, whole);
  }
}

/** Places of a text that are asked about: a few in the quick suite, more in the slow one. */
const PLACES = process.env.FUZZ_RUNS === undefined ? 50 : 300;

describe('features on any text', () => {
  for (const [kind, texts] of Object.entries({ samples, mutilated, generated })) {
    it(`answer everywhere in ${kind}`, function () {
      this.timeout(60_000);
      for (const text of texts) {
        const analysis = analyze(text);
        // Every offset of a long text would only repeat itself.
        const step = Math.max(1, Math.floor(text.length / PLACES));
        for (let offset = 0; offset <= text.length; offset += step) {
          const hover = hoverAt(analysis, offset);
          if (hover) {
            assert.ok(
              contains(hover.span, { start: offset, end: offset }),
              `the hover at ${offset} is about that place`,
            );
            assert.notEqual(markdownOf(hover.page), '');
          }
          const completions = completionsAt(analysis, offset);
          if (completions) assert.equal(completions.span.end, offset);
          const link = definitionAt(analysis, offset);
          if (link) assert.ok(contains(link.whole, link.name));
        }
        checkSymbols(symbolsOf(analysis), { start: 0, end: text.length });
        for (const { startLine, endLine } of foldsOf(analysis)) {
          assert.ok(startLine < endLine && endLine < analysis.lines.lineCount);
        }
      }
    });
  }
});
