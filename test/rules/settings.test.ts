/** Findings about what a lesson sets once for all: capo, swing, and the bars that a section gives its parts. */
import assert from 'node:assert/strict';
import { checkFindings, findingsOf, gravity, mended } from '../support/check-findings.ts';
import { lesson } from '../support/syntax-outline.ts';

describe('a partial capo', () => {
  // On the second fret of strings 5, 4 and 3: these are counted from it, strings 6, 2 and 1 from the nut.
  const under = (chord: string) => lesson`
    capo 2 on 5 4 3

    progression quay
      ${chord}

    section verse
      progression quay
  `;
  const said = (code: string, text: string): readonly string[] =>
    findingsOf(text)
      .filter((finding) => finding.code === code)
      .map(({ message }) => message);

  it('has its stretches named string by string', () => {
    // Fret 4 from the capo is fret 6 of the neck, three frets from fret 3.
    assert.match(
      said('stretch-wide', under('G as x-x-4-0-3-5'))[0],
      /index finger at fret 3 of string 2, little finger at fret 4 from the capo on string 4, 88 mm apart/,
    );
    assert.match(
      said('not-playable', under('A as x-5-x-x-x-1'))[0],
      /the index finger at fret 1 of string 1 and the little finger at fret 5 from the capo on string 5 would lie/,
    );
  });

  it('has its clashes named as they sound', () => {
    // String 2 at fret 4 is D#4, a semitone below the free first string.
    assert.match(
      said('open-string-clash', under('Dmaj7 as 0-0-0-x-4-0'))[0],
      /open string 1 \(E4\) rubs against D#4 on string 2/,
    );
  });

  it('lets one finger press what lies on one fret of the neck', () => {
    const grip = (frets: string, fingers: string) => `capo 2 on 5 4 3\ngrip D ${frets}\n  fingers ${fingers}\n`;
    // Fret 3 of string 2 and fret 1 from the capo on string 3 are one fret.
    assert.deepEqual(said('fingers-against-frets', grip('x-x-x-1-3-x', 'x-x-x-1-1-x')), []);
    assert.deepEqual(said('fingers-against-frets', grip('x-x-x-2-3-x', 'x-x-x-1-2-x')), [
      'These fingers do not fit the frets: the index finger at fret 2 from the capo on string 3 would lie above the middle finger at fret 3 of string 2.',
    ]);
  });

  it('has an open string named as it sounds where a shape will not have it', () => {
    const text = `capo 2 on 5 4 3\nshape lamp\n  strings 4 2 1\n  tones any any any\n  open 6\n  avoid 9\n${under('C').slice(16)}  shape lamp\n`;
    // The free sixth string is D to the shapes, the ninth of C, and sounds E.
    assert.match(said('avoided-colour', text)[0], /^Over `C` open string 6 sounds E, the ninth,/);
  });
});

describe('a capo', () => {
  it('that leaves too few frets is told of once, with the highest fret that will do', () => {
    // A as third, root and fifth on strings 4, 2 and 1 lies at frets 11, 10 and 12; a neck of twenty frets has them up to capo 8.
    const text = lesson`
      capo 13

      shape lamp
        strings 4 2 1
        tones 3 R 5

      progression quay
        G | D | A at 10

      section verse
        progression quay
        shape lamp
    `;
    assert.deepEqual(
      findingsOf(text).map(({ message }) => message),
      ['A capo at 13 leaves 7 frets, too few for `G` and 1 other chord in `lamp`; put it at 8 or lower.'],
    );
    assert.deepEqual(findingsOf(mended(text)), []);
  });

  it('lies on a string once', () => {
    assert.equal(mended('capo 2 on 5 5 4\n'), 'capo 2 on 5 4\n');
  });
});

describe('a swing', () => {
  it('is of notes that come in pairs', () => {
    for (const length of ['1/4', '1/8', '1/16']) assert.deepEqual(findingsOf(`swing ${length}\n`), [], length);
    for (const length of ['1/7', '3/8', '0/8', '1/1']) assert.equal(mended(`swing ${length}\n`), 'swing 1/8\n', length);
  });
});

describe('bars that two parts share', () => {
  const section = (...lines: readonly string[]): string =>
    `progression quay\n  G | C | D | G\nsection verse\n${lines.map((line) => `  ${line}\n`).join('')}`;

  it('are left to the first, and the second is cut to the rest where that is one piece', () => {
    const text = section('progression quay', 'shape open-chords bars 1 to 3', 'shape barre-chords bars 2 to 4');
    checkFindings(`
      progression quay
        G | C | D | G
      section verse
        progression quay
        shape open-chords bars 1 to 3
        shape barre-chords bars 2 to 4
    ;                           ^^^^^^ bars-called-twice: Bars 2 to 3 have \`open-chords\` already, which is what will be played; give this part other bars.
    `);
    assert.equal(mended(text), text.replace('bars 2 to 4', 'bar 4'));
    for (const inside of ['bars 2 to 3', 'bar 2', 'at bar 2']) {
      const [finding] = findingsOf(
        section('progression quay', 'shape open-chords bars 1 to 4', `shape barre-chords ${inside}`),
      );
      assert.deepEqual([finding.code, finding.fixes], ['bars-called-twice', []], inside);
    }
  });

  it('are none where one part fills what the other leaves', () => {
    const text = section('progression quay', 'shape barre-chords', 'shape open-chords bars 1 to 3');
    assert.deepEqual(findingsOf(text), []);
  });

  it('are counted for a progression that only says where it begins', () => {
    assert.deepEqual(gravity(section('progression quay bars 1 to 4', 'progression quay at bar 4')), [
      'error bars-called-twice',
    ]);
  });
});
