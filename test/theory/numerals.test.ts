import assert from 'node:assert/strict';
import { parseChord } from '../../server/src/theory/chord.ts';
import { parseKey } from '../../server/src/theory/key.ts';
import { formatNoteName } from '../../server/src/theory/note.ts';
import { looksLikeNumeral, numeralOf, parseNumeral } from '../../server/src/theory/numeral.ts';

const symbol = (numeral: string, key: string): string | undefined => parseNumeral(numeral, parseKey(key)!)?.symbol;

/** numeral | key | chord, counted on the fingers */
const NUMERALS = `
I        | G major | G
vi7      | G major | Em7
IVmaj7   | C major | Fmaj7
ii       | Bb major | Cm
V7sus4   | C major | G7sus4
I6/9     | C major | C6/9
viiø7    | C major | Bm7b5
vii°     | C major | Bdim
I+       | C major | Caug
Iadd9    | D major | Dadd9
iadd9    | A minor | Amadd9
imaj7    | A minor | Am(maj7)
iim7     | C major | Dm7
ii7sus4  | C major | D7sus4
V5       | C major | G5
iv       | C major | Fm
IVm      | C major | Fm
bVII     | C major | Bb
bVI      | C major | Ab
♭III     | E major | G
#ivø7    | C major | F#m7b5
bII      | E minor | F
IV       | D dorian | G
bVII     | G mixolydian | F
VII      | G mixolydian | F
i        | A minor pentatonic | Am
IV       | A minor pentatonic | D
VI       | A minor | F
VII      | A minor | G
III      | A minor | C
bVII     | A minor | G
VI       | A harmonic minor | F
iiø7     | A minor | Bm7b5
V7       | A minor | E7
vii°7    | A minor | G#dim7
V7/V     | C major | D7
V/vi     | C major | E
V7/ii    | C major | A7
V7(b9)/ii | C major | A7b9
ii7/V    | C major | Am7
iiø7/ii  | C major | Em7b5
vii°7/V  | C major | F#dim7
vii°7/vi | C major | G#dim7
V7/V/V   | C major | A7
V7/bVII  | C major | F7
V/iii    | F# major | E#
`;

describe('numerals', () => {
  for (const row of NUMERALS.split('\n').filter((line) => line.includes('|'))) {
    const [numeral, key, meant] = row.split('|').map((part) => part.trim());
    it(`${numeral} in ${key} is ${meant}`, () => assert.equal(symbol(numeral, key), meant));
  }
  it('are spelled from the key: the raised third of V/V is a sharp', () => {
    const notes = (numeral: string, key: string): string =>
      parseNumeral(numeral, parseKey(key)!)!
        .tones.map((tone) => formatNoteName(tone.name))
        .join(' ');
    assert.equal(notes('V7/V', 'C major'), 'D F# A C');
    assert.equal(notes('V', 'C# minor'), 'G# B# D#');
    assert.equal(notes('V/vi', 'E major'), 'G# B# D#');
    assert.equal(notes('V/iii', 'F# major'), 'E# G## B#');
  });
  it('are told from names and chords', () => {
    for (const text of ['I', 'V7/V', 'bVII', 'vi7', 'IVmaj7', 'iiø7', 'vii°7', '#ivø7', 'V+', 'V7b9', 'viio7']) {
      assert.ok(looksLikeNumeral(text), text);
    }
    for (const text of ['verse', 'intro', 'ivory', 'viola', 'C', 'Bb', 'b', 'vamp', 'Iv', 'iV', '']) {
      assert.ok(!looksLikeNumeral(text), text);
    }
  });
  it('are undefined where they make no chord', () => {
    for (const text of ['V/', 'V7/C', 'VIII', 'bbbI', 'I7foo', 'V/V/V/V/V/V/V']) {
      assert.equal(symbol(text, 'C major'), undefined, text);
    }
  });
});

describe('the numeral of a chord', () => {
  const numeral = (chord: string, key: string): string | undefined => numeralOf(parseChord(chord)!, parseKey(key)!);
  it('is the one that a player would write', () => {
    const rows: readonly (readonly [string, string, string])[] = [
      ['Am7', 'C major', 'vi7'],
      ['Bb', 'C major', 'bVII'],
      ['G7', 'C major', 'V7'],
      ['C7', 'C major', 'I7'],
      ['D7', 'C major', 'V7/V'],
      ['E7', 'C major', 'V7/vi'],
      ['F#m7b5', 'C major', '#ivø7'],
      ['Bdim', 'C major', 'vii°'],
      ['Ebmaj7', 'C minor', 'IIImaj7'],
      ['G', 'A minor', 'VII'],
      ['G#dim7', 'A minor', 'vii°7'],
      ['E7', 'A minor', 'V7'],
      ['Caug', 'A minor', 'III+'],
      ['C/E', 'C major', 'I'],
    ];
    for (const [chord, key, meant] of rows) assert.equal(numeral(chord, key), meant, `${chord} in ${key}`);
  });
  it('reads back to the same chord', () => {
    const chords =
      'C Db D Eb E F F# G Ab A Bb B Cm C#m Dm Ebm Em Fm F#m Gm G#m Am Bbm Bm Bdim F#dim7 Bm7b5 Caug G7sus4 Cm(maj7)';
    for (const key of ['C major', 'A minor', 'Eb major', 'E dorian', 'F# minor', 'G minor pentatonic']) {
      for (const chord of chords.split(' ')) {
        const written = numeral(chord, key);
        if (written !== undefined) assert.equal(symbol(written, key), parseChord(chord)!.symbol, `${chord} in ${key}`);
      }
    }
    assert.equal(numeral('Cb', 'C# major'), 'bbI');
  });
});
