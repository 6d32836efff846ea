/** From shape to shape: which fingers move, how far the hand goes and how long it takes. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { parseFretList } from '../../server/src/fretboard/frets.ts';
import { instrumentWith } from '../../server/src/fretboard/instrument.ts';
import { tuningNamed } from '../../server/src/fretboard/tuning.ts';
import { gripOf } from '../../server/src/hand/grip.ts';
import { heldOf } from '../../server/src/hand/held.ts';
import { judgeShape } from '../../server/src/hand/fingering.ts';
import type { HandSize, Player } from '../../server/src/hand/model.ts';
import { playerAtLevel } from '../../server/src/hand/model.ts';
import { moveBetween, movementCost, needFor, paceOf } from '../../server/src/hand/movement.ts';
import type { Move } from '../../server/src/hand/movement.ts';
import { HANDS } from '../../server/src/hand/search.ts';
import type { Held } from '../../server/src/hand/search.ts';
import { tip } from './checker.ts';

const guitar = instrumentWith(tuningNamed('standard') ?? assert.fail());
const NECK = { scaleLength: 648, capo: 0 };

/** `x32010 x32010`: frets, then fingers, low string first. */
function held(text: string): Held {
  const [frets, fingers] = text.split(' ').map((list) => parseFretList(list, 6) ?? assert.fail(list));
  return heldOf(gripOf(guitar, frets), fingers);
}

const move = (from: string, to: string, player: Player = 'advanced', size: HandSize = 'medium'): Move =>
  moveBetween(held(from), held(to), player, HANDS[size]);

const C = 'x32010 x32010';
const AM = 'x02210 x02310';
const D = 'xx0232 xx0132';
const G = '320003 210003';
const F = '133211 134211';
const G_BARRE = '355433 134211';

describe('movement: which fingers move', () => {
  it('from C to Am the ring finger alone goes to another string', () => {
    const { moved, guides, stays, shift } = move(C, AM);
    assert.deepEqual({ moved, guides, stays, shift }, { moved: [3], guides: [], stays: [1, 2], shift: 0 });
  });

  it('a shape that is held already, or whose fingers all lie there, needs nothing', () => {
    for (const [from, to] of [
      [C, C],
      ['x32010 x32010', 'x3x01x x3x01x'],
      ['133211 134211', 'xxx211 xxx211'],
      ['xx0000 xx0000', '000000 000000'],
      [F, '000000 000000'],
    ]) {
      assert.equal(move(from, to).need, 0, `${from} to ${to}`);
      assert.deepEqual(move(from, to).moved, []);
    }
  });

  it('a barre that slides up two frets leads with every finger and is no new barre', () => {
    const { moved, guides, stays, shift } = move(F, G_BARRE);
    assert.deepEqual([moved, guides, stays], [[1, 2, 3, 4], [1, 2, 3, 4], []]);
    // The mean of the fingers goes as the fingertips do: the index from fret 1 to 3, the second 2 to 4, the others 3 to 5.
    const away = [1, 2, 3, 3].map((fret) => tip(NECK, fret + 2) - tip(NECK, fret));
    assert.ok(Math.abs(shift - away.reduce((sum, each) => sum + each) / 4) < 1e-9);
    assert.ok(shift > 60 && shift < 70, `${shift}`);
  });

  it('the third finger leads from D to a D shape two frets up', () => {
    assert.deepEqual(move(D, 'xx0454 xx0132').guides, [1, 2, 3]);
    assert.deepEqual(move(G, D).guides, []);
  });

  it('a hand that goes down moves downwards, and a lean of less than 12 mm is no shift', () => {
    assert.ok(move(G_BARRE, F).shift < -60);
    assert.equal(move(C, AM).shift, 0);
    assert.equal(move('x00000 x00000', G_BARRE).shift, 0);
  });
});

