/** Strokes of the hand: down and up share one swing of the arm, down after down takes a whole one. */
import assert from 'node:assert/strict';
import { strokeRemarks, type TimedStroke } from '../../server/src/hand/strumming.ts';
import { fraction } from '../../server/src/util/fraction.ts';

const KINDS: Readonly<Record<string, TimedStroke['kind']>> = { d: 'down', u: 'up', m: 'mute', r: 'roll' };

/** `d - d u`: strokes on an even grid of so many places a second, each remark once. */
function remarks(text: string, perSecond: number): readonly string[] {
  const strokes = text.split(' ').flatMap((letter, at): TimedStroke[] => {
    const kind = KINDS[letter];
    return kind ? [{ kind, onset: fraction(at * 1000, Math.round(perSecond * 1000)) }] : [];
  });
  return [...new Set(strokeRemarks(strokes).map(({ way, rate }) => `${way} ${Math.round(rate * 10) / 10}`))];
}

describe('strumming: rates', () => {
  it('down and up in turn: ten a second are hard work, thirteen the most', () => {
    assert.deepEqual(remarks('d u d u d u', 10), []);
    assert.deepEqual(remarks('d u d u d u', 11), ['to and fro 11']);
    const [{ rates }] = strokeRemarks([
      { kind: 'down', onset: fraction(0, 1) },
      { kind: 'up', onset: fraction(1, 20) },
    ]);
    assert.equal(rates.limit, 13);
  });

  it('all the same way: half as many, since the arm goes back unheard', () => {
    assert.deepEqual(remarks('d d d d', 5), []);
    assert.deepEqual(remarks('d d d d', 6), ['down 6']);
    assert.deepEqual(remarks('u u u u', 6), ['up 6']);
    // At the same tempo, up-strokes between them change nothing of the swing.
    assert.deepEqual(remarks('d - d - d -', 10), []);
    assert.deepEqual(remarks('d - d u d u', 10), []);
  });

  it('a muted stroke falls either way, and a roll is not the arm\u2019s', () => {
    assert.deepEqual(remarks('d m d m', 9), []);
    assert.deepEqual(remarks('m m m m', 9), []);
    assert.deepEqual(remarks('d r d r', 20), []);
  });

  it('is silent about a single stroke, and about none', () => {
    assert.deepEqual(remarks('d', 5), []);
    assert.deepEqual(strokeRemarks([]), []);
  });
});
