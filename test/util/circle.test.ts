/** The sine, arc tangent and power of our own against the library's, which are right to a few units of the last digit. */
import assert from 'node:assert/strict';
import { arcTangent, cosine, sine } from '../../server/src/util/circle.ts';
import { powerOfTwo } from '../../server/src/util/power.ts';

const agree = (own: number, library: number, at: number): void =>
  assert.ok(Math.abs(own - library) <= 3e-15 * Math.max(1, Math.abs(library)), `${at}: ${own}, not ${library}`);

describe('functions of our own', () => {
  it('agree with the sine and the cosine', () => {
    for (let angle = -7; angle < 7; angle += 0.0137) {
      agree(sine(angle), Math.sin(angle), angle);
      agree(cosine(angle), Math.cos(angle), angle);
    }
  });

  it('agree with the arc tangent', () => {
    for (let tangent = -40; tangent < 40; tangent += 0.0173) agree(arcTangent(tangent), Math.atan(tangent), tangent);
  });

  it('agree with powers of two, which are exact for whole numbers', () => {
    for (let exponent = -30; exponent < 30; exponent += 0.0731)
      agree(powerOfTwo(exponent), Math.pow(2, exponent), exponent);
    for (let exponent = -60; exponent <= 60; exponent++) assert.equal(powerOfTwo(exponent), Math.pow(2, exponent));
  });
});
