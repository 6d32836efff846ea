/** Note values, beams, triplets and ties, checked against how the trade writes such bars. */
import assert from 'node:assert/strict';
import { momentsOf } from '../../server/src/draw/moments.ts';
import { beatWords, rhythmOf, valueOf, valueWords } from '../../server/src/draw/rhythm.ts';
import { fraction, minus, parseFraction, ZERO } from '../../server/src/util/fraction.ts';
import { bar, meter } from '../support/score.ts';

/** `1/8 1/8`: values by their base, `.` for a dot, `t` for a triplet, `~` tied to the one before, `r` a rest; `( )` one beam. */
function rhythm(inMeter: string, each: string, steps: string, length = ''): string {
  const made = bar(length === '' ? 1 : 0, [], each, steps, length);
  const upbeat = length === '' ? ZERO : minus(meter(inMeter).bar, parseFraction(length)!);
  const { marks, beams, triplets } = rhythmOf(momentsOf(made), meter(inMeter), upbeat);
  const words = marks.map(({ value, rest, tied }, index) => {
    const opens = beams.some(([first]) => first === index) ? '(' : '';
    const closes = beams.some(([, last]) => last === index) ? ')' : '';
    const word = `${tied ? '~' : ''}${rest ? 'r' : ''}${value.base}${'.'.repeat(value.dots)}${value.triplet ? 't' : ''}`;
    return opens + word + closes;
  });
  return words.join(' ') + (triplets.length > 0 ? ` | ${triplets.map((three) => three.join('-')).join(' ')}` : '');
}

describe('Rhythm for drawing', () => {
  it('beams eighths by the beat', () => {
    assert.equal(rhythm('3/4', '1/8', 'p6=0 i3=0 m2=0 i3=0 m2=0 i3=0'), '(8 8) (8 8) (8 8)');
  });

  it('beams 6/8 in threes', () => {
    assert.equal(rhythm('6/8', '1/8', 'p6=0 i3=0 m2=0 a1=0 m2=0 i3=0'), '(8 8 8) (8 8 8)');
  });

  it('beams 5/8 in two and three, 7/8 in two, two and three', () => {
    assert.equal(rhythm('5/8', '1/8', 'p6=0 i3=0 m2=0 a1=0 m2=0'), '(8 8) (8 8 8)');
    assert.equal(rhythm('7/8', '1/8', 'p6=0 i3=0 m2=0 a1=0 m2=0 p5=0 i3=0'), '(8 8) (8 8) (8 8 8)');
  });

  it('gives an eighth alone a flag, and lets a rest break the beam', () => {
    assert.equal(rhythm('2/4', '1/8', 'p6=0 r m2=0 i3=0'), '8 r8 (8 8)');
    assert.equal(rhythm('3/4', '1/8', 'p6=0 i3=0:1/4 m2=0 i3=0:1/4'), '8 4 8 4');
  });

  it('lets a note last until the next one where nothing new comes', () => {
    assert.equal(rhythm('4/4', '1/8', 'p6=0 - - m2=0 - - - -'), '4. 8 ~2');
  });

  it('ties what no single note can say, on the beat from the longest down', () => {
    assert.equal(rhythm('5/4', '1/4', 'p6=0:5/4'), '1 ~4');
    assert.equal(rhythm('4/4', '1/8', 'p6=0 i3=0:5/8 m2=0:1/4'), '(8 8) ~2 4');
  });

  it('marks triplets, three notes to a group', () => {
    assert.equal(rhythm('2/4', '1/12', 'p6=0 i3=0 m2=0 p6=0:1/4'), '(8t 8t 8t) 4 | 0-2');
    assert.equal(rhythm('2/4', '1/12', 'p6=0:1/6 m2=0 p6=0:1/4'), '4t 8t 4 | 0-1');
  });

  it('counts a pick-up from the end of its bar', () => {
    assert.equal(rhythm('3/4', '1/8', 'm2=0 i3=0 m2=0', '3/8'), '8 (8 8)');
  });

  it('knows dotted and double-dotted values', () => {
    assert.equal(valueWords(valueOf(fraction(3, 8))!), 'dotted quarter');
    assert.equal(valueWords(valueOf(fraction(7, 16))!), 'double-dotted quarter');
    assert.equal(valueWords(valueOf(fraction(1, 12))!), 'eighth triplet');
    assert.equal(valueOf(fraction(5, 8)), undefined);
    assert.equal(valueOf(fraction(1, 5)), undefined);
  });

  it('names what a tempo counts', () => {
    assert.equal(beatWords(fraction(1, 4)), 'quarter');
    assert.equal(beatWords(fraction(3, 8)), 'dotted quarter');
    assert.equal(beatWords(fraction(5, 8)), '5/8');
  });
});
