/** Lessons in other keys, as a musician reads them. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { analyze } from '../../server/src/analyze.ts';
import { dedented } from '../support/check-features.ts';
import { checkTransposed, transposed } from '../support/transposed.ts';

const lamps = readFileSync('samples/harbour-lamps.lesson', 'utf8');

/** The lines in which two texts differ, as they become. */
const changed = (before: string, after: string): readonly string[] => {
  const lines = before.split('\n');
  return after.split('\n').filter((line, i) => line !== lines[i]);
};

describe('Harbour lamps', () => {
  it('in A major: a whole tone up, the pin and the claim too', () => {
    assert.deepEqual(changed(lamps, transposed(lamps, 'A major').text), [
      'key A major',
      '  A | E | F#m | Bm | F#m | E | A at 10 | A held',
      'claim verse bar 2 is Eadd11/G#',
    ]);
  });
  it('in B flat: a minor third up, spelled in flats', () => {
    assert.deepEqual(changed(lamps, transposed(lamps, 'Bb major').text), [
      'key Bb major',
      '  Bb | F | Gm | Cm | Gm | F | Bb at 11 | Bb held',
      'claim verse bar 2 is Fadd11/A',
    ]);
  });
  it('tells of the key that a title names in plain words', () => {
    const { losses } = transposed(lamps, 'A major');
    assert.deepEqual(
      losses.map(({ kind, message }) => `${kind}: ${message}`),
      ['prose: Plain words name B flat, and stay: see whether they are still true.'],
    );
  });
  it('has the same shapes two frets higher where the open string is not asked', () => {
    const frets = (text: string): readonly (readonly (number | null)[])[] =>
      analyze(text).score.sections[0].bars.map((bar) => bar.chords[0].voicing?.frets ?? []);
    const [before, after] = [lamps, transposed(lamps, 'A major').text].map((text) =>
      frets(text.replace('  open 3\n', '')),
    );
    // Bm would lie on frets 12 to 14, which the rule does not allow.
    const moved = before.map((list, bar) => (bar === 3 ? [] : list.map((fret) => (fret === null ? null : fret + 2))));
    assert.deepEqual(after, moved);
  });
});

describe('what moves with the key', () => {
  it('chords in every spelling, their basses, their scales; numerals stay', () => {
    checkTransposed(
      `
      key C major
      progression p in A minor
        C  D/F#  Am7b5 | N.C. | % | Bb7(b9, #11)/Ab ; the end
        Caug over E in G mixolydian held | V7/V over D | bVII over 3 | H7 as power
      `,
      'D major',
      `
      key D major
      progression p in B minor
        D  E/G#  Bm7b5 | N.C. | % | C7(b9, #11)/Bb ; the end
        Daug over F# in A mixolydian held | V7/V over E | bVII over 3 | H7 as power
      unread: H7
      `,
    );
  });
  it('keys of sections, variants and scales, in the words in which they stand', () => {
    checkTransposed(
      `
      key Gmaj
      contour c on 1
        from 5: 0 -1
        scale E dorian
      section verse
        key  d   minor
      variant low
        key B flat major
        claim scale G major pentatonic
      `,
      'A major',
      `
      key Amaj
      contour c on 1
        from 5: 0 -1
        scale F# dorian
      section verse
        key  e   minor
      variant low
        key C major
        claim scale A major pentatonic
      `,
    );
  });
  it('what claims say, but not what counts tones, strings or reach', () => {
    checkTransposed(
      `
      key G major
      progression p
        G
      claim bar 1 is Gmaj7/B
      claim bar 1 is V7
      claim bar 1 tones 3 11 R 5
      claim bar 1 open 3 adds 11
      claim melody starts on 5 except bar 4
      claim melody D4 C#4 B3 in bar 3
      claim common tone G3 throughout
      claim scale A minor pentatonic
      claim frets 1 to 12
      claim reach at most 2
      `,
      'F major',
      `
      key F major
      progression p
        F
      claim bar 1 is Fmaj7/A
      claim bar 1 is V7
      claim bar 1 tones 3 11 R 5
      claim bar 1 open 3 adds 11
      claim melody starts on 5 except bar 4
      claim melody C4 B3 A3 in bar 3
      claim common tone F3 throughout
      claim scale G minor pentatonic
      claim frets 1 to 12
      claim reach at most 2
      `,
    );
  });
  it('pins, which go round the twelve frets', () => {
    checkTransposed(
      `
      key G major
      progression p
        G at 3 | C at 8 as x-10-12-12-12-8 | D as 355433
      shape s
        strings 4 3 2
        frets 1 to 12
      `,
      'C major',
      `
      key C major
      progression p
        C at 8 | F at 1 as x35551 | G as 8-10-10-9-8-8
      shape s
        strings 4 3 2
        frets 1 to 12
      octave: 8
      octave: x-10-12-12-12-8
      `,
    );
  });
  it('a melody and a tab with all their signs', () => {
    checkTransposed(
      `
      key G major
      melody landing on 1
        each 1/4
        7 8 5h7 (3) | 2: 5~ 7 - 1: 3> | 5 3/4 r x
        triplet(3 g5 /7) 7b9r7 | 7pb9 7b1/4 p5 <12> 1/2
      tab door
        chords  G    | C/E
        1     | 3 -  | 2<14> 5/7 |
        6     | 3 h5 | x \\5 |
        fingers 3 -  | 1 - |
      `,
      'A major',
      `
      key A major
      melody landing on 1
        each 1/4
        9 10 7h9 (5) | 2: 7~ 9 - 1: 5> | 7 3/4 r x
        triplet(5 g7 /9) 9b11r9 | 9pb11 9b1/4 p7 2<14> 1/2
      tab door
        chords  A    | D/F#
        1     | 5 -  | 4<16> 7/9 |
        6     | 5 h7 | x \\7 |
        fingers 3 -  | 1 - |
      open: landing
      `,
    );
  });
  it('claims of frets and notes with the frets that are written out', () => {
    checkTransposed(
      `
      key G major
      melody m on 1
        10 12 10
      claim frets 10 to 12
      claim melody D5 E5 in bar 1
      `,
      'A major',
      `
      key A major
      melody m on 1
        0 2 0
      claim frets 0 to 2
      claim melody E4 F#4 in bar 1
      octave: m
      `,
    );
  });
});

