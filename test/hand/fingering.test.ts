/** Fingerings of shapes that every player knows, and of shapes that nobody can hold. */
import assert from 'node:assert/strict';
import { formatFretList, parseFretList } from '../../server/src/fretboard/frets.ts';
import type { FretList } from '../../server/src/fretboard/frets.ts';
import { instrumentWith } from '../../server/src/fretboard/instrument.ts';
import type { Capo } from '../../server/src/fretboard/instrument.ts';
import { tuningNamed, tuningOf } from '../../server/src/fretboard/tuning.ts';
import type { Tuning } from '../../server/src/fretboard/tuning.ts';
import { judgeShape } from '../../server/src/hand/fingering.ts';
import type { HandSize, ShapeVerdict } from '../../server/src/hand/fingering.ts';
import { MOST_FINGERING_STEPS } from '../../server/src/hand/model.ts';
import { parsePitch } from '../../server/src/theory/note.ts';
import { whatIsWrong } from './checker.ts';
import { GUITAR_SHAPES, knownShapes, UKULELE_SHAPES } from './fixtures/everyday-shapes.ts';
import { impossibleShapes } from './fixtures/impossible-shapes.ts';

const named = (name: string): Tuning => tuningNamed(name) ?? assert.fail(`no tuning ${name}`);
const list = (frets: string): FretList => parseFretList(frets, 0) ?? assert.fail(`no fret list ${frets}`);
const written = (fingers: readonly (number | null)[]): string => fingers.map((finger) => finger ?? 'x').join('');

function judged(frets: string, hand: HandSize = 'medium', capo?: Capo, tuning = 'standard'): ShapeVerdict {
  return judgeShape(instrumentWith(named(tuning), { capo }), list(frets), hand);
}

const shown = (frets: string): string => written(judged(frets).fingerings[0].fingers);

describe('fingering: shapes that every player knows', () => {
  for (const [tuning, text] of [
    ['standard', GUITAR_SHAPES],
    ['ukulele', UKULELE_SHAPES],
  ] as const) {
    for (const { name, frets, fingers } of knownShapes(text)) {
      it(`${tuning}: ${name} ${frets} can be held with ${fingers.join(' or ')}`, () => {
        const verdict = judged(frets, 'medium', undefined, tuning);
        assert.equal(verdict.playable, true);
        const all = verdict.fingerings.map((each) => written(each.fingers));
        assert.ok(
          fingers.some((each) => all.includes(each)),
          `found only ${all.join(' ')}`,
        );
      });
    }
  }

  it('shows the taught fingers first for nineteen shapes in twenty', () => {
    const shapes = knownShapes(GUITAR_SHAPES);
    const other = shapes.filter(({ frets, fingers }) => !fingers.includes(shown(frets)));
    assert.ok(other.length * 20 <= shapes.length, other.map((each) => `${each.frets} ${shown(each.frets)}`).join(', '));
  });

  it('holds none of them in the extreme zone, and none is out of a small hand', () => {
    for (const { frets } of knownShapes(GUITAR_SHAPES)) {
      assert.notEqual(judged(frets).zone, 'extreme', frets);
      assert.equal(judged(frets, 'small').playable, true, frets);
    }
  });

  it('finds the chords of a first month easy and the barre chords hard', () => {
    for (const frets of ['022000', 'x02210', 'x02220', 'x32010', '320003', 'xx0232', '022100', 'xx0231']) {
      assert.ok(judged(frets).difficulty <= 3.5, `${frets} ${judged(frets).difficulty}`);
    }
    for (const frets of ['133211', 'x24432', 'x13331', '244222', '355433']) {
      assert.ok(judged(frets).difficulty > 3.5, `${frets} ${judged(frets).difficulty}`);
    }
    assert.ok(judged('133211').difficulty > judged('577655').difficulty, 'a barre is stiffest beside the nut');
  });

  it('asks nothing for open strings alone, nor for silence', () => {
    for (const frets of ['000000', 'xx000x', 'xxxxxx']) {
      const { playable, zone, difficulty, fingerings } = judged(frets);
      assert.deepEqual({ playable, zone, difficulty }, { playable: true, zone: 'comfortable', difficulty: 0 });
      assert.deepEqual(
        fingerings.map((each) => [written(each.fingers), each.cost]),
        [[frets, 0]],
      );
    }
  });

  it('says which two fingers spread, from fret to fret and how far', () => {
    // Frets 8 and 12 of a 648 mm string: the tips lie 648·(0.75·2^(-f/12) + 0.25·2^(-(f-1)/12)) from the bridge, 85.47 mm apart.
    const { zone, widest } = judged('x-x-8-x-x-12');
    assert.equal(zone, 'stretch');
    assert.deepEqual(widest, { fingers: [1, 4], frets: [8, 12], millimetres: 85.5 });
  });
});

