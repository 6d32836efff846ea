import assert from 'node:assert/strict';
import { describeProblems, lessonOf, writtenBars } from '../support/describe-lesson.ts';

/**
 * `3/8> 2:5 1/8 hammer-on + 6:3 1/4 = 1`: at three eighths the 5th fret of string 2, an eighth long, and with it the 3rd of string 6,
 * in a bar of a whole note. `held` goes on from the bar before, `stop` ends what sounds.
 */
const melody = (bars: string, head = 'on 1', each = '1/4'): string[] =>
  writtenBars(`melody landing ${head}\n  each ${each}\n  ${bars}\n`, 'landing');
const tab = (...rows: readonly string[]): string[] =>
  writtenBars(['tab coda', '  each 1/8', ...rows.map((row) => `  ${row}`), ''].join('\n'), 'coda');
const inMelody = (bars: string): string[] => describeProblems(`melody landing on 1\n  each 1/4\n  ${bars}\n`);
const inTab = (...rows: readonly string[]): string[] =>
  describeProblems(['tab coda', '  each 1/8', ...rows.map((row) => `  ${row}`), ''].join('\n'));

describe('a melody', () => {
  it('reads frets, string by string, with their lengths', () => {
    assert.deepEqual(melody('7 8 5 7 | 2: 5 7 - 1: 3 | 5 3/4 r'), [
      '0> 1:7 1/4 1/4> 1:8 1/4 1/2> 1:5 1/4 3/4> 1:7 1/4 = 1',
      '0> 2:5 1/4 1/4> 2:7 1/2 3/4> 1:3 1/4 = 1',
      '0> 1:5 3/4 3/4> r 1/4 + stop 1 = 1',
    ]);
  });
  it('ends a bar with its line, and takes eighths where nothing says otherwise', () => {
    assert.deepEqual(writtenBars('melody landing on 2\n  3 5\n  6 8 |\n', 'landing'), [
      '0> 2:3 1/8 1/8> 2:5 1/8 = 1/4',
      '0> 2:6 1/8 1/8> 2:8 1/8 = 1/4',
    ]);
  });
  it('holds over the bar line, but not over a rest', () => {
    assert.deepEqual(melody('5 1/2 | - 7 | r - | - 3'), [
      '0> 1:5 1/2 = 1/2',
      'held 1 1/4 1/4> 1:7 1/4 = 1/2',
      '0> r 1/2 + stop 1 = 1/2',
      '0> r 1/4 1/4> 1:3 1/4 = 1/2',
    ]);
  });
  it('has triplets, of a length in all or of the usual one', () => {
    assert.deepEqual(melody('triplet(1 3 5) 1/2 triplet(5 3 1)'), [
      '0> 1:1 1/6 triplet 1/6> 1:3 1/6 triplet 1/3> 1:5 1/6 triplet 1/2> 1:5 1/6 triplet 2/3> 1:3 1/6 triplet 5/6> 1:1 1/6 triplet = 1',
    ]);
    assert.deepEqual(melody('1 3 5 7 1/4', 'on 1', '1/8 triplet'), [
      '0> 1:1 1/12 triplet 1/12> 1:3 1/12 triplet 1/6> 1:5 1/12 triplet 1/4> 1:7 1/4 = 1/2',
    ]);
  });
  it('reads a slide that stands by itself, and joined where no length could be meant', () => {
    assert.deepEqual(melody('5 /7 \\5 h7/9'), [
      '0> 1:5 1/4 1/4> 1:7 1/4 slide 1/2> 1:5 1/4 slide 3/4> 1:7 1/8 hammer-on 7/8> 1:9 1/8 slide = 1',
    ]);
    assert.deepEqual(inMelody('5 /7 \\5 h7/9'), []);
    assert.deepEqual(melody('1/4 5'), ['0> r 1/4 1/4> 1:5 1/4 broken = 1/2']);
    assert.deepEqual(inMelody('5/7 8'), ['length-or-slide "5/7"']);
    assert.deepEqual(inMelody('3 5/7 8'), ['length-or-slide "5/7"']);
    assert.deepEqual(inMelody('3 5/8 8'), []);
  });
  it('gives grace notes no time, alone or joined', () => {
    assert.deepEqual(melody('g5 h7 g5h7 | g3 triplet(g5 7 8 5) 1/4'), [
      '0> 1:5 grace + 1:7 1/4 hammer-on 1/4> 1:5 grace + 1:7 1/4 hammer-on = 1/2',
      '0> 1:3 grace + 1:5 grace triplet + 1:7 1/12 triplet 1/12> 1:8 1/12 triplet 1/6> 1:5 1/12 triplet = 1/4',
    ]);
    assert.deepEqual(inMelody('5 g7'), ['joined-to-nothing "g7"']);
    assert.deepEqual(inMelody('5 g7 r'), ['joined-to-nothing "g7"']);
  });
  it('says once that no string is named, and which string there is not', () => {
    assert.deepEqual(describeProblems('melody landing\n  each 1/4\n  7 8 2: 5 7\n'), ['melody-without-string "7"']);
    assert.deepEqual(melody('7 2: 5', ''), ['0> r 1/4 1/4> 2:5 1/4 broken = 1/2']);
    assert.deepEqual(inMelody('9: 5 7'), ['unknown-string "9"']);
    assert.deepEqual(describeProblems('melody landing on 7\n  5 7\n'), ['unknown-string "7"']);
  });
  it('points to each of its notes and bars', () => {
    const text = 'melody landing on 1\n  7 g5h7 | 2: 5 r ; home\n';
    const { places } = lessonOf(text).melodies[0];
    const words = (span: { start: number; end: number }): string => text.slice(span.start, span.end);
    assert.deepEqual(
      places.map((place) => [words(place.span), place.notes.map(words)]),
      [
        ['7 g5h7', ['7', 'g5h7', 'g5h7']],
        ['2: 5 r', ['5']],
      ],
    );
  });
});

