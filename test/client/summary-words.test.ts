/** What stands in the status bar: short, and in full for who points at it or listens. */
import assert from 'node:assert/strict';
import { shortWords, spokenWords, tooltipLines } from '../../client/src/summary-words.ts';
import type { LessonSummary } from '../../server/src/protocol.ts';

const LAMPS: LessonSummary = {
  title: 'Harbour lamps',
  difficulty: { ofTen: '1.8', word: 'easy' },
  minutes: 15,
  bars: 8,
  sounds: '17 seconds',
  facts: ['G major', '3/4'],
  variants: [{ name: 'gentle', title: 'Gentler' }],
};
const EMPTY: LessonSummary = { title: '', bars: 0, sounds: '0 seconds', facts: ['C major'], variants: [] };
const { minutes: _, ...UNTIMED } = LAMPS;

describe('a lesson in the status bar', () => {
  it('is its difficulty and its minutes', () => assert.equal(shortWords(LAMPS), 'easy · 15 min'));
  it('has its bars where it says no minutes', () => {
    assert.equal(shortWords(UNTIMED), 'easy · 8 bars');
    assert.equal(shortWords({ ...UNTIMED, bars: 1 }), 'easy · 1 bar');
  });
  it('is nothing without music and minutes', () => assert.equal(shortWords(EMPTY), ''));
  it('says in full what it says in short', () => {
    assert.deepEqual(tooltipLines(LAMPS), [
      'Harbour lamps',
      'Difficulty 1.8 of 10, easy',
      '15 minutes',
      '8 bars, 17 seconds as played',
      'Variants: Gentler',
      'G major · 3/4',
      'Click to open the preview',
    ]);
    assert.equal(
      spokenWords(LAMPS),
      'Lesson: Difficulty 1.8 of 10, easy; 15 minutes; 8 bars, 17 seconds as played. Open preview',
    );
  });
  it('leaves out what is not there', () =>
    assert.deepEqual(tooltipLines(EMPTY), ['C major', 'Click to open the preview']));
});
