/** When a step of the practice climbs, and when it is over. */
import assert from 'node:assert/strict';
import { Ladder } from '../../client/media/ladder.ts';

/** The tempo before each pass of so many seconds; `over` at the end. */
function climbed(ladder: Ladder, seconds: number, passes: number): string {
  const said: string[] = [];
  for (let pass = 0; pass < passes; pass++) {
    said.push(`${ladder.tempo}`);
    if (ladder.passed(seconds) === 'over') return [...said, 'over'].join(' ');
  }
  return said.join(' ');
}

describe('a ladder', () => {
  it('plays each tempo twice and stays on the last', () => {
    const ladder = new Ladder({ title: 'The ripple', tempi: [60, 72, 84], perMinute: 84 });
    assert.equal(climbed(ladder, 10, 8), '60 60 72 72 84 84 84 84');
  });
  it('shares its minutes evenly, and ends no pass early', () => {
    // Two minutes for three tempi are forty seconds each, which three passes of fifteen seconds fill.
    const ladder = new Ladder({ title: 'Slowly', tempi: [60, 66, 72], perMinute: 72, minutes: 2 });
    assert.equal(climbed(ladder, 15, 20), '60 60 60 66 66 66 72 72 72 over');
  });
  it('is over after its minutes where it has one tempo, and never without', () => {
    assert.equal(climbed(new Ladder({ title: 'a', tempi: [60], perMinute: 60, minutes: 1 }), 24, 9), '60 60 60 over');
    assert.equal(climbed(new Ladder({ title: 'a', tempi: [60], perMinute: 60 }), 600, 5), '60 60 60 60 60');
  });
  it('has a speed that is its part of what is written', () => {
    assert.equal(new Ladder({ title: 'a', tempi: [42], perMinute: 84 }).speed, 0.5);
  });
});
