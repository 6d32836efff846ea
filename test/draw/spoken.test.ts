/** Bars and chords as they are said. */
import assert from 'node:assert/strict';
import { numberWord, spokenBar, spokenChord, spokenShape } from '../../server/src/draw/spoken.ts';
import { bar, D, EM, voicing } from '../support/score.ts';

describe('Music in words', () => {
  it('says chord symbols as players do', () => {
    const said: readonly (readonly [string, string])[] = [
      ['C', 'C'],
      ['F#m', 'F sharp minor'],
      ['Bbmaj7', 'B flat major 7'],
      ['Dadd11/F#', 'D add 11 over F sharp'],
      ['Bm7b5', 'B minor 7 flat 5'],
      ['Asus4', 'A suspended 4'],
      ['E7#9', 'E 7 sharp 9'],
      ['Gdim', 'G diminished'],
      ['C6/9', 'C 6 9'],
      ['Eb+', 'E flat augmented'],
    ];
    for (const [symbol, words] of said) assert.equal(spokenChord(symbol), words);
  });

  it('keeps what is no chord as it is written', () => {
    assert.equal(spokenChord('N.C.'), 'N.C.');
    assert.equal(spokenChord('Hm?'), 'Hm?');
  });

  it('says a bar note by note', () => {
    assert.equal(
      spokenBar(bar(2, [D], '1/8', 'p4=4+*a1=5 i3=0 r')),
      'bar 2, D sounding D add 11 over F sharp: thumb, string four, fret four, with melody, ring finger, string one, fret five; ' +
        'index, string three, open; rest',
    );
  });

  it('says strokes, accents and a pick-up', () => {
    assert.equal(
      spokenBar(bar(1, [EM], '1/4', 'down:x-x-5-0-5-7> mute:x-x-5-0-5-7')),
      'bar 1, E minor sounding E minor over G: strum down, strings four to one, fret five, open, fret five, fret seven, accented; ' +
        'muted stroke, strings four to one',
    );
    assert.equal(spokenBar(bar(0, [], '1/4', 'm2=3')), 'pick-up bar, middle, string two, fret three');
  });

  it('tells a part that was not read', () => {
    assert.equal(spokenBar({ ...bar(3, [], '1/4', ''), broken: true }), 'bar 3, a part could not be read');
  });

  it('says a shape string by string', () => {
    assert.equal(
      spokenShape(voicing({ symbol: 'C', frets: 'x-3-2-0-1-0', fingers: 'x-3-2-0-1-0' })),
      'string six silent; string five fret three, ring finger; string four fret two, middle; string three open; ' +
        'string two fret one, index; string one open',
    );
  });

  it('says numbers as words', () => {
    assert.deepEqual([0, 12, 19, 20, 24].map(numberWord), ['zero', 'twelve', 'nineteen', 'twenty', 'twenty-four']);
  });
});