describe('fingering: shapes that no hand holds', () => {
  for (const { frets, reason } of impossibleShapes()) {
    it(`${frets} is refused: ${reason}`, () => {
      const verdict = judged(frets);
      assert.equal(verdict.playable, false);
      assert.deepEqual([verdict.zone, verdict.difficulty, verdict.fingerings], ['unplayable', 10, []]);
      assert.equal(verdict.whyNot?.reason, reason);
    });
  }

  it('names fingers, frets, strings and millimetres of a grip that is too wide', () => {
    const whyNot = judged('1-x-x-x-x-6').whyNot;
    assert.deepEqual(
      [whyNot?.fingers, whyNot?.frets, whyNot?.strings],
      [
        [1, 4],
        [1, 6],
        [6, 1],
      ],
    );
    assert.equal(whyNot?.limit, 130);
    assert.ok((whyNot?.millimetres ?? 0) > 150);
  });

  it('counts the fingers that would be needed', () => {
    assert.equal(judged('10-11-12-13-14-x').whyNot?.needed, 5);
    assert.equal(judged('12-13-14-15-16-17').whyNot?.needed, 6);
  });

  it('names the barre and the string in its way', () => {
    const inside = judged('1-2-0-2-3-1').whyNot;
    assert.deepEqual([inside?.fingers, inside?.frets, inside?.strings], [[1], [1], [6, 1, 4]]);
    const beside = judged('1-3-4-2-1-0').whyNot;
    assert.deepEqual([beside?.fingers, beside?.frets, beside?.strings], [[1], [1], [6, 2, 1]]);
    const long = judged('1-2-3-4-x-2').whyNot;
    assert.deepEqual([long?.fingers, long?.strings, long?.limit], [[2], [5, 1], 27]);
  });

  it('refuses what the neck does not have, without a throw', () => {
    assert.equal(judged('21-x-x-x-x-x').whyNot?.reason, 'off-the-neck');
    assert.equal(judged('x-x-x-x-x-x-x').whyNot?.reason, 'off-the-neck');
    const guitar = instrumentWith(named('standard'));
    for (const fret of [-1, 1.5, NaN, Infinity]) {
      assert.equal(judgeShape(guitar, [fret, null, null, null, null, null], 'medium').whyNot?.reason, 'off-the-neck');
    }
  });

  it('lets a larger hand hold what a medium one cannot', () => {
    const playable = (hand: HandSize): boolean => judged('3-x-x-x-x-8', hand).playable;
    assert.deepEqual([playable('small'), playable('medium'), playable('large')], [false, false, true]);
  });
});

describe('fingering: capos, necks and many strings', () => {
  it('takes a capo over all strings for a nut that lies higher', () => {
    const plain = judged('022100');
    const raised = judged('022100', 'medium', { fret: 5 });
    assert.deepEqual(raised.fingerings[0].fingers, plain.fingerings[0].fingers);
    assert.ok((raised.widest?.millimetres ?? 0) < (plain.widest?.millimetres ?? 0), 'frets lie closer up the neck');
    assert.deepEqual(raised.widest?.frets, [1, 2]);
  });

  it('counts frets from the capo on the strings it covers and from the nut on the others', () => {
    // A capo at 2 on strings 5 4 3: fret 2 behind it and fret 4 on the free first string lie on one fret of the neck.
    const verdict = judged('x-x-x-2-x-4', 'medium', { fret: 2, strings: [5, 4, 3] });
    assert.equal(verdict.widest, undefined);
    assert.equal(judged('x-x-x-4-x-4').widest, undefined);
    assert.notEqual(judged('x-x-x-2-x-4').widest, undefined);
  });

  it('lays fingers in the order of the neck, not of the written frets', () => {
    // With a capo at 2 on strings 5 4 3, the twos on strings 4 and 3 lie at fret 4 and the two on the free second string at fret 2.
    const verdict = judged('002220', 'medium', { fret: 2, strings: [5, 4, 3] });
    assert.ok(verdict.playable);
    for (const { fingers } of verdict.fingerings) assert.ok(Number(fingers[4]) < Number(fingers[2]), written(fingers));
    assert.equal(judged('000000', 'medium', { fret: 2, strings: [5, 4, 3] }).difficulty, 0);
  });

  it('never comes near its limit of steps, whatever twelve strings hold', () => {
    const low = parsePitch('E2') ?? assert.fail();
    const tuning = tuningOf(Array.from({ length: 12 }, () => low)) ?? assert.fail();
    const wide = instrumentWith(tuning);
    for (const frets of [
      '1-1-1-1-1-1-1-1-1-1-1-1',
      'x-1-x-1-x-1-x-1-x-1-x-1',
      '12-12-12-12-12-12-12-12-12-12-12-12',
      '2-2-2-2-2-2-2-2-2-2-2-1',
      '1-2-1-2-1-2-1-2-1-2-1-2',
      '3-3-3-2-2-2-1-1-1-4-4-4',
      '1-0-1-0-1-0-1-0-1-0-1-0',
    ]) {
      const { steps } = judgeShape(wide, list(frets), 'large');
      assert.ok(steps > 0 && steps < MOST_FINGERING_STEPS / 2, `${frets}: ${steps}`);
    }
  });

  it('orders the fingerings by cost, then fewer fingers, then the smaller list', () => {
    for (const frets of ['x02220', 'x13331', '1-1-1-1-1-1', '022000']) {
      const { fingerings } = judged(frets);
      const keys = fingerings.map((each) => {
        const used = new Set(each.fingers.filter((finger) => finger)).size;
        return `${String(each.cost).padStart(9, '0')} ${used} ${written(each.fingers)}`;
      });
      assert.deepEqual(keys, [...keys].sort());
      assert.equal(new Set(fingerings.map((each) => written(each.fingers))).size, fingerings.length);
    }
  });

  it('shows fingerings that the independent rules allow', () => {
    for (const { frets } of knownShapes(GUITAR_SHAPES)) {
      for (const each of judged(frets).fingerings) {
        const wrong = whatIsWrong({ scaleLength: 648, capo: 0 }, list(frets), each.fingers, 'medium');
        assert.deepEqual(wrong, [], `${formatFretList(list(frets))} ${written(each.fingers)}`);
      }
    }
  });
});
