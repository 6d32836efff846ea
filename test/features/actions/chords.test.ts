/** What can be done to a chord: another voicing, a pin, another way to write it. */
import assert from 'node:assert/strict';
import { actionLines, checkAction } from '../../support/check-actions.ts';

/** Third, root and fifth on strings 4, 2 and 1, and the open third string over all of them. */
const LAMPS = `
  key G major

  shape lamp
    strings 4 2 1
    tones 3 R 5
    open 3
    frets 1 to 12
    reach 2

  progression quay
    G | D | Em | % | N.C.

  section verse
    progression quay
    shape lamp
`;
const at = (marked: string, lesson = LAMPS): string => lesson.replace('G | D | Em | % | N.C.', marked);

describe('the next voicing', () => {
  // C E G on strings 4 2 1 with the third lowest: E at fret 2 or 14 of string 4, C at 1 or 13, G at 3 or 15; only one within 12 frets.
  it('is not there where the shape has one', () =>
    assert.deepEqual(actionLines(at('C<|>'), 'next'), [
      'Take the next voicing of C -- Its shape has this one voicing of C.',
    ]));
  it('is the easiest after the one that is played, and the first again in the end', () => {
    const lesson = LAMPS.replace('frets 1 to 12', 'frets 1 to 20');
    // Em lies at 5 to 7, and an octave above, where the frets are narrower and the same fingers stand closer.
    checkAction(at('Em<|> at 17', lesson), 'next', '    Em at 5');
    checkAction(at('Em<|> at 5', lesson), 'next', '    Em at 17');
  });
  it('says what it is, and where else it is played', () => {
    const lesson = `${LAMPS.replace('frets 1 to 12', 'frets 1 to 20')}
  section again
    progression quay
    shape lamp
`;
    assert.deepEqual(actionLines(at('E<|>m at 5', lesson), 'next'), [
      'Take the next voicing: Em at 17 (x-x-17-0-17-19, sounds Em/G); the same words are played at one more place',
    ]);
  });
  it('cannot be written where a chord is only repeated', () =>
    assert.match(actionLines(at('Em | <|>%', LAMPS.replace('to 12', 'to 20')), 'next')[0], /-- This bar repeats/));
});

describe('a pin', () => {
  it('is the position that the engine chose, or the frets where that says too little', () => {
    checkAction(at('G | D<|> | Em'), 'pin', '    G | D at 3 | Em');
    checkAction('progression p\n  C<|> | F\n\nsection s\n  progression p\n', 'pin', '  C as x32010 | F');
  });
  it('is taken off again', () => {
    checkAction(at('G | D at 3<|> | Em'), 'unpin', '    G | D | Em');
    assert.deepEqual(actionLines(at('G | D at 3<|> | Em'), 'pin'), ['Pin what is played of quay (2 chords)']);
  });
  it('is set on all chords of a progression at once, and taken off all', () => {
    checkAction(at('<|>G | D | Em | % | N.C.'), 'pin-all', '    G at 8 | D at 3 | Em at 5 | % | N.C.');
    checkAction(at('<|>G at 8 | D at 3 | Em'), 'unpin-all', '    G | D | Em');
  });
  it('is not offered where another shape is named', () =>
    assert.deepEqual(actionLines(at('G as lamp<|>'), 'unpin'), []));
  it('keeps the columns of a progression that has columns', () =>
    checkAction(at('G  | D<|> | Em\n    Em | G | D'), 'pin', '    G  | D at 3 | Em\n    Em | G      | D'));
  it('is said by a grip already', () =>
    assert.deepEqual(
      actionLines('grip A x02220\nprogression p\n  A<|>\nsection s\n  progression p\n', 'pin')[0],
      'Pin A where it is played -- The grip of A says its frets already.',
    ));
});

describe('the sounding name', () => {
  it('becomes the symbol where it differs', () => {
    assert.deepEqual(actionLines(at('G | D<|> | Em'), 'sounding'), ['Write D as it sounds: Dadd11/F#']);
    checkAction(at('G | D<|> | Em'), 'sounding', '    G | Dadd11/F# | Em');
    assert.deepEqual(actionLines(at('G<|> | D | Em'), 'sounding'), []);
  });
  it('takes the place of a bass behind the chord too', () =>
    checkAction(at('G | D over F#<|>'), 'sounding', '    G | Dadd11/F#'));
  it('pins the frets where the name alone would be played in another way', () =>
    checkAction(
      'progression p\n  C<|> as x-3-2-0-3-0\n\nsection s\n  progression p\n',
      'sounding',
      '  Cadd9 as x-3-2-0-3-0',
    ));
  it('stays a numeral of the key', () => checkAction(at('G | V<|> | Em'), 'sounding', '    G | Vadd11 over 3 | Em'));
});

describe('numerals', () => {
  it('take the place of one symbol, and symbols that of one numeral', () => {
    checkAction(at('G | D<|> | Em'), 'numeral', '    G | V | Em');
    checkAction(at('G | V<|>7 | Em'), 'symbol', '    G | D7 | Em');
  });
  it('keep the slash bass', () => {
    checkAction(at('D/F#<|>'), 'numeral', '    V over 3');
    checkAction(at('Em/D<|>'), 'numeral', '    vi over D');
    checkAction(at('V over 3<|>'), 'symbol', '    D/F#');
    checkAction(at('V<|> over 3 at 3'), 'symbol', '    D/F# at 3');
  });
  it('are written for a whole progression, with what repeats left alone', () => {
    checkAction(at('<|>G | D/F# | Em | % | N.C.'), 'all-numerals', '    I | V over 3 | vi | % | N.C.');
    checkAction(at('I | <|>V over 3 | vi | % | N.C.'), 'all-symbols', '    G | D/F# | Em | % | N.C.');
  });
  it('count from the key that the progression or its section names', () => {
    const lesson = LAMPS.replace('progression quay\n', 'progression quay in D major\n');
    checkAction(at('G<|>', lesson), 'numeral', '    IV');
    const section = LAMPS.replace('shape lamp\n`', 'shape lamp');
    checkAction(at('G<|>', `${section}    key D major\n`), 'numeral', '    IV');
  });
  it('cannot be written where sections play them in several keys', () => {
    const lesson = `${LAMPS}
  section bridge
    progression quay
    key D major
`;
    assert.match(actionLines(at('G<|>', lesson), 'numerals')[0], /-- Sections play it in several keys/);
  });
});

describe('the fingers of a grip', () => {
  // An open A minor is held by index, middle and ring finger, the index on string 2.
  const grip = (fingers: string): string =>
    `grip A<|>m x02210\n${fingers}\nprogression p\n  Am\n\nsection s\n  progression p\n`;
  it('are written under it, or put right', () => {
    checkAction(grip(''), 'fingers', '  fingers x02310');
    checkAction(grip('  fingers x03420\n'), 'fingers', '  fingers x02310');
  });
  it('are let be where they are the easiest', () =>
    assert.deepEqual(actionLines(grip('  fingers x02310\n'), 'fingers'), []));
});
