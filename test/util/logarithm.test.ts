/** The binary logarithm of our own against the library's, which is right to a few units of the last digit. */
import assert from 'node:assert/strict';
import { binaryLogarithm } from '../../server/src/util/logarithm.ts';

describe('binary logarithm', () => {
  it('is exact for powers of two', () => {
    for (let power = -20; power <= 20; power++) assert.equal(binaryLogarithm(Math.pow(2, power)), power);
  });

  it('agrees with the library to fourteen digits', () => {
    for (let value = 0.01; value < 1000; value *= 1.037) {
      const exact = Math.log2(value);
      assert.ok(Math.abs(binaryLogarithm(value) - exact) <= 1e-14 * Math.max(1, Math.abs(exact)), `${value}`);
    }
  });
});
