/** Which bars of a timeline are meant by the bars of a page. */
import assert from 'node:assert/strict';
import { barsPlayed, idOf, startOfBar, startOfSection, type PlayedLesson } from '../../client/media/played-bars.ts';

/** `v1 v2 c1`: bars as they are played, each a second long, of sections v and c. */
function played(words: string): PlayedLesson {
  const bars = words.split(' ').map((word, at) => ({
    at,
    seconds: 1,
    section: word.startsWith('v') ? 0 : 1,
    bar: Number(word.slice(1)),
    number: Number(word.slice(1)),
    countIn: [],
    start: 0,
    end: 0,
  }));
  return {
    version: 1,
    timeline: { open: [], seconds: bars.length, notes: [], beats: [], bars },
    perMinute: 60,
    sections: [
      { id: 'verse', perMinute: 60 },
      { id: 'coda', perMinute: 60 },
    ],
    practice: [],
  };
}

const lesson = played('v1 v2 v3 v1 v2 v4 c1 c2 v1 v2');

describe('the bars of a repeat', () => {
  it('go from the first to the next time that the last is played', () => {
    assert.deepEqual(barsPlayed(lesson, { kind: 'bars', from: 'verse.2', to: 'verse.3' }), { first: 1, last: 2 });
    assert.deepEqual(barsPlayed(lesson, { kind: 'bars', from: 'verse.2', to: 'coda.1' }), { first: 1, last: 6 });
    assert.deepEqual(barsPlayed(lesson, { kind: 'bar', from: 'coda.2', to: 'coda.2' }), { first: 7, last: 7 });
  });
  it('may be chosen from the end', () => {
    assert.deepEqual(barsPlayed(played('v1 v2 v3'), { kind: 'bars', from: 'verse.3', to: 'verse.1' }), {
      first: 0,
      last: 2,
    });
  });
  it('are all of a section, as often as it is played in a row', () => {
    assert.deepEqual(barsPlayed(lesson, { kind: 'section', section: 'verse' }), { first: 0, last: 5 });
    assert.deepEqual(barsPlayed(lesson, { kind: 'section', section: 'coda' }), { first: 6, last: 7 });
    assert.deepEqual(barsPlayed(played('c1 v1'), { kind: 'section', section: 'verse' }), { first: 1, last: 1 });
  });
  it('are none where what is meant is not played', () => {
    assert.equal(barsPlayed(lesson, { kind: 'bar', from: 'verse.9', to: 'verse.9' }), undefined);
    assert.equal(barsPlayed(lesson, { kind: 'section', section: 'bridge' }), undefined);
    assert.equal(barsPlayed(lesson, { kind: 'nothing' }), undefined);
    assert.deepEqual(barsPlayed(lesson, { kind: 'lesson' }), { first: 0, last: 9 });
  });
});

describe('the place of a bar', () => {
  it('is the first time that it is played', () => {
    assert.equal(startOfBar(lesson, 'verse.4'), 5);
    assert.equal(startOfBar(lesson, 'verse.9'), undefined);
    assert.equal(startOfSection(lesson, 'coda'), 6);
    assert.equal(idOf(lesson, lesson.timeline.bars[6]), 'coda.1');
  });
});
