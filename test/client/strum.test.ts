/** What is heard of a voicing. */
import assert from 'node:assert/strict';
import { strumFrom } from '../../client/media/strum.ts';

describe('a strum', () => {
  it('sounds the strings of a voicing in turn, from the lowest, and lets them ring', () => {
    // C as x-3-2-0-1-0 on a guitar in standard tuning.
    const { open, notes } = strumFrom('64 59 55 50 45 40', '5:48 4:52 3:55 2:60 1:64');
    assert.deepEqual(open, [64, 59, 55, 50, 45, 40]);
    assert.deepEqual(
      notes.map(({ string, midi, fretted }) => `${string}:${midi}${fretted ? '' : ' open'}`),
      ['5:48', '4:52', '3:55 open', '2:60', '1:64 open'],
    );
    assert.ok(notes.every(({ rings }) => rings));
    const turns = notes.map(({ offset }) => offset);
    assert.ok(
      turns.every((turn, at) => at === 0 || turn > turns[at - 1]),
      `${turns}`,
    );
  });
  it('leaves out what is no note', () => {
    assert.deepEqual(strumFrom('64', 'a:b').notes, []);
  });
});
