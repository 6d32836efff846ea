/** Work put off until no change comes any more, with turns of the loop counted by hand. */
import assert from 'node:assert/strict';
import { Quiet } from '../../server/src/lsp/quiet.ts';

function loop(): { quiet: Quiet; turn: () => boolean; done: string[]; job: (name: string) => () => void } {
  const hops: (() => void)[] = [];
  const done: string[] = [];
  return {
    quiet: new Quiet((callback) => hops.push(callback)),
    turn: () => {
      const hop = hops.shift();
      hop?.();
      return hop !== undefined;
    },
    done,
    job: (name) => () => void done.push(name),
  };
}

describe('quiet', () => {
  it('waits two turns for another change', () => {
    const { quiet, turn, done, job } = loop();
    quiet.disturb();
    quiet.ask('a', job('first'));
    turn();
    assert.deepEqual(done, []);
    quiet.disturb();
    quiet.ask('a', job('second'));
    turn();
    assert.deepEqual(done, []);
    turn();
    assert.deepEqual(done, ['second']);
    assert.equal(turn(), false, 'then the loop may sleep');
  });

  it('does one job a turn, in the order asked', () => {
    const { quiet, turn, done, job } = loop();
    quiet.disturb();
    quiet.ask('a', job('a'));
    quiet.ask('b', job('b'));
    quiet.ask('c', job('c'));
    quiet.forget('b');
    while (turn());
    assert.deepEqual(done, ['a', 'c']);
  });

  it('does not wait for ever', () => {
    const { quiet, turn, done, job } = loop();
    quiet.ask('a', job('a'));
    for (let turns = 0; turns < 1000 && done.length === 0; turns++) {
      quiet.disturb();
      turn();
    }
    assert.deepEqual(done, ['a']);
  });

  it('lets those who wait go before the jobs', async () => {
    const { quiet, turn, done, job } = loop();
    quiet.ask('a', job('job'));
    const waited = quiet.whenQuiet().then(job('waited'));
    quiet.disturb();
    turn();
    turn();
    await waited;
    while (turn());
    assert.deepEqual(done, ['waited', 'job']);
  });

  it('lets those in the background go on when nothing else is to do, one at a time', async () => {
    const { quiet, turn, done, job } = loop();
    const background = [1, 2].map((number) => quiet.whenIdle().then(job(`background ${number}`)));
    quiet.ask('a', job('a'));
    quiet.ask('b', job('b'));
    while (turn() && done.length < 2);
    assert.deepEqual(done, ['a', 'b']);
    quiet.disturb();
    turn();
    quiet.ask('c', job('c'));
    while (turn());
    await Promise.all(background);
    assert.deepEqual(done, ['a', 'b', 'c', 'background 1', 'background 2']);
  });
});
