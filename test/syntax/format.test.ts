import assert from 'node:assert/strict';
import { readFileSync, readdirSync } from 'node:fs';
import { LONGEST_TEXT } from '../../server/src/syntax/document.ts';
import { formatEdits, formatText } from '../../server/src/syntax/format.ts';
import { statements } from '../../server/src/syntax/statements.ts';
import { applyEdits } from '../../server/src/util/edits.ts';
import { lesson } from '../support/syntax-outline.ts';
import { losses } from '../support/format-losses.ts';

/** Formats `before`, and checks what must hold for every text: nothing lost, nothing more to do. */
function becomes(before: string, after: string): void {
  assert.equal(formatText(before), after);
  assert.equal(formatText(after), after);
  assert.deepEqual(losses(before, after), []);
}

const stays = (text: string): void => becomes(text, text);

describe('formatting', () => {
  it('one blank between words, two for a body', () => {
    becomes(
      'key\t G   major\nshape  lamp\n\tstrings 4  2 1\n      tones 3 R 5 \n',
      'key G major\n\nshape lamp\n  strings 4 2 1\n  tones 3 R 5\n',
    );
  });
  it('commas and colons stand with the word before', () => {
    becomes('lesson "A"\n  focus "a" ,"b"\n', 'lesson "A"\n  focus "a", "b"\n');
    becomes('contour a on 1\n  from 5 :0 -1 0\n', 'contour a on 1\n  from 5: 0 -1 0\n');
    becomes('melody a\n  2 :5 7 1:3\n', 'melody a\n  2: 5 7 1: 3\n');
  });
  it('bars are parted by a bar line between blanks; outer bar lines stay as written', () => {
    becomes('progression a\n  |G|D  |\n  Em|Am\n', 'progression a\n  | G | D |\n  Em | Am\n');
  });
  it('bars of neighbouring lines stand in columns, where there are as many', () => {
    becomes(
      lesson`
        progression a
          G | D/F# at 2 | Em ; down
          ; and home
          Am7 | D | G held
          C | G
          Am | Bm7
        melody b
          | 5 7 | 2: 8 r |
          | 10 3/4 | 8 |
        cell c
          p6 i3 triplet(m2 a1 m2) | p5
          p4 | p6 1/4
        section d
          words low- tide, | tide
          words lan- | terns
      `,
      lesson`
        progression a
          G   | D/F# at 2 | Em ; down
          ; and home
          Am7 | D         | G held
          C  | G
          Am | Bm7

        melody b
          | 5 7    | 2: 8 r |
          | 10 3/4 | 8      |

        cell c
          p6 i3 triplet(m2 a1 m2) | p5
          p4                      | p6 1/4

        section d
          words low- tide, | tide
          words lan-       | terns
      `,
    );
  });
  it('bars beyond a blank line, a broken line or another count have columns of their own', () => {
    becomes(
      'progression a\n  G | D\n\n  Am7 | C\n  G at | D\n  C|D\n  Em|D|\n',
      'progression a\n  G | D\n\n  Am7 | C\n  G at | D\n  C | D\n  Em | D |\n',
    );
  });
  it('lists of frets have hyphens where a fret has two digits', () => {
    becomes(
      'grip A X-0-2-2-2-0\n  fingers x-0-1-2-3-0\nprogression a\n  D as X-x-4-0-3-5 | A as x-12-11-9-10-x\n',
      'grip A x02220\n  fingers x01230\n\nprogression a\n  D as xx4035 | A as x-12-11-9-10-x\n',
    );
    stays('progression a\n  D as x-3\n  D as x--3-2-0-1\n');
  });
  it('chords stay as their author spells them', () => {
    stays('progression a\n  Gmaj | CM7 | Cmaj7(#11) | C7(b9,#11) | Bbmin\n');
  });
  it('keywords in capitals are written small, names and titles are not', () => {
    becomes(
      'Lesson "On THE Pier"\nKEY G major\n\nHand Medium\nSection Pier\n  Progression Quay Bars 1 To 4\n',
      'lesson "On THE Pier"\nkey G major\n\nhand medium\n\nsection Pier\n  progression Quay bars 1 to 4\n',
    );
    // Written small, it would be taken for a line of the section.
    stays('section pier\n  cell a\n\n; aside\nShape b\n');
  });
  it('an indent that was lost is given back, where it is sure whose line it is', () => {
    becomes(
      'section pier\n    cell a\nprogression quay\ntimes 2\n\nprogression quay\nG|D\n',
      'section pier\n  cell a\n  progression quay\n  times 2\n\nprogression quay\n  G | D\n',
    );
    stays('section pier\n  cell a\ntimes 2\nwibble 3\n');
  });
  it('a triplet holds its notes close', () => {
    becomes('cell a\n  triplet( p6   i3 m2 )1/4  -\n', 'cell a\n  triplet(p6 i3 m2) 1/4 -\n');
  });
  it('the modifiers of a chord come in one order', () => {
    becomes(
      'progression a\n  G pushed held with b in E minor over D at 5 | C in D dorian as x32010\n',
      'progression a\n  G at 5 over D in E minor with b held pushed | C as x32010 in D dorian\n',
    );
  });
  it('accidentals are written # and b where nothing else can be meant', () => {
    becomes(
      lesson`
        lesson "In B♭"
        tuning E♭2 A♭2 D♭3 G♭3 B♭3 E♭4
        key B♭ major
        shape lamp
          tones ♭3 R ♯11
        progression a in F♯ minor
          B♭maj7(♯11) over ♭3 | ♭VII over E♭
        contour c on 1
          from ♭3: 0 +1♯ ♭5
      `,
      lesson`
        lesson "In B♭"
        tuning Eb2 Ab2 Db3 Gb3 Bb3 Eb4
        key Bb major

        shape lamp
          tones b3 R #11

        progression a in F# minor
          Bbmaj7(#11) over b3 | bVII over Eb

        contour c on 1
          from b3: 0 +1# b5
      `,
    );
  });
  it('titles stand in straight quotes, with the same words', () => {
    becomes('lesson “Two lamps”\n', 'lesson "Two lamps"\n');
    stays('lesson “A \\” b\n');
    becomes('lesson “A\\”\n', 'lesson "A\\\\"\n');
    stays('lesson "A \\"b\\" \\\\ \\n  c"\n');
  });
  it('comments keep their text: one blank before them, or the indent of their place', () => {
    becomes(
      '  ; top  \nlesson "A"   ;  x  y\n; for the level\n  level 3\n     ; the end of it\n; for the key\nkey G major\n    ; alone\n',
      '; top\nlesson "A" ;  x  y\n  ; for the level\n  level 3\n  ; the end of it\n\n; for the key\nkey G major\n; alone\n',
    );
  });
  it('a comment right above a statement stays with it', () => {
    becomes(
      'cell a\n  p6 i3\n; about b\n; more about b\ncell b\n  p5 i3\n',
      'cell a\n  p6 i3\n\n; about b\n; more about b\ncell b\n  p5 i3\n',
    );
  });
  it('what is allowed on the next line stays above it', () => {
    becomes(
      'cell a\n  p6 i3\n  ; the end\n  ; allow empty-part\ncell b\n  p5 i3\n\nsection c\n; allow unknown-name\n  cell d\n',
      'cell a\n  p6 i3\n  ; the end\n\n; allow empty-part\ncell b\n  p5 i3\n\nsection c\n  ; allow unknown-name\n  cell d\n',
    );
  });
  it('one blank line around statements of several lines, none at the ends, never two', () => {
    becomes(
      '\n \nkey G major\n\n\n\nmeter 3/4\ntempo 84\ncell a\n\n\n  p6 i3\nform verse\nform coda\n\n \n',
      'key G major\n\nmeter 3/4\ntempo 84\n\ncell a\n\n  p6 i3\n\nform verse\nform coda\n',
    );
  });
  it('settings and claims may stand together, or apart', () => {
    stays('key G major\nmeter 3/4\n\ntempo 84\n\nclaim no barre\nclaim open 3 throughout\n');
  });
  it('prose is left to the letter', () => {
    becomes(
      'key G major\ntext   ; for them\n\n\n  ## A   "b"\n \n\n     ; code\n; aside   \n   {verse.1.chord}  \n\n\nshow   verse\n',
      'key G major\n\ntext ; for them\n\n\n  ## A   "b"\n \n\n     ; code\n; aside   \n   {verse.1.chord}  \n\nshow verse\n',
    );
  });
  it('prose that lost its indent is left too', () => stays('text\nLet  it ring.\n  So.\n'));
  it('a broken line keeps all but its indent, and its neighbours are written anew', () => {
    becomes(
      'tempoo   84\nkey  G major\nshape a\n  stings   4\n    reach   2\n\twibble   x ; y\n',
      'tempoo   84\nkey G major\n\nshape a\n  stings   4\n  reach 2\n  wibble   x ; y\n',
    );
    becomes('progression a\n\tG  at |  D \n\tG  |  D\n', 'progression a\n  G  at |  D \n  G | D\n');
    stays('progression a\nG  at |  D\n');
    stays('lesson "Lamps  and\n  level 3\n');
  });
  it('what no statement begins is left with all that is under it', () => {
    stays('wibble   a\n\n\n   b  c\n  ; d\n\nkey G major\n');
  });
  it('a line that was said twice is left', () => {
    becomes('shape a\n   reach  2\n   reach  3\n', 'shape a\n  reach 2\n  reach  3\n');
  });
  it('a semicolon that a word begins with never becomes a comment', () => {
    stays('section a\n  words la |;la\n');
  });
  it('line ends stay what they are, new ones are like their neighbours', () => {
    becomes('form a\rcell a\r  p6 i3\n', 'form a\r\rcell a\r  p6 i3\n');
    becomes('form a\r  \nform  b\n', 'form a\r  \nform b\n');
    becomes('key  G major\r\ncell a\r\n  p6 i3', 'key G major\r\n\r\ncell a\r\n  p6 i3\r\n');
    becomes('key  G major\rmeter 3/4\n', 'key G major\rmeter 3/4\n');
  });
  it('a byte-order mark stays, no-break spaces go', () => {
    becomes('\ufeffkey\u00a0G major\n', '\ufeffkey G major\n');
  });
  it('nothing comes of nothing', () => {
    stays('');
    becomes('\n\n  \n', '');
    stays('; aside\n');
    stays('\ufeff');
  });
  it('what is no text, or too long, is left alone', () => {
    stays('key  G\u0000major');
    stays('key  G major\n'.repeat(LONGEST_TEXT / 10));
    stays(`progression a\n  ${'G  '.repeat(2000)}\n`);
    // Grown beyond what can be read, it would lose its end.
    stays(`progression a\n  ${'G|D|'.repeat(990)}\n`);
  });
});

