import assert from 'node:assert/strict';
import { parseChord } from '../../server/src/theory/chord.ts';
import * as keys from '../../server/src/theory/key.ts';
import { formatNoteName, formatPitch, parsePitch } from '../../server/src/theory/note.ts';
import { namedScales } from '../../server/src/theory/tonal.ts';

const key = (text: string): keys.Key => {
  const read = keys.parseKey(text);
  assert.ok(read, `${text} is not read`);
  return read;
};
const scale = (text: string): string => key(text).scale.map(formatNoteName).join(' ');

describe('keys', () => {
  it('have the scales of the books, one letter a note', () => {
    const scales: Readonly<Record<string, string>> = {
      'G major': 'G A B C D E F#',
      'F major': 'F G A Bb C D E',
      'Gb major': 'Gb Ab Bb Cb Db Eb F',
      'C# major': 'C# D# E# F# G# A# B#',
      'G# major': 'G# A# B# C# D# E# F##',
      'E minor': 'E F# G A B C D',
      'D dorian': 'D E F G A B C',
      'E phrygian': 'E F G A B C D',
      'F lydian': 'F G A B C D E',
      'G mixolydian': 'G A B C D E F',
      'B locrian': 'B C D E F G A',
      'A harmonic minor': 'A B C D E F G#',
      'A melodic minor': 'A B C D E F# G#',
      'E phrygian dominant': 'E F G# A B C D',
      'C lydian dominant': 'C D E F# G A Bb',
      'A minor pentatonic': 'A C D E G',
      'G major pentatonic': 'G A B D E',
      'A minor blues': 'A C D Eb E G',
      'C whole tone': 'C D E F# G# A#',
    };
    for (const [name, meant] of Object.entries(scales)) assert.equal(scale(name), meant, name);
  });
  it('are read as people write them', () => {
    const spellings: Readonly<Record<string, string>> = {
      'd major': 'D major',
      Gmaj: 'G major',
      Am: 'A minor',
      AM: 'A major',
      G: 'G major',
      'bb minor': 'Bb minor',
      'b minor': 'B minor',
      'f sharp minor': 'F# minor',
      'G-flat major': 'Gb major',
      'F♯ minor': 'F# minor',
      'A natural minor': 'A minor',
      'E blues': 'E minor blues',
      'A Minor Pentatonic': 'A minor pentatonic',
      'a pentatonic minor': 'A minor pentatonic',
      'D  Dorian': 'D dorian',
      'C# harmonic-minor': 'C# harmonic minor',
      'A ionian': 'A ionian',
      'D major scale': 'D major',
    };
    for (const [written, meant] of Object.entries(spellings))
      assert.equal(keys.formatKey(key(written)), meant, written);
  });
  it('are undefined where tonic or mode are none', () => {
    for (const wrong of ['H major', 'C foo', '', 'major', 'X dorian', 'C majorish', 'Cmaj7', '12']) {
      assert.equal(keys.parseKey(wrong), undefined, wrong);
    }
  });
  it('are written so that they read back, every mode on every usual tonic', () => {
    for (const mode of keys.modeNames()) {
      for (const tonic of ['C', 'F#', 'Bb', 'B']) {
        assert.equal(keys.formatKey(key(`${tonic} ${mode}`)), `${tonic} ${mode}`);
      }
    }
  });
  it('have the signature that is printed for them', () => {
    const signatures: Readonly<Record<string, number>> = {
      'C major': 0,
      'A minor': 0,
      'D dorian': 0,
      'E minor': 1,
      'Gb major': -6,
      'F# minor': 3,
      'G mixolydian': 0,
      'F lydian': 0,
      'Eb minor': -6,
      'A minor pentatonic': 0,
      'A harmonic minor': 0,
    };
    for (const [name, fifths] of Object.entries(signatures)) assert.equal(keys.keySignature(key(name)), fifths, name);
  });
  it('come from tables that nobody can spoil', () => {
    const [first] = namedScales();
    assert.ok(Object.isFrozen(namedScales()) && Object.isFrozen(first) && Object.isFrozen(first.notes));
    assert.throws(() => (first.notes as unknown[]).push(1));
  });
});

describe('steps of a scale', () => {
  const step = (name: string, from: string, steps: number): string =>
    formatPitch(keys.scaleStep(key(name).scale, parsePitch(from)!, steps));
  it('go up and down and over the octave', () => {
    assert.equal(step('G major', 'D4', 1), 'E4');
    assert.equal(step('G major', 'D4', -1), 'C4');
    assert.equal(step('C major', 'B4', 1), 'C5');
    assert.equal(step('C major', 'C4', -1), 'B3');
    assert.equal(step('C major', 'C4', 9), 'E5');
    assert.equal(step('C major', 'C4', -8), 'B2');
    assert.equal(step('A minor pentatonic', 'E4', 1), 'G4');
    assert.equal(step('Cb major', 'Cb4', -1), 'Bb3');
    assert.equal(step('C# major', 'A#3', 1), 'B#3');
  });
  it('stay for 0, whatever the start', () => {
    assert.equal(step('C major', 'F#4', 0), 'F#4');
  });
  it("count a start outside the scale from its letter's place", () => {
    assert.equal(step('C major', 'F#4', 1), 'G4');
    assert.equal(step('C major', 'F#4', -1), 'E4');
    assert.equal(step('G major', 'F4', 1), 'G4');
    assert.equal(step('C major', 'Db4', 1), 'E4');
    assert.equal(step('C major', 'Db4', -1), 'C4');
  });
  it('start with the nearest note of that direction where the scale has no such letter', () => {
    assert.equal(step('A minor pentatonic', 'B4', 1), 'C5');
    assert.equal(step('A minor pentatonic', 'B4', -1), 'A4');
    assert.equal(step('A minor pentatonic', 'F#4', 2), 'A4');
    assert.equal(step('C major pentatonic', 'B4', 1), 'C5');
    assert.equal(step('D major pentatonic', 'C4', -1), 'B3');
  });
});

describe('the scale over a chord', () => {
  const over = (name: string, symbol: string): string =>
    keys.scaleOver(key(name), parseChord(symbol)!).map(formatNoteName).join(' ');
  it("has the chord's tones in place of its own on the same letters", () => {
    assert.equal(over('A minor', 'E7'), 'A B C D E F G#');
    assert.equal(over('C major', 'D7'), 'C D E F# G A B');
    assert.equal(over('C major', 'Fm'), 'C D E F G Ab B');
    assert.equal(over('G major', 'Em'), 'G A B C D E F#');
  });
  it('has no pitch class twice and adds no letter', () => {
    assert.equal(over('F minor', 'A7'), 'F G A Bb C# E');
    assert.equal(over('A minor pentatonic', 'E7'), 'A C D E G#');
  });
  it('has room for both altered ninths', () => {
    assert.equal(over('C major', 'C7(b9,#9)'), 'C Db D# E F G A Bb');
  });
});
