/** A change in the time that the music leaves: who has to wait for what, and who has least time. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { parseFretList } from '../../server/src/fretboard/frets.ts';
import { instrumentWith } from '../../server/src/fretboard/instrument.ts';
import { tuningNamed } from '../../server/src/fretboard/tuning.ts';
import { changeBetween, changeCost, isHurried } from '../../server/src/hand/change.ts';
import type { TimedMove, TimedShape } from '../../server/src/hand/change.ts';
import { HURRIED_COST, MILLION, type Player } from '../../server/src/hand/model.ts';
import { gripOf } from '../../server/src/hand/grip.ts';
import { heldOf } from '../../server/src/hand/held.ts';
import { moveBetween, movementCost } from '../../server/src/hand/movement.ts';
import { HANDS } from '../../server/src/hand/search.ts';

const guitar = instrumentWith(tuningNamed('standard') ?? assert.fail());
const SECOND = 1_000_000;

/** A shape for a second: `xx0232 xx0132`, and for each finger when it is first and last heard, `1 0-0.5, 3 0.25-0.75`. */
function shape(text: string, heard = ''): TimedShape {
  const [frets, fingers] = text.split(' ').map((list) => parseFretList(list, 6) ?? assert.fail(list));
  const first = [SECOND, SECOND, SECOND, SECOND, SECOND];
  const last = [0, 0, 0, 0, 0];
  for (const [, finger, from, to] of heard.matchAll(/(\d) ([\d.]+)-([\d.]+)/g)) {
    first[Number(finger)] = Number(from) * SECOND;
    last[Number(finger)] = Number(to) * SECOND;
  }
  return { held: heldOf(gripOf(guitar, frets), fingers), times: { first, last } };
}

const change = (from: TimedShape, to: TimedShape): TimedMove =>
  changeBetween(from, to, SECOND, 'intermediate', HANDS.medium);

const C = 'x32010 x32010';
const AM = 'x02210 x02310';
const D = 'xx0232 xx0132';
const G = '320003 210003';