describe('a lesson without ringing open strings', function () {
  this.timeout(60_000);
  const lesson = dedented(`
    key G major
    shape three
      strings 4 3 2
      tones 3 5 R
      frets 0 to 17
      reach 3
    grip C7 x32310
    progression p
      G | C7 | Em at 4 | D7/F#
    melody m on 1
      each 1/4
      3 5 7 2: 8 | 5 3/4 3
    tab t
      each 1/4
      1 | 3 5 7h8 - |
      6 | 3 - 5/7 - |
    section chords
      progression p
      shape three
    section melody
      progression p
      shape three
      melody m
    section tab
      tab t
  `);
  /** The pitch classes that sound in each section, from bar to bar. */
  const sounding = (text: string): readonly (readonly number[])[] =>
    analyze(text).score.sections.map(({ bars }) =>
      bars.flatMap(({ chords, events }) => [
        ...chords.flatMap(({ voicing }) => voicing?.strings ?? []).map(({ midi }) => midi % 12),
        ...events.filter(({ voice }) => voice !== 'stroke').map(({ midi }) => midi % 12),
      ]),
    );
  it('sounds an interval away in all twelve keys', () => {
    const before = sounding(lesson);
    assert.ok(before[0].length >= 12);
    for (const [semitones, tonic] of 'G Ab A Bb B C Db D Eb E F F#'.split(' ').entries()) {
      const { text, losses } = transposed(lesson, `${tonic} major`);
      assert.ok(!losses.some(({ kind }) => kind === 'neck'), tonic);
      const expected = before.map((section) => section.map((pitch) => (pitch + semitones) % 12));
      assert.deepEqual(sounding(text), expected, tonic);
    }
  });
});

