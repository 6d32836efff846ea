/** The plucking hand: rates, repeats, crossings, and fingers for notes that name none. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { pluckRemarks, ratesOf, speedOf, PLUCK_FINGERS } from '../../server/src/hand/plucking.ts';
import type { PluckFinger, TimedPluck } from '../../server/src/hand/plucking.ts';
import { choosePluckFingers } from '../../server/src/hand/plucking-choice.ts';
import type { OpenPluck } from '../../server/src/hand/plucking-choice.ts';
import { fraction, plus, times, ZERO } from '../../server/src/util/fraction.ts';
import type { Fraction } from '../../server/src/util/fraction.ts';

/** `p6+a1 i3 m2`: a row of moments so many of which fill a second; `?1` is a pluck without a finger. */
function row(text: string, perSecond: number): OpenPluck[] {
  const plucks: OpenPluck[] = [];
  let onset: Fraction = ZERO;
  for (const moment of text.split(' ')) {
    for (const pluck of moment.split('+')) {
      if (pluck === '-') continue;
      const finger = pluck[0] === '?' ? undefined : (pluck[0] as PluckFinger);
      plucks.push({ ...(finger && { finger }), string: Number(pluck.slice(1)), onset });
    }
    onset = plus(onset, fraction(1000, Math.round(perSecond * 1000)));
  }
  return plucks;
}

const named = (plucks: readonly OpenPluck[]): TimedPluck[] =>
  plucks.map((pluck) => ({ ...pluck, finger: pluck.finger ?? assert.fail('no finger') }));

/** `finger-fast m 6`, each once. */
function remarks(text: string, perSecond: number): string[] {
  const told = pluckRemarks(named(row(text, perSecond))).map(({ kind, fingers, strings, rate }) =>
    [kind, fingers.join(''), strings.join(' '), rate ?? ''].join(' ').trim(),
  );
  return [...new Set(told)];
}

const chosen = (text: string, perSecond: number): string => choosePluckFingers(row(text, perSecond)).join(' ');

describe('plucking hand: rates', () => {
  it('one finger: three a second with ease, five hard, six and a half at the most', () => {
    const speeds = [3, 3.1, 5, 5.1, 6.5, 6.6].map((rate) => speedOf(rate, ratesOf('i')));
    assert.deepEqual(speeds, ['comfortable', 'brisk', 'brisk', 'hard', 'hard', 'beyond']);
    assert.equal(speedOf(6.5, ratesOf('p')), 'hard');
    // 15 % less for the ring and the little finger: 2.55, 4.25, 5.525.
    assert.deepEqual(
      [4.2, 4.3, 5.5, 5.6].map((rate) => speedOf(rate, ratesOf('a'))),
      ['brisk', 'hard', 'hard', 'beyond'],
    );
  });

  it('a finger that plucks on and on is remarked on above five a second', () => {
    assert.deepEqual(remarks('i1 i1 i1', 5), []);
    assert.deepEqual(remarks('i1 i1 i1', 6), ['finger-fast i 1 6']);
    assert.deepEqual(remarks('a1 a1 a1', 4.5), ['finger-fast a 1 4.5']);
    assert.deepEqual(remarks('p6 p5 p4', 6), ['finger-fast p 6 5 6', 'finger-fast p 5 4 6']);
  });

  it('index and middle in turn do nine a second, with the ring finger less', () => {
    assert.deepEqual(remarks('i1 m1 i1 m1 i1', 9), []);
    assert.deepEqual(remarks('i1 m1 i1 m1 i1', 10), ['hand-fast im 1 1 10']);
    // 15 % less than nine.
    assert.deepEqual(remarks('m1 a1 m1 a1', 8), ['hand-fast ma 1 1 8']);
  });

  it('a broken chord with all fingers does eleven', () => {
    assert.deepEqual(remarks('p4 a1 m2 i3 p4 a1 m2 i3', 11), []);
    assert.deepEqual(remarks('p4 i3 m2 a1', 12), ['hand-fast pima 4 3 2 1 12']);
  });

  it('quarters at 84 in eighths, thumb, index and middle in turn: nothing to say', () => {
    assert.deepEqual(remarks('p4 i3 m2 i3 m2 i3 p4 i3 m2 i3 m2 i3', 2.8), []);
  });
});