describe('a change in time', () => {
  it('gives the one finger that moves the time from its old string to its new one', () => {
    // From C to Am the ring finger alone moves: heard for the last time at 0.5 s, wanted 0.25 s into the next second.
    const { tightest, moved } = change(shape(C, '1 0-0.9, 2 0-0.9, 3 0-0.5'), shape(AM, '1 0-1, 2 0-1, 3 0.25-1'));
    assert.deepEqual(moved, [3]);
    assert.deepEqual([tightest?.finger, tightest?.available], [3, 0.75 * SECOND]);
    assert.equal(tightest?.need, moveBetween(shape(C).held, shape(AM).held, 'intermediate', HANDS.medium).need);
  });

  it('lets a finger whose old string is done with go ahead, and one that is not wanted yet take its time', () => {
    // Without a shift of the hand: D to an open A, where the middle finger is silent in D and the ring finger is wanted last.
    const { tightest, shift } = change(
      shape('xx0232 xx0132', '1 0-0.8, 3 0-0.2'),
      shape('x02220 x01230', '1 0.1-0.5, 2 0-0.5, 3 0.6-0.8'),
    );
    assert.equal(shift, 0);
    assert.deepEqual([tightest?.finger, tightest?.available], [1, 0.3 * SECOND]);
  });

  it('makes all fingers wait for the last one where the hand shifts', () => {
    const { tightest, shift } = change(
      shape('133211 134211', '1 0-0.2, 2 0-0.9'),
      shape('8-10-10-9-8-8 1-3-4-2-1-1', '1 0-1, 4 0.5-1'),
    );
    assert.ok(shift > 100);
    assert.deepEqual([tightest?.finger, tightest?.available], [1, 0.1 * SECOND]);
  });

  it('counts against a finger only those that are due with it or before', () => {
    const from = shape('x00000 x00000');
    const needs = ['1 0-1', '1 0-1, 2 0-1', '1 0-1, 2 0-1, 3 0-1'].map(
      (heard) => change(from, shape(C, heard)).tightest?.need ?? 0,
    );
    // For an intermediate player each further finger takes 0.05 s.
    assert.deepEqual([needs[1] - needs[0], needs[2] - needs[1]], [50_000, 50_000]);
  });

  it('lets a good player set a finger from the air early, and a beginner only when the old shape is let go', () => {
    // Index and middle finger stay, the little finger holds the first string until 0.9 s, the ring finger is in the air.
    const from = shape('x02013 x02014', '1 0-0.9, 2 0-0.9, 4 0-0.9');
    const ring = (player: Player): number | undefined => {
      const { moved, tightest } = changeBetween(from, shape(C, '1 0-1, 2 0-1, 3 0-1'), SECOND, player, HANDS.medium);
      assert.deepEqual(moved, [3]);
      return tightest?.available;
    };
    assert.deepEqual([ring('advanced'), ring('intermediate'), ring('beginner')], [SECOND, SECOND, 0.1 * SECOND]);
  });

  it('is hurried for a beginner below a second, unless it is easy, and for nobody else', () => {
    const hurried = (last: number, player: Player): boolean =>
      isHurried(
        changeBetween(
          shape(G, `1 0-${last}, 2 0-${last}, 3 0-${last}`),
          shape(D, '1 0-1, 2 0-1, 3 0-1'),
          SECOND,
          player,
          HANDS.medium,
        ),
        player,
      );
    assert.deepEqual(
      [0, 0.01, 0.5].map((last) => hurried(last, 'beginner')),
      [false, true, true],
    );
    assert.deepEqual(
      [0.01, 0.5, 0.9].map((last) => hurried(last, 'intermediate')),
      [false, false, false],
    );
    // One finger set on an open string is no matter, though it has less than a second.
    const one = changeBetween(
      shape('x00000 x00000'),
      shape('x00010 x00010', '1 0-1'),
      0.9 * SECOND,
      'beginner',
      HANDS.medium,
    );
    assert.deepEqual([one.pace, isHurried(one, 'beginner')], ['easy', false]);
  });

  it('is easy where nothing moves, and not playable where no time is left', () => {
    assert.deepEqual(change(shape(C, '1 0-1'), shape(C, '1 0-1')).pace, 'easy');
    assert.equal(change(shape(C, '1 0-1'), shape(C, '1 0-1')).tightest, undefined);
    assert.equal(change(shape(D, '1 0-1, 2 0-1, 3 0-1'), shape(G, '2 0-1')).pace, 'not playable');
  });

  const heard = fc.array(
    fc.tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.double({ min: 0, max: 1, noNaN: true })),
    {
      minLength: 4,
      maxLength: 4,
    },
  );
  const shapes = fc.constantFrom(C, AM, D, G, '133211 134211', 'x02220 x01230', '577655 134211', '000000 000000');
  const timed = fc
    .tuple(shapes, heard)
    .map(([text, times]) =>
      shape(
        text,
        times
          .map(([one, other], at) => `${at + 1} ${Math.min(one, other).toFixed(4)}-${Math.max(one, other).toFixed(4)}`)
          .join(', '),
      ),
    );

  it('never costs more where there is more time, costs what its tightest finger does, and is whole', () => {
    fc.assert(
      fc.property(timed, timed, fc.integer({ min: 0, max: 2 * SECOND }), (from, to, gap) => {
        const cost = (time: number): number => changeCost(from, to, time, 'beginner', HANDS.medium);
        assert.ok(Number.isInteger(cost(gap)));
        assert.ok(cost(gap + 200_000) <= cost(gap));
        const { tightest } = changeBetween(from, to, gap, 'beginner', HANDS.medium);
        const hurried = isHurried(changeBetween(from, to, gap, 'beginner', HANDS.medium), 'beginner');
        const moving = tightest ? movementCost(tightest.need, tightest.available) : 0;
        assert.equal(cost(gap), moving + (hurried ? HURRIED_COST * MILLION : 0));
      }),
      { numRuns: 300 },
    );
  });
});