describe('a grip', () => {
  it('without open strings keeps its fingers', () => {
    checkTransposed(
      'key G major\ngrip G 355433\n  fingers 134211\n',
      'Bb major',
      'key Bb major\ngrip Bb 688766\n  fingers 134211\n',
    );
  });
  it('presses what was open, and loses the fingers', () => {
    checkTransposed(
      `
      key A major
      grip A x02220
        fingers x01230
        bass 5 6
      `,
      'B major',
      `
      key B major
      grip B x24442
        bass 5 6
      open: x02220
      fingers: fingers x01230
      `,
    );
  });
  it('keeps what is said of its fingers', () => {
    checkTransposed(
      'key A major\ngrip A x02220\n  fingers x01230 ; easy\n',
      'B major',
      'key B major\ngrip B x24442\n   ; easy\nopen: x02220\nfingers: fingers x01230\n',
    );
  });
  it('comes back to its open strings', () => {
    checkTransposed('key B major\ngrip B x24442\n', 'A major', 'key A major\ngrip A x02220\n');
  });
  it('goes up where its open strings cannot go down, with hyphens where they are needed', () => {
    checkTransposed(
      'key A minor\ngrip Am X02210\n',
      'G minor',
      'key G minor\ngrip Gm X-10-12-12-11-10\noctave: X02210\nopen: X02210\n',
    );
    checkTransposed(
      'key G minor\ngrip Gm x-10-12-12-11-10\n',
      'A minor',
      'key A minor\ngrip Am x02210\noctave: x-10-12-12-11-10\n',
    );
  });
});

describe('what cannot move', () => {
  it('stays where the neck ends, and is told', () => {
    checkTransposed(
      `
      tuning ukulele
      key C major
      melody m on 1
        0 3 12
      `,
      'A major',
      `
      tuning ukulele
      key A major
      melody m on 1
        0 3 12
      neck: m
      `,
    );
  });
  it('goes an octave lower where it can', () => {
    checkTransposed(
      'key C major\nmelody m on 1\n  17 19 20\n',
      'D major',
      'key D major\nmelody m on 1\n  7 9 10\nneck: m\n',
    );
  });
  it('counts the neck from the capo', () => {
    checkTransposed(
      'capo 7\nkey C major\nmelody m on 1\n  5 12\n',
      'D major',
      'capo 7\nkey D major\nmelody m on 1\n  5 12\nneck: m\n',
    );
  });
  it('is respelled where a root would need more than two signs', () => {
    checkTransposed(
      'key C major\nprogression p\n  A# | D#/F##\n',
      'C# major',
      'key C# major\nprogression p\n  A## | D##/Ab\nspelling: D#/F##\n',
    );
  });
  it('is what stands in plain words and in other files', () => {
    checkTransposed(
      `
      use "parts.lesson"
      lesson "Around G"
      key G major
      text
        Over Em (and D/F#) the string rings. A bar later {verse.1.chord} is a G again; F# too.
        Begin at the door. Add nothing to the G string, says Emma. A C.B. helps.
      `,
      'A major',
      `
      use "parts.lesson"
      lesson "Around G"
      key A major
      text
        Over Em (and D/F#) the string rings. A bar later {verse.1.chord} is a G again; F# too.
        Begin at the door. Add nothing to the G string, says Emma. A C.B. helps.
      used: use "parts.lesson"
      prose: G
      prose: Em
      prose: D/F#
      prose: G
      prose: F#
      `,
    );
  });
  it('is the mode', () => {
    checkTransposed('key G major\nprogression p\n  G\n', 'A minor', 'key A minor\nprogression p\n  A\nmode: G major\n');
  });
});

describe('a lesson that states no key', () => {
  it('is in C and says its new key, below its head', () => {
    checkTransposed(
      `
      lesson "Two"
        minutes 3 ; short

      section verse
        progression p
      progression p
        C | I
      `,
      'D major',
      `
      lesson "Two"
        minutes 3 ; short

      key D major

      section verse
        progression p
      progression p
        D | I
      `,
    );
    checkTransposed('lesson "a"\r\nsection s\r\n', 'D major', 'lesson "a"\r\n\r\nkey D major\r\nsection s\r\n');
    checkTransposed('tuning drop-d\nsection s\n', 'D major', 'tuning drop-d\nkey D major\nsection s\n');
    checkTransposed('section s\n', 'D major', 'key D major\nsection s\n');
  });
  it('gets none where it is a file of parts', () => {
    checkTransposed('grip D xx0232\n', 'D major', 'grip E xx2454\nopen: xx0232\n');
  });
});

describe('the sign between a root and what follows', () => {
  it('comes where it is needed and goes again', () => {
    checkTransposed('key Ab major\nprogression p\n  Ab#11\n', 'A major', 'key A major\nprogression p\n  A♮#11\n');
    checkTransposed('key A major\nprogression p\n  A♮#11\n', 'Ab major', 'key Ab major\nprogression p\n  Ab#11\n');
  });
});