describe('a sign', () => {
  const sign = (text: string): string =>
    tab(`1 | 5 ${text} |`)[0].replace('0> 1:5 1/8 1/8> ', '').replace(' = 1/4', '');
  const signs: readonly (readonly [string, string])[] = [
    ['x', '1:x 1/8'],
    ['(5)', '1:5 1/8 ghost'],
    ['(x)', '1:x 1/8 ghost'],
    ['(h7)', '1:7 1/8 hammer-on ghost'],
    ['<12>', '1:0 1/8 harmonic 12'],
    ['2<14>', '1:2 1/8 harmonic 14'],
    ['h7', '1:7 1/8 hammer-on'],
    ['p3', '1:3 1/8 pull-off'],
    ['1h3', '1:1 1/16 3/16> 1:3 1/16 hammer-on'],
    ['1h3p1', '1:1 1/24 1/6> 1:3 1/24 hammer-on 5/24> 1:1 1/24 pull-off'],
    ['/7', '1:7 1/8 slide'],
    ['\\3', '1:3 1/8 slide'],
    ['5/7', '1:5 1/16 3/16> 1:7 1/16 slide'],
    ['7\\5', '1:7 1/16 3/16> 1:5 1/16 slide'],
    ['7b9', '1:7 1/8 bend 4/4'],
    ['7b8', '1:7 1/8 bend 2/4'],
    ['7b9r7', '1:7 1/8 bend 4/4 and release'],
    ['7b9r7p5', '1:7 1/16 bend 4/4 and release 3/16> 1:5 1/16 pull-off'],
    ['7pb9', '1:7 1/8 pre-bend 4/4'],
    ['7pb9r7', '1:7 1/8 pre-bend 4/4 and release'],
    ['7b1/4', '1:7 1/8 bend 1/4'],
    ['h7b9~', '1:7 1/8 hammer-on bend 4/4 vibrato'],
    ['5~', '1:5 1/8 vibrato'],
    ['(5)~', '1:5 1/8 ghost vibrato'],
    ['g5h7', '1:5 grace + 1:7 1/8 hammer-on'],
    ['g5/7', '1:5 grace + 1:7 1/8 slide'],
    ['s3', '1:3 1/8 slap'],
    ['sx', '1:x 1/8 slap'],
    ['t12', '1:12 1/8 tap'],
    ['t12p5', '1:12 1/16 tap 3/16> 1:5 1/16 pull-off'],
    ['7>', '1:7 1/8 accent'],
    ['<12>>', '1:0 1/8 harmonic 12 accent'],
    ['7b9~>', '1:7 1/8 bend 4/4 vibrato accent'],
    ['r', 'r 1/8 + stop 1'],
  ];
  for (const [text, meaning] of signs) it(`${text} is read`, () => assert.equal(sign(text), meaning));

  it('means the same in a melody', () => {
    for (const [text, meaning] of signs) {
      // A melody has a length where a tab has this.
      if (/^\d+\/\d+$/.test(text)) continue;
      const [bar] = melody(`5 ${text}`, 'on 1', '1/8');
      assert.equal(bar, `0> 1:5 1/8 1/8> ${meaning} = 1/4`, text);
    }
  });
  it('that is none is said, with the right spelling where it can be told', () => {
    for (const text of ['7b', 'h', '5/', 'b9', '(5', '5h', '7hh8', 'x3', '12s3h', '77777', '5h7g8', 'xb3', '<>', '']) {
      if (text !== '') assert.deepEqual(inTab(`1 | ${text} - |`), [`unknown-sign "${text}"`], text);
    }
    const meant = (text: string): string | undefined =>
      lessonOf(`tab coda\n  1 | 5 ${text} |\n`).problems.find((one) => one.kind === 'unknown-sign')?.data.right;
    assert.deepEqual(
      ['X', 'R', '[12]', '12*', '>7', '~7', '7v', '5^7', '5s7', 'H7', '--', '{5}', '7~~', '7h'].map(meant),
      ['x', 'r', '<12>', '<12>', '7>', '7~', '7~', '5b7', '5/7', 'h7', '-', '(5)', '7~', 'h7'],
    );
  });
  it('that is none leaves the others as they are', () => {
    assert.deepEqual(tab('1 | 5 ? 7 - |'), ['0> 1:5 1/4 1/4> 1:7 1/4 broken = 1/2']);
  });
  it('must make sense on its string', () => {
    assert.deepEqual(inTab('1 | h3 - |'), ['joined-to-nothing "h3"']);
    assert.deepEqual(inTab('1 | 1 r h3 |'), ['joined-to-nothing "h3"']);
    assert.deepEqual(inTab('1 | 1 - h3 |', '2 | - h3 - |'), ['joined-to-nothing "h3"']);
    assert.deepEqual(inTab('1 | 1 - | h3 - |'), []);
    assert.deepEqual(inTab('1 | 3 h1 p3 /1 \\3 |'), [
      'joined-wrong-way "h1"',
      'joined-wrong-way "p3"',
      'joined-wrong-way "/1"',
      'joined-wrong-way "\\3"',
    ]);
    assert.deepEqual(inTab('1 | 3 h3 |'), ['joined-wrong-way "h3"']);
    assert.deepEqual(inTab('1 | 9b7 9b9 7b15 7b9r8 0b2 |'), [
      'bend-goes-wrong "9b7"',
      'bend-goes-wrong "9b9"',
      'bend-goes-wrong "7b15"',
      'bend-goes-wrong "7b9r8"',
      'bend-goes-wrong "0b2"',
    ]);
    assert.deepEqual(inTab('1 | 30 - |'), ['number-out-of-range "30"']);
    assert.deepEqual(inTab('1 | <11> - | 2<12> - |'), [
      'harmonic-without-node "<11>"',
      'harmonic-without-node "2<12>"',
    ]);
  });
  it('that starts from nothing is plucked, and goes the way that its fret says', () => {
    assert.deepEqual(tab('1 | h3 - h1 - |'), ['0> 1:3 1/4 1/4> 1:1 1/4 pull-off = 1/2']);
  });
  it('counts its frets from the capo', () => {
    assert.deepEqual(describeProblems('frets 20\ncapo 2\nmelody landing on 1\n  18 19\n'), [
      'number-out-of-range "19"',
    ]);
  });
});

