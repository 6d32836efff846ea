/** Swing: pairs become long and short, two to one. */
import assert from 'node:assert/strict';
import { swungAt } from '../../server/src/realise/swing.ts';
import { formatFraction, fraction, type Fraction } from '../../server/src/util/fraction.ts';

const EIGHTH = fraction(1, 8);
const swung = (moment: Fraction, bar = fraction(1, 1), swing: Fraction | undefined = EIGHTH): string =>
  formatFraction(swungAt(moment, swing, bar));

describe('swing', () => {
  it('leaves beats where they are and brings the eighth between them on the last third of the beat', () => {
    assert.deepEqual(
      [0, 1, 2, 3].map((beat) => swung(fraction(beat, 4))),
      ['0', '1/4', '1/2', '3/4'],
    );
    // A quarter of the bar has three twelfths: the second eighth comes after two of them.
    assert.deepEqual(
      [1, 3, 5, 7].map((eighth) => swung(fraction(eighth, 8))),
      ['1/6', '5/12', '2/3', '11/12'],
    );
  });

  it('halves each part again where sixteenths go with it', () => {
    assert.deepEqual([swung(fraction(1, 16)), swung(fraction(3, 16))], ['1/12', '5/24']);
  });

  it('leaves the last eighth of an odd bar straight', () => {
    assert.equal(swung(fraction(6, 8), fraction(7, 8)), '3/4');
  });

  it('does nothing where no swing is set', () => {
    assert.deepEqual(swungAt(EIGHTH, undefined, fraction(1, 1)), EIGHTH);
  });
});