describe('movement: how long it takes', () => {
  it('follows the formula for one finger that changes its string: C to Am', () => {
    // H of C and of Am: the means of the three fingertips less 0, 24 and 48 mm; only the ring finger differs, fret 3 against fret 2.
    const lean = (tip(NECK, 2) - tip(NECK, 3)) / 3;
    const own = Math.abs(tip(NECK, 2) - tip(NECK, 3) - lean) + 4 + 6;
    const seconds = 0.06 + 0.05 * Math.log2(1 + own / 8);
    assert.equal(move(C, AM, 'advanced').need, Math.round(1e6 * seconds));
    assert.equal(move(C, AM, 'intermediate').need, Math.round(1.6e6 * seconds));
    assert.equal(move(C, AM, 'beginner').need, Math.round(3e6 * seconds));
  });

  it('follows the formula for a shape set from the air: 25 mm, and each further finger', () => {
    const fromAir = 0.06 + 0.05 * Math.log2(1 + 25 / 8);
    assert.equal(move('x00000 x00000', C, 'beginner').need, Math.round(1e6 * (3 * fromAir + 0.15 * 2)));
    assert.equal(move('x00000 x00000', F, 'beginner').need, Math.round(1e6 * (3 * (fromAir + 0.05) + 0.15 * 3)));
  });

  it('follows the formula for a barre shape that slides: shift, own ways, four guides', () => {
    const away = [1, 2, 3, 3].map((fret) => tip(NECK, fret + 2) - tip(NECK, fret));
    const shift = away.reduce((sum, each) => sum + each) / 4;
    const own = Math.max(...away.map((each) => Math.abs(each - shift) + 4));
    const hand = 0.06 + 0.07 * Math.log2(1 + shift / 20) + 0.05 * Math.log2(1 + own / 8);
    assert.equal(move(F, G_BARRE, 'intermediate').need, Math.round(1e6 * (1.6 * hand + 0.05 * (4 - 1 - 2))));
  });

  it('puts changes in the order in which players learn them', () => {
    const needs = [
      move(C, AM).need,
      move('022000 023000', AM).need,
      move(C, G).need,
      move(C, '8-10-10-9-8-8 1-3-4-2-1-1').need,
    ];
    assert.deepEqual(
      [...needs].sort((a, b) => a - b),
      needs,
    );
  });

  it('asks for more of a beginner than of others, always', () => {
    const shapes = [C, AM, D, G, F, G_BARRE];
    for (const from of shapes) {
      for (const to of shapes) {
        if (from === to) continue;
        const [beginner, intermediate, advanced] = (['beginner', 'intermediate', 'advanced'] as const).map(
          (player) => move(from, to, player).need,
        );
        assert.ok(beginner > intermediate && intermediate > advanced && advanced > 0, `${from} to ${to}`);
      }
    }
  });

  it('knows the player by the level of the lesson', () => {
    assert.deepEqual([undefined, 1, 2, 3, 4, 5].map(playerAtLevel), [
      'intermediate',
      'beginner',
      'beginner',
      'intermediate',
      'advanced',
      'advanced',
    ]);
  });

  it('is a whole number, never negative, and the same however often it is asked', () => {
    const frets = fc.array(fc.constantFrom(null, 0, 0, 1, 2, 3, 4), { minLength: 6, maxLength: 6 });
    const at = fc.integer({ min: 0, max: 11 });
    fc.assert(
      fc.property(frets, at, frets, at, fc.constantFrom('small', 'medium', 'large'), (one, up, other, down, size) => {
        const [from, to] = [
          [one, up],
          [other, down],
        ].map(([list, raised]) => {
          const moved = (list as (number | null)[]).map((fret) => (fret ? fret + (raised as number) : fret));
          const fingering = judgeShape(guitar, moved, size).fingerings[0];
          return fingering && heldOf(gripOf(guitar, moved), fingering.fingers);
        });
        fc.pre(from !== undefined && to !== undefined);
        const found = moveBetween(from, to, 'intermediate', HANDS[size]);
        assert.ok(Number.isInteger(found.need) && found.need >= 0);
        assert.equal(found.need, needFor(from, to, 'intermediate', HANDS[size]));
        assert.equal(found.need === 0, found.moved.length === 0);
        assert.ok(found.guides.every((finger) => found.moved.includes(finger)));
        assert.equal(needFor(to, to, 'beginner', HANDS[size]), 0);
      }),
      { numRuns: 300 },
    );
  });
});

describe('movement: in the time there is', () => {
  it('names the pace by the part of the time that is needed', () => {
    assert.equal(paceOf(60, 100), 'easy');
    assert.equal(paceOf(61, 100), 'fine');
    assert.equal(paceOf(85, 100), 'fine');
    assert.equal(paceOf(100, 100), 'tight');
    assert.equal(paceOf(101, 100), 'too fast');
    assert.equal(paceOf(130, 100), 'too fast');
    assert.equal(paceOf(131, 100), 'not playable');
    assert.equal(paceOf(1, 0), 'not playable');
    assert.equal(paceOf(0, 0), 'easy');
  });

  it('costs four times the part, at most eight', () => {
    assert.equal(movementCost(250_000, 1_000_000), 1_000_000);
    assert.equal(movementCost(1_000_000, 1_000_000), 4_000_000);
    assert.equal(movementCost(5_000_000, 1_000_000), 8_000_000);
    assert.equal(movementCost(1, 0), 8_000_000);
    assert.equal(movementCost(0, 0), 0);
  });
});