describe('a tab', () => {
  it('is read string by string, the lowest first at one moment', () => {
    assert.deepEqual(
      tab(
        'chords G | C',
        '1 | 0  -  3  -  <12> - | -  -   -    -  -  - |',
        '2 | -  1  h3 -  -    - | 5  /7  7b9  r  -  - |',
        '6 | 3  -  -  -  -    - | -  -   -    -  -  - |',
      ),
      [
        '0> 6:3 1/8 + 1:0 1/8 1/8> 2:1 1/8 1/4> 2:3 1/4 hammer-on + 1:3 1/4 1/2> 1:0 1/4 harmonic 12 = 3/4 over G 3/4',
        '0> 2:5 1/8 1/8> 2:7 1/8 slide 1/4> 2:7 1/8 bend 4/4 3/8> r 3/8 + stop 2 = 3/4 over C 3/4',
      ],
    );
  });
  it('notates each note to the next new one on any string, and ties it over the bar line', () => {
    assert.deepEqual(tab('1 | 0 - - 3 | - - 5 - | - - - - |', '6 | 3 - - - | - - - - | r - - - |'), [
      '0> 6:3 3/8 + 1:0 3/8 3/8> 1:3 1/8 = 1/2',
      'held 1 1/4 1/4> 1:5 1/4 = 1/2',
      'held 1 1/2 0> stop 6 = 1/2',
    ]);
  });
  it('rests where the last strings are stopped, and where nothing has begun', () => {
    assert.deepEqual(tab('1 | - 3 r - |', '6 | - 3 - - |'), ['0> r 1/8 1/8> 6:3 3/8 + 1:3 1/8 1/4> stop 1 = 1/2']);
    assert.deepEqual(tab('1 | 3 r r r |'), [
      '0> 1:3 1/8 1/8> r 1/8 + stop 1 1/4> r 1/8 + stop 1 3/8> r 1/8 + stop 1 = 1/2',
    ]);
  });
  it('goes on in a next system where a string comes again, with the rows that stand there', () => {
    const bars = ['0> 1:0 1/8 1/8> 1:1 1/8 i = 1/4 over G 1/4', '0> 1:3 1/8 m 1/8> 1:5 1/8 = 1/4 over C 1/4'];
    assert.deepEqual(tab('chords G', '1 | 0 1 |', 'pluck - i', 'chords C', '1 | 3 5 |', 'pluck m -'), bars);
    assert.deepEqual(tab('chords G', '1 | 0 1 |', 'pluck - i', '', 'chords C', '1 | 3 5 |', 'pluck m -'), bars);
    assert.deepEqual(tab('1 | 0 1 |', 'pluck - i', 'chords G', '', '1 | 3 5 |', 'pluck m -', 'chords C'), bars);
  });
  it('keeps what sounds from system to system', () => {
    assert.deepEqual(inTab('1 | 3 - |', '', '1 | h5 - |'), []);
    assert.deepEqual(inTab('1 | - g3 |', '', '1 | h5 - |'), []);
  });
  it('marks fingers of both hands and the palm, one for all or one for each from the lowest string up', () => {
    assert.deepEqual(
      tab(
        '1 | 0   3   -  -  |',
        '2 | -   3   1h3 - |',
        '6 | 3   -   -  0  |',
        'pluck   | p+a i m p |',
        'fingers | 3   4 13 - |',
        'palm    | *   - -  * |',
      ),
      [
        '0> 6:3 1/8 palm finger 3 p + 1:0 1/8 palm a 1/8> 2:3 1/8 finger 4 i + 1:3 1/8 finger 4 i ' +
          '1/4> 2:1 1/16 finger 1 m 5/16> 2:3 1/16 hammer-on finger 3 3/8> 6:0 1/8 palm p = 1/2',
      ],
    );
    assert.deepEqual(inTab('1 | 0 3 |', 'pluck k i', 'fingers 5 4', 'palm - x'), [
      'stray-mark "k"',
      'stray-mark "5"',
      'stray-mark "x"',
    ]);
    assert.deepEqual(inTab('1 | 0 |', '2 | 1 |', 'pluck p+i+m'), ['stray-mark "p+i+m"']);
  });
  it('repeats the bar before in a row that says so', () => {
    assert.deepEqual(tab('1 | 0 - | ... | 3 - |', '6 | 3 - | 1 - | ... |', 'pluck p - | ... | -'), [
      '0> 6:3 1/4 p + 1:0 1/4 = 1/4',
      '0> 6:1 1/4 p + 1:0 1/4 = 1/4',
      '0> 6:1 1/4 + 1:3 1/4 = 1/4',
    ]);
    assert.deepEqual(tab('1 | 0 - |', '', '1 | … |'), ['0> 1:0 1/4 = 1/4', '0> 1:0 1/4 = 1/4']);
    assert.deepEqual(inTab('1 | ... | 0 - |'), ['nothing-to-repeat "..."']);
  });
  it('says at its bar which row has another number of steps, and plays the rest', () => {
    const rows = ['1 | 0 - 3 - | 5 - 3 - |', '2 | 1 - 1 - | 3 - 1 |', '6 | 3 - - - | 1 - - - |'];
    assert.deepEqual(inTab(...rows), ['row-miscounted "3 - 1"']);
    assert.equal(tab(...rows)[1], '0> 6:1 1/4 + 2:3 1/4 + 1:5 1/4 1/4> 2:1 1/4 + 1:3 1/4 = 1/2');
    const [problem] = lessonOf(`tab coda\n  each 1/8\n  ${rows.join('\n  ')}\n`).problems;
    assert.deepEqual(problem.data, { what: 'step', row: '2', found: '3', usual: '4', bar: '2' });
  });
  it('takes the count that fills the meter where two rows are of two minds', () => {
    assert.deepEqual(inTab('1 | 0 - 3 - 0 - 3 - |', '6 | 3 - - - - - - - - |'), ['row-miscounted "3 - - - - - - - -"']);
  });
  it('says which row has another number of bars', () => {
    assert.deepEqual(inTab('chords G | C | D', '1 | 0 - | 3 - |', '6 | 3 - | 1 - |'), [
      'row-miscounted "chords G | C | D"',
    ]);
    assert.deepEqual(inTab('1 | 0 - | 3 - |', '5 | 3 - | 1 - |', '6 | 3 - |'), ['row-miscounted "6 | 3 - |"']);
  });
  it('needs strings that exist', () => {
    assert.deepEqual(inTab('1 | 0 |', '7 | 3 |'), ['unknown-string "7"']);
  });
  it('counts chords as a progression does', () => {
    assert.match(tab('chords G / D | % ', '1 | 0 - - - - - | 1 - - - - - |')[1], /over G 1\/2 D 1\/4$/);
    assert.deepEqual(inTab('chords H7', '1 | 0 |'), ['unknown-chord "H7"']);
  });
  it('is bounded', () => {
    const many = `tab coda\n  1 ${'| 3 '.repeat(390)}\n  1 ${'| 3 '.repeat(390)}\n`;
    assert.deepEqual(
      lessonOf(many).problems.map(({ kind, data }) => `${kind} ${data.what}`),
      ['too-much bars'],
    );
    assert.equal(lessonOf(many).tabs[0].bars.length, 400);
    assert.deepEqual(
      lessonOf(`tab coda\n  1 ${'3 '.repeat(300)}\n`).problems.map(({ data }) => data.what),
      ['steps in a bar'],
    );
  });
});