describe('formatting a tab', () => {
  it('sets step under step and bar under bar', () => {
    becomes(
      lesson`
        tab coda
          each 1/8
          chords G | C / Am
          1 | 0 - 3 - <12> - | - - - - - - |
          2 | - 1 h3 - - - | 5 /7 7b9 r - - |
          pluck p i m a - - | p
          fingers 3 1 4 - - - | 1
      `,
      lesson`
        tab coda
          each 1/8
          chords    G               | C / Am
          1       | 0 - 3  - <12> - | - -  -   - - - |
          2       | - 1 h3 - -    - | 5 /7 7b9 r - - |
          pluck     p i m  a -    - | p
          fingers   3 1 4  - -    - | 1
      `,
    );
  });
  it('each system by itself: a string that comes again begins the next', () => {
    becomes(
      'tab coda\n  1 | <12> 0 |\n  6 | 3 0 |\n  1 | 0 0 |\n  6 | 3 0 | ; home\n',
      'tab coda\n  1 | <12> 0 |\n  6 | 3    0 |\n  1 | 0 0 |\n  6 | 3 0 | ; home\n',
    );
  });
  it('rows of marks under their steps; `...` widens none', () => {
    stays(
      lesson`
        tab coda
          each 1/8
          1     | 0 - 7b9r7~ - | - g5h7 /7 r |
          palm  | * * -      - | ...         |
          pluck   p - i      m | ...
      `,
    );
  });
  it('chords without a blank line above with the strings below them', () => {
    becomes(
      'tab coda\n  1 | <12> 0 |\n  chords G\n  1 | 0 0 |\n',
      'tab coda\n  1 | <12> 0 |\n  chords   G\n  1      | 0 0 |\n',
    );
  });
  it('a melody: strings, slides and lengths stand apart, brackets close', () => {
    becomes(
      'melody landing on 1\n  each  1/8   triplet\n  5   /7 2:  (5)~ 1/4 |g5   h7b9r7  triplet( 1 g3 5 ) 1/4\n',
      'melody landing on 1\n  each 1/8 triplet\n  5 /7 2: (5)~ 1/4 | g5 h7b9r7 triplet(1 g3 5) 1/4\n',
    );
  });
  it('words with their commas, and the other lines of a section', () => {
    becomes(
      'section verse\n  times  2\n ending  1   back\n  pickup   1/4\n  words low- tide , lan-terns |  o - ver\n',
      'section verse\n  times 2\n  ending 1 back\n  pickup 1/4\n  words low- tide, lan-terns | o - ver\n',
    );
  });
  it('rows of marks stand with the strings, each system with its own', () => {
    becomes(
      lesson`
        tab coda
          each 1/8
          chords G | C
          1 | 0 - 3 - | 12 - - - |
          6 | 3 - - - | ... |
          palm * * - - | * - - -
          chords Am | G / N.C. %
          ; the thumb alone
          1 | 0 3 | 10 |
          pluck p+a - | i
          fingers 0 4 | 3+1
      `,
      lesson`
        tab coda
          each 1/8
          chords   G       | C
          1      | 0 - 3 - | 12 - - - |
          6      | 3 - - - | ...      |
          palm     * * - - | *  - - -
          chords    Am    | G / N.C. %
          ; the thumb alone
          1       | 0   3 | 10         |
          pluck     p+a - | i
          fingers   0   4 | 3+1
      `,
    );
  });
  it('rows of unequal length, empty bars and missing outer bar lines', () => {
    becomes(
      'tab coda\n  1 | 10 0 || 5\n  2 0 | 1 | 2 3 |\n  3 |\n',
      'tab coda\n  1 | 10 0 |   | 5\n  2   0    | 1 | 2 3 |\n  3 |\n',
    );
  });
});

describe('formatting keeps', () => {
  const samples = readdirSync('samples', { recursive: true })
    .map((name) => `samples/${String(name)}`)
    .filter((name) => name.endsWith('.lesson'));
  for (const name of samples) {
    it(`the sample ${name} as it is`, () => stays(readFileSync(name, 'utf8')));
  }
  it('every example of the table as it is', () => {
    for (const form of statements) {
      stays(`${form.example}\n`);
      const head = form.example.split('\n')[0];
      for (const line of form.body) stays(`${head}\n  ${line.example}\n`);
    }
  });
  it('all but the place in question: one edit a line, and no larger than need be', () => {
    const text = 'key G major\nprogression quay\n  G |  D | Em\n  Am\n';
    const edits = formatEdits(text);
    assert.deepEqual(
      edits.map(({ span, text: written }) => [text.slice(span.start, span.end), written]),
      [
        ['', '\n'],
        [' ', ''],
      ],
    );
    assert.equal(applyEdits(text, edits), formatText(text));
  });
});
