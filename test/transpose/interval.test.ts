/** How far keys lie apart, and where on the neck a part goes. */
import assert from 'node:assert/strict';
import { formatKey, parseKey } from '../../server/src/theory/key.ts';
import { intervalBetween, shiftOf } from '../../server/src/transpose/interval.ts';
import { keysNearby, targetKey } from '../../server/src/transpose/target-key.ts';

const between = (from: string, to: string) => intervalBetween(parseKey(from)!, parseKey(to)!);
const anywhere = (): boolean => true;

describe('the interval between keys', () => {
  it('counts letters and semitones up, and the nearer way', () => {
    assert.deepEqual(between('G major', 'A major'), { letters: 1, semitones: 2, nearest: 2 });
    assert.deepEqual(between('G major', 'Bb major'), { letters: 2, semitones: 3, nearest: 3 });
    assert.deepEqual(between('A minor', 'G minor'), { letters: 6, semitones: 10, nearest: -2 });
    assert.deepEqual(between('C major', 'B# major'), { letters: 6, semitones: 0, nearest: 0 });
  });
  it('goes half an octave up as an augmented fourth and down as a diminished fifth, so that it comes back', () => {
    assert.equal(between('C major', 'F# major').nearest, 6);
    assert.equal(between('F# major', 'C major').nearest, -6);
    assert.equal(between('C major', 'Gb major').nearest, -6);
    assert.equal(between('Gb major', 'C major').nearest, 6);
  });
  it('is undone by the interval back, for every two tonics', () => {
    const tonics = ['C', 'C#', 'Db', 'D', 'Eb', 'E', 'F', 'F#', 'Gb', 'G', 'Ab', 'A', 'Bb', 'B', 'Cb'];
    for (const a of tonics) {
      for (const b of tonics) {
        const [there, back] = [between(`${a} major`, `${b} major`), between(`${b} major`, `${a} major`)];
        assert.equal((there.letters + back.letters) % 7, 0);
        assert.equal((there.semitones + back.semitones) % 12, 0);
        assert.equal(there.nearest + back.nearest, 0, `${a} ${b}`);
      }
    }
  });
});

describe('the place of a part on the neck', () => {
  const up = (semitones: number) => ({ letters: 0, semitones, nearest: 0 });
  it('stays in its octave, whose end joins its beginning', () => {
    assert.equal(shiftOf(3, 0, up(2), anywhere)?.frets, 2);
    assert.equal(shiftOf(0, 0, up(10), anywhere)?.frets, 10);
    assert.equal(shiftOf(10, 0, up(2), anywhere)?.frets, -10);
    assert.equal(shiftOf(14, 0, up(10), anywhere)?.frets, -2);
    assert.equal(shiftOf(12, 1, up(1), anywhere)?.frets, -11);
    assert.equal(shiftOf(8, 1, up(4), anywhere)?.frets, 4);
  });
  it('is one to one: no two frets meet, and the way back leads home', () => {
    for (const first of [0, 1] as const) {
      for (let semitones = 0; semitones < 12; semitones++) {
        const places = new Set<number>();
        for (let fret: number = first; fret < first + 24; fret++) {
          const there = fret + shiftOf(fret, first, up(semitones), anywhere)!.frets;
          places.add(there);
          assert.equal(there + shiftOf(there, first, up((12 - semitones) % 12), anywhere)!.frets, fret);
        }
        assert.equal(places.size, 24);
      }
    }
  });
  it('is an octave lower where the neck ends, and nowhere where that is below the nut', () => {
    const neck = (lowest: number) => (by: number) => lowest + by <= 15;
    assert.deepEqual(shiftOf(14, 0, up(3), neck(14)), { frets: -9, returns: false });
    assert.equal(
      shiftOf(0, 0, up(10), (by) => 8 + by <= 15),
      undefined,
    );
  });
});

describe('the keys to choose from', () => {
  it('are the eleven others of the same mode, the nearest first, with few signs', () => {
    const nearby = (key: string): string =>
      keysNearby(parseKey(key)!)
        .map((one) => formatKey(one).split(' ')[0])
        .join(' ');
    assert.equal(nearby('G major'), 'Ab F# A F Bb E B Eb C D Db');
    assert.equal(nearby('A minor'), 'Bb G# B G C F# C# F D E Eb');
  });
  it('are read as a tonic in the mode of the lesson, or whole', () => {
    const lesson = parseKey('E minor')!;
    const read = (text: string): string => {
      const key = targetKey(text, lesson);
      return typeof key === 'string' ? key : formatKey(key);
    };
    assert.equal(read('A'), 'A minor');
    assert.equal(read('bb'), 'Bb minor');
    assert.equal(read('F# minor'), 'F# minor');
    assert.equal(read('Am'), 'A minor');
    assert.equal(read('A aeolian'), 'A minor');
    assert.equal(read('A major'), 'other-mode');
    assert.equal(read('H'), 'no-key');
    assert.equal(read(''), 'no-key');
  });
});
