/** A lesson as one SVG file. */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { analyze } from '../../server/src/analyze.ts';
import { lessonSvg } from '../../server/src/export/svg.ts';
import { elementsOf } from '../support/markup.ts';

describe('A lesson as SVG', () => {
  it('is well formed for every sample, at any width', () => {
    for (const name of readdirSync('samples').filter((each) => each.endsWith('.lesson'))) {
      const analysis = analyze(readFileSync(`samples/${name}`, 'utf8'));
      for (const width of [280, 960]) assert.equal(elementsOf(lessonSvg(analysis, width).trimEnd())[0], 'svg', name);
    }
  });

  it('runs no script that a title or a section smuggles in', () => {
    const svg = lessonSvg(
      analyze(
        'lesson "</title><script>alert(1)</script>"\nsection a "<img onerror=x>"\n  progression p\nprogression p\n  C\n',
      ),
      960,
    );
    const elements = elementsOf(svg.trimEnd());
    assert.ok(!elements.includes('script') && !elements.includes('img'));
    assert.match(svg, /&lt;script&gt;/);
  });

  it('has nothing in it that is loaded from elsewhere or can be chosen', () => {
    const svg = lessonSvg(analyze(readFileSync('samples/harbour-lamps.lesson', 'utf8')), 960);
    assert.doesNotMatch(svg, /href|url\(|@import|tabindex|role="button"/);
  });
});