describe('plucking hand: who is where', () => {
  it('one finger cannot be on two strings at once, but the thumb may brush neighbours', () => {
    assert.deepEqual(remarks('p6+p4', 2), ['two-places p 6 4']);
    assert.deepEqual(remarks('p6+p5', 2), []);
    assert.deepEqual(remarks('m2+m1', 2), ['two-places m 2 1']);
    assert.deepEqual(remarks('p5+i3+m2+a1', 2), []);
  });

  it('two fingers cannot pluck one string at once', () => {
    assert.deepEqual(remarks('i2+m2', 2), ['one-string im 2']);
  });

  it('the same finger from string to string is worth a word only when fast, and the thumb may always', () => {
    assert.deepEqual(remarks('i3 i2', 2), []);
    assert.deepEqual(remarks('i3 i2', 4), ['hop i 3 2 4']);
    assert.deepEqual(remarks('i3 i3', 4), []);
    assert.deepEqual(remarks('p6 p4 p5 p4', 4), []);
  });

  it('fingers cross where the middle plucks above the ring finger, close in time', () => {
    assert.deepEqual(remarks('m1+a2', 2), ['crossing ma 1 2']);
    assert.deepEqual(remarks('a2 m1', 4), ['crossing ma 1 2']);
    assert.deepEqual(remarks('a2 m1', 2), []);
    assert.deepEqual(remarks('p5+i4 m2+a1', 4), []);
    assert.deepEqual(remarks('p2 i3', 4), ['crossing pi 2 3']);
  });

  it('says at which pluck it shows', () => {
    assert.deepEqual(
      pluckRemarks(named(row('p6 i3 p6+p4', 2))).map(({ at }) => at),
      [3],
    );
  });
});

describe('plucking hand: fingers for notes that name none', () => {
  it('takes the ring finger for a melody on the first string over thumb, index and middle', () => {
    assert.equal(chosen('p4 i3 m2+?1 i3 m2 i3+?1', 2.8), 'p i m a i m i a');
  });

  it('alternates where one finger would be too fast', () => {
    const fingers = chosen('?1 ?1 ?1 ?1 ?1 ?1', 8).split(' ');
    for (let at = 1; at < fingers.length; at++) assert.notEqual(fingers[at], fingers[at - 1], fingers.join());
  });

  it('keeps one finger where there is time', () => {
    assert.equal(chosen('?1 ?1 ?1', 2), 'a a a');
  });

  it('leaves the bass to the thumb, and keeps out of the way of a named one', () => {
    assert.equal(chosen('?6 i3 ?5 m2', 2), 'p i p m');
    assert.equal(chosen('a1+?2', 2), 'a m');
    assert.equal(chosen('p4+?5', 2).split(' ')[1] === 'p', false);
  });

  const names = fc.constantFrom<PluckFinger | undefined>(...PLUCK_FINGERS, undefined);
  const rows = fc
    .array(fc.record({ finger: names, string: fc.integer({ min: 1, max: 6 }), wait: fc.nat(4) }), { maxLength: 30 })
    .map((list) => {
      let onset = ZERO;
      return list.map(({ finger, string, wait }): OpenPluck => {
        onset = plus(onset, times(fraction(wait), fraction(1, 12)));
        return { ...(finger && { finger }), string, onset };
      });
    });

  it('changes no named finger, gives every other one, and the same each time', () => {
    fc.assert(
      fc.property(rows, (plucks) => {
        const fingers = choosePluckFingers(plucks);
        assert.equal(fingers.length, plucks.length);
        plucks.forEach(({ finger }, at) => assert.ok(finger === undefined || finger === fingers[at]));
        assert.ok(fingers.every((finger) => PLUCK_FINGERS.includes(finger)));
        assert.deepEqual(choosePluckFingers(plucks), fingers);
      }),
      { numRuns: 200 },
    );
  });

  it('one more open note never takes two strings with one finger where another finger is free', () => {
    fc.assert(
      fc.property(fc.subarray([...PLUCK_FINGERS], { maxLength: 4 }), fc.integer({ min: 1, max: 6 }), (used, string) => {
        const others = [6, 5, 4, 3, 2, 1].filter((each) => each !== string).slice(0, used.length);
        const together = used.map((finger, at): OpenPluck => ({ finger, string: others[at], onset: ZERO }));
        const fingers = choosePluckFingers([...together, { string, onset: ZERO }]);
        assert.equal(new Set(fingers).size, fingers.length, fingers.join());
      }),
    );
  });

  it('half the tempo never gives more remarks on speed', () => {
    fc.assert(
      fc.property(rows, (plucks) => {
        const filled = plucks.map((pluck, at) => ({ ...pluck, finger: choosePluckFingers(plucks)[at] }));
        const slow = filled.map((pluck) => ({ ...pluck, onset: times(pluck.onset, fraction(2)) }));
        const kinds = new Set(['finger-fast', 'hand-fast']);
        const rapid = (list: readonly TimedPluck[]): number =>
          pluckRemarks(list).filter(({ kind }) => kinds.has(kind)).length;
        assert.ok(rapid(slow) <= rapid(filled));
      }),
      { numRuns: 200 },
    );
  });
});
