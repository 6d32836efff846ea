/**
 * Hovers as a teacher reads them. Notes, intervals and names were worked out by hand from the tuning and the chords; fingers and
 * the numbers of voicings stand in the tests of the hand and of the search.
 */
import assert from 'node:assert/strict';
import { checkHover, hoverText } from '../support/check-features.ts';

const LAMPS = `
  key G major
  meter 3/4
  tempo 84

  shape lamp
    strings 4 2 1
    tones 3 R 5
    open 3
    frets 1 to 12
    reach 2

  progression quay
    G | D | V7/V

  cell ripple
    each 1/8
    p4 i3 m2 i3 m2 i3

  contour swell on 1
    each 1/4
    from 5: 0 -1 0

  section verse "The quay"
    progression quay
    shape lamp
    cell ripple
    contour swell
`;

const at = (words: string, marked: string): string => hoverText(LAMPS.replace(words, marked));

describe('a chord’s hover', () => {
  it('says what sounds, string by string, and what the open string does', () => {
    const page = at('| D |', '| <|>D |');
    assert.ok(page.startsWith('[D]\nD sounds Dadd11/F#\n\nBar 2 of verse, shape lamp.\n'), page);
    assert.match(page, /^4 +4 +\d +F#3 +major third +chord tone$/m);
    assert.match(page, /^3 +0 +open +G3 +eleventh +colour$/m);
    assert.match(page, /^2 +3 +\d +D4 +root +root$/m);
    assert.match(page, /^1 +5 +\d +A4 +fifth +chord tone$/m);
    assert.match(page, /^Open string 3 adds the eleventh\.$/m);
    assert.match(page, /G3 on the open string 3 rubs against F#3 on string 4/);
    assert.match(page, /^x x {3}o$/m);
    assert.match(page, /a comfortable reach for a medium hand/);
  });

  it('says that a doubling adds nothing', () => {
    assert.match(at('G | D', '<|>G | D'), /^Open string 3 doubles the root\.$/m);
  });

  it('says which chord a numeral is', () => {
    // The fifth of D, the fifth degree of G major, is A; as a dominant seventh it is A7.
    assert.match(at('V7/V', 'V7<|>/V'), /^\[V7\/V\]\nV7\/V is A7 in G major, sounds /);
  });

  it('names what sounds behind a capo, and the shape', () => {
    // Two frets up from E shape: F sharp.
    const page = hoverText(`
      capo 2
      progression p
        <|>E as 022100
      section s
        progression p
    `);
    assert.match(page, /^E sounds F#, in the shape of E$/m);
    assert.match(page, /^Bar 1 of s, exactly these frets\.$/m);
    assert.match(page, /^6 +0 +open +F#2 +root +root$/m);
  });

  it('tells how another section plays it', () => {
    const page = hoverText(`
      progression p
        <|>E
      shape low
        strings 6 5 4
        tones R 5 R
        frets 0 to 5
      section one
        progression p
        shape open-chords
      section two
        progression p
        shape low
    `);
    assert.match(page, /^Bar 1 of one, shape open-chords\.$/m);
    assert.match(page, /^Bar 1 of two: 0-2-2-x-x-x, sounds E5$/m);
  });

  it('names the line that leaves no voicing', () => {
    const page = hoverText(`
      shape tight
        strings 6 1
        tones R 3
        reach 0
      progression p
        <|>C
      section s
        progression p
        shape tight
    `);
    assert.match(page, /^No voicing: `reach` excludes the last of \d+\./m);
    assert.match(page, /^C: C E G \(R 3 5\)$/m);
  });

  it('spells a chord that no section plays', () => {
    checkHover(
      `
        progression p
          C | <|>F#m7b5
      `,
      `
        [F#m7b5]
        F#m7b5: F# A C E (R b3 b5 b7)

        No section plays it.
      `,
    );
  });

  it('is silent about what is no chord', () => {
    assert.equal(hoverText('progression p\n  C | <|>Hx9\nsection s\n  progression p\n'), '-');
  });
});

describe('a part’s hover', () => {
  it('counts a shape’s voicings chord by chord', () => {
    const page = at('shape lamp\n    cell', 'shape <|>lamp\n    cell');
    assert.match(page, /^lamp, a shape: 3 chords in 3 voicings\.$/m);
    assert.match(page, /^D +1 +x-x-4-0-3-5 +verse: bar 2$/m);
  });

  it('gives a cell’s rate for each finger', () => {
    // Six eighths last three quarters, 3 × 60/84 = 15/7 s: three plucks of the index are 1.4 a second.
    checkHover(
      LAMPS.replace('cell ripple\n    each', 'cell <|>ripple\n    each'),
      `
      [ripple]
      ripple, a cell of 3/4 with 6 plucks.

      verse: 6 plucks a bar, quarter = 84.

      finger      in the cell  a second
      p (thumb)   1            0.5
      i (index)   3            1.4
      m (middle)  2            0.9
    `,
    );
  });

  it('follows a contour over the chords', () => {
    const page = at('contour swell\n', 'contour <|>swell\n');
    assert.match(page, /^swell, a contour on string 1 that starts on 5\.$/m);
    assert.match(page, /^D +5 +1 +5 3 5 +verse: bar 2$/m);
  });

  it('says how long a section is', () => {
    // Three bars of 15/7 seconds.
    assert.match(
      at('section verse', 'section v<|>erse'),
      /^3 bars in G major, 3\/4, quarter = 84: 6 seconds, played once\.$/m,
    );
  });

  it('shows a grip’s diagram', () => {
    checkHover(
      `
        grip <|>A x02220
          fingers x01230
      `,
      `
        [A]
        A, a grip: x-0-2-2-2-0.

        x o       o
        ═══════════
        │ │ │ │ │ │
        │ │ 1 2 3 │
        │ │ │ │ │ │
        │ │ │ │ │ │
      `,
    );
  });
});

describe('a pluck’s hover', () => {
  it('says finger, string and rate, and what it sounds over the chords it meets', () => {
    // Six eighths at quarter = 84 last 15/7 s. G is x-x-9-0-8-10, D x-x-4-0-3-5: D has F# at fret 4, G has B at fret 9.
    const page = at('p4 i3 m2 i3', '<|>p4 i3 m2 i3');
    assert.match(page, /^\[p4\]\np4: thumb on string 4\.\n/);
    assert.match(page, /^The thumb plucks once in the cell: 0\.5 a second in verse, quarter = 84\.$/m);
    assert.match(page, /^over +string +fret +sounds +interval$/m);
    assert.match(page, /^G +4 +9 +B3 +major third$/m);
    assert.match(page, /^D +4 +4 +F#3 +major third$/m);
  });

  it('says what the other string of a pinch sounds, and whose a string is where a melody lies on it', () => {
    const page = at('p4 i3 m2 i3', 'p4+<|>a1 i3 m2 i3');
    assert.match(page, /^p4\+a1: thumb on string 4 and ring on string 1\.$/m);
    assert.match(page, /^D +1 +5 +A4 \(melody\) +fifth$/m);
  });

  it('follows what it aims at, and says where nothing sounds', () => {
    const text = (pluck: string): string => `
      progression p
        G as 3-2-0-0-0-3 | D as x-x-0-2-3-2
      cell c
        ${pluck} i3 m2 i3
      section s
        progression p
        cell c
    `;
    const bass = hoverText(text('p(b<|>ass)'));
    assert.match(bass, /^p\(bass\): thumb on the lowest sounding string\.$/m);
    assert.match(bass, /^G +6 +3 +G2 +root$/m);
    assert.match(bass, /^D +4 +0 +D3 +root$/m);
    assert.match(hoverText(text('p<|>6')), /^D +6 +silent *$/m);
    assert.match(hoverText(text('do<|>wn(3 to 1)')), /^down\(3 to 1\): a stroke down from string 3 to 1\.$/m);
    assert.equal(hoverText(text('<|>-')), '[-]\n-: nothing new: what sounds rings on.');
  });
});

describe('a step’s hover', () => {
  it('says which fret and note it became over each chord', () => {
    // A step below the fifths D and A in G major: C at fret 8, G at fret 3.
    const page = at('0 -1 0', '0 <|>-1 0');
    assert.match(page, /^\[-1\]\n-1: 1 step of the scale below the start\.\n/);
    assert.match(page, /^G +1 +8 +C5 +eleventh$/m);
    assert.match(page, /^D +1 +3 +G4 +eleventh$/m);
  });

  it('tells steps, tones and rests apart', () => {
    const first = (step: string): string => at('5: 0 -1 0', `5: 0 <|>${step} 0`).split('\n')[1];
    assert.equal(first('+2#'), '+2#: 2 steps of the scale above the start, a semitone higher.');
    assert.equal(first('3'), '3: the nearest 3 of the chord.');
    assert.equal(first('r'), 'r: a rest: silence.');
    assert.equal(at('5: 0 -1', '5: <|>0 -1').split('\n')[1], '0: the tone that the contour starts on.');
  });

  it('says that no section plays it', () => {
    assert.match(hoverText('contour c on 1\n  from 5: 0 <|>+1\n'), /\nNo section plays it\.$/);
  });
});

describe('a setting’s hover', () => {
  it('lists the strings of a tuning', () => {
    assert.match(hoverText('tuning drop<|>-d\n'), /^6 +D2$/m);
  });

  it('says what sounds behind a capo', () => {
    const page = hoverText('key G major\ncapo <|>3\n');
    assert.match(page, /^Capo 3: G major, sounding Bb major\.$/m);
    assert.match(page, /^6 +G2 +capo at fret 3$/m);
  });

  it('spells a key and its chords', () => {
    checkHover(
      'key <|>E minor\n',
      `
        [key E minor]
        E minor: E, F#, G, A, B, C and D; 1 sharp.

        i   ii°    III  iv  v   VI  VII
        Em  F#dim  G    Am  Bm  C   D
      `,
    );
  });

  it('takes a section’s own key', () => {
    assert.match(
      hoverText('key C major\nprogression p\n  C\nsection s\n  progression p\n  key D <|>dorian\n'),
      /^D dorian: D, E, F, G, A, B and C; no signs\.$/m,
    );
  });

  it('counts a compound meter in dotted quarters', () => {
    assert.match(hoverText('meter 6/<|>8\n'), /^6\/8: counted in dotted quarters, 2 a bar\.$/m);
  });
});

describe('a keyword’s hover', () => {
  it('is its line of the reference', () => {
    assert.match(
      hoverText('sh<|>ape lamp\n'),
      /^\[shape\]\nshape: A rule that says which voicings of a chord will do\.\n/,
    );
    assert.match(
      hoverText('shape lamp\n  rea<|>ch 2\n'),
      /^\[reach\]\nreach: The highest fret pressed less the lowest/,
    );
  });

  it('is nowhere in prose and comments', () => {
    assert.equal(hoverText('text\n  The <|>shape\n'), '-');
    assert.equal(hoverText('; a <|>shape\nkey C major\n'), '-');
    assert.equal(hoverText('<|>'), '-');
  });
});
