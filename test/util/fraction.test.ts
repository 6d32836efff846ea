import assert from 'node:assert/strict';
import { fraction, parseFraction, plus, times, formatFraction, compare } from '../../server/src/util/fraction.ts';

describe('fractions', () => {
  it('are kept in lowest terms with the sign above', () => {
    assert.deepEqual(fraction(6, -8), { over: -3, under: 4 });
    assert.deepEqual(fraction(0, 5), { over: 0, under: 1 });
  });
  it('add and multiply exactly', () => {
    assert.equal(formatFraction(plus(fraction(1, 12), fraction(1, 6))), '1/4');
    assert.equal(formatFraction(times(fraction(2, 3), fraction(1, 8))), '1/12');
  });
  it('are read as a player writes a length', () => {
    assert.deepEqual(parseFraction('3/8'), { over: 3, under: 8 });
    for (const wrong of ['0/4', '1/0', '-1/4', '1/', 'x', '1/99999']) assert.equal(parseFraction(wrong), undefined);
    assert.ok(compare(fraction(1, 3), fraction(1, 4)) > 0);
  });
});
