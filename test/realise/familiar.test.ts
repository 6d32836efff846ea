/** In a strummed song the chords stay the shapes that everybody knows, however short the time from one to the next. */
import assert from 'node:assert/strict';
import { analyze } from '../../server/src/analyze.ts';
import { formatFretList } from '../../server/src/fretboard/frets.ts';

function shapesOf(tempo: number, level: number): string[] {
  const lesson = [
    'lesson "Open road"',
    `  level ${level}`,
    'key G major',
    `tempo ${tempo}`,
    'progression road',
    '  G | D | Em | C | G | Am | C | D',
    'cell strum',
    '  each 1/8',
    '  down down up up down up down up',
    'section verse',
    '  progression road',
    '  cell strum',
  ].join('\n');
  const [section] = analyze(lesson).score.sections;
  return section.bars.map((bar) => formatFretList(bar.chords[0].voicing!.frets));
}

describe('chords that everybody knows', () => {
  for (const [tempo, level] of [
    [60, 3],
    [140, 3],
    [100, 1],
  ]) {
    it(`stay whole at ${tempo} for level ${level}`, () => {
      // The first shapes of any method for the guitar; G is taught with either note on the second string.
      const G = /^3-2-0-0-[03]-3$/;
      const [first, D, Em, C, again, Am, , last] = shapesOf(tempo, level);
      assert.match(first, G);
      assert.match(again, G);
      assert.deepEqual([D, last], ['x-x-0-2-3-2', 'x-x-0-2-3-2']);
      assert.deepEqual([Em, C, Am], ['0-2-2-0-0-0', 'x-3-2-0-1-0', 'x-0-2-2-1-0']);
    });
  }
});
