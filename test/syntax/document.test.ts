import assert from 'node:assert/strict';
import { readFileSync, readdirSync } from 'node:fs';
import { LONGEST_TEXT, readDocument } from '../../server/src/syntax/document.ts';
import { lesson, outline, problemsOf } from '../support/syntax-outline.ts';

function reads(text: string, expected: string): void {
  assert.deepEqual(problemsOf(text), []);
  assert.equal(outline(text), expected.trimEnd());
}

describe('reading statements', () => {
  it('settings', () => {
    reads(
      lesson`
        tuning D2 A2 D3 G3 A3 D4
        capo 2 on 5 4 3
        no capo
        scale-length 648mm
        key F# harmonic minor
        tempo 3/8 = 60
        swing 1/8
      `,
      lesson`
        tuning tuning=D2 tuning=A2 tuning=D3 tuning=G3 tuning=A3 tuning=D4
        capo fret=2 string=5 string=4 string=3
        no
        scale-length measure=648mm
        key tonic=F# mode=harmonic mode=minor
        tempo beat=3/8 tempo=60
        swing length=1/8
      `,
    );
  });
  it('what heads a lesson', () => {
    reads(
      lesson`
        lesson "Harbour \"lamps\""
          by "A teacher"
          focus "one", "two"
          needs "a.lesson", "b/c.lesson"
        use lamp, ripple from "parts.lesson"
        use "more.lesson"
      `,
      lesson`
        lesson title=Harbour "lamps"
          by author=A teacher
          focus focus=one focus=two
          needs path=a.lesson path=b/c.lesson
        use name=lamp name=ripple path=parts.lesson
        use path=more.lesson
      `,
    );
  });
  it('a progression with every modifier, in any order', () => {
    reads(
      lesson`
        progression quay in D minor
          | G at 8 held | D over 3 pushed / | V7/V in E minor pentatonic with ripple | N.C.
          C7(b9, #11) as x79900 | %
      `,
      lesson`
        progression name=quay tonic=D mode=minor
          bars | chord(chord=G at(fret=8) held) | chord(chord=D over(bass=3) pushed) beat=/ | chord(chord=V7/V in(tonic=E mode=minor mode=pentatonic) with(name=ripple)) | no-chord=N.C.
          bars chord(chord=C7(b9, #11) as(frets=x79900)) | again(repeat=%)
      `,
    );
  });
  it('a chord behind a scale of two words is a chord', () => {
    reads(
      'progression quay\n  G in E harmonic minor Am | I in C dorian vi IV\n',
      lesson`
        progression name=quay
          bars chord(chord=G in(tonic=E mode=harmonic mode=minor)) chord(chord=Am) | chord(chord=I in(tonic=C mode=dorian)) chord(chord=vi) chord(chord=IV)
      `,
    );
  });
  it('a cell, a contour and a melody', () => {
    reads(
      lesson`
        cell ripple in 6/8
          each 1/8 triplet
          p6+a1> i3 1/4 triplet(i3 m2 a1) 1/4 | p(bass) down(4 to 1) - r
        contour swell on top
          from 5 or R: 0 +1# 1/2 -1 | r
          scale E dorian
          with a
        melody landing on 1
          7 8 5/7 | 2: 5 7h8 - 1:3 | (5) 3/4 r
      `,
      lesson`
        cell name=ripple meter=6/8
          each length=1/8 triplet
          picks note(sign=p6+a1>) note(sign=i3 length=1/4) triplet(note(sign=i3) note(sign=m2) note(sign=a1) length=1/4) | note(sign=p(bass)) note(sign=down(4 to 1)) note(sign=-) note(sign=r)
        contour name=swell voice=top
          steps start=5 start=R note(sign=0) note(sign=+1# length=1/2) note(sign=-1) | note(sign=r)
          scale tonic=E mode=dorian
          with finger=a
        melody name=landing string=1
          notes note(sign=7) note(sign=8 length=5/7) | string=2 note(sign=5) note(sign=7h8) note(sign=-) string=1 note(sign=3) | note(sign=(5) length=3/4) note(sign=r)
      `,
    );
  });
  it('a tab', () => {
    reads(
      lesson`
        tab coda
          each 1/8
          chords G | C
          1 | 0 - 3 - <12> - | 7b9 r |
          6 | 3 1/4 x (5) 2<14> 5~ | - |
          pluck p i m a - - | p+a
          fingers 3 1 4 - - - | -
      `,
      lesson`
        tab name=coda
          each length=1/8
          chords chord=G | chord=C
          row string=1 | sign=0 sign=- sign=3 sign=- sign=<12> sign=- | sign=7b9 sign=r |
          row string=6 | sign=3 sign=1/4 sign=x sign=(5) sign=2<14> sign=5~ | sign=- |
          pluck pluck=p pluck=i pluck=m pluck=a pluck=- pluck=- | pluck=p+a
          fingers finger=3 finger=1 finger=4 finger=- finger=- finger=- | finger=-
      `,
    );
  });
  it('a section, a form, what is shown and practised', () => {
    reads(
      lesson`
        section verse "The quay"
          progression quay
          shape lamp bars 1 to 4
          shape bell at bar 8
          times 2
          ending 1 back
          pickup 1/4
          words low- tide | lan- terns
          key D major
        form verse coda
        show verse as tab bars 1 to 4
        practice
          step "Slow" at 60 for 3 minutes in verse bars 1 to 2
          step "Up" from 60 to 84 by 6 bar 3
      `,
      lesson`
        section name=verse title=The quay
          progression name=quay
          shape name=lamp first=1 last=4
          shape name=bell at-bar=8
          times times=2
          ending ending=1 name=back
          pickup length=1/4
          words syllable=low- syllable=tide | syllable=lan- syllable=terns
          key tonic=D mode=major
        form section=verse section=coda
        show section=verse view=tab first=1 last=4
        practice
          step title=Slow tempo=60 minutes=3 section=verse first=1 last=2
          step title=Up ladder(tempo=60 to=84 by=6) first=3
      `,
    );
  });
  it('every claim', () => {
    reads(
      lesson`
        claim verse bar 2 chord 1 is Dadd11/F#
        claim bar 2 tones 3 11 R b5
        claim bar 2 open 3 adds 11
        claim melody starts on 5 except bar 4
        claim melody D4 C4 in bar 3
        claim same contour throughout
        claim scale A minor pentatonic
        claim playable at 96 in verse
        claim reach at most 2 in verse
        claim no barre
        claim open 3 throughout
        claim frets 1 to 12
        claim thumb alternates throughout
        claim common tone G3 throughout
      `,
      lesson`
        claim bar(section=verse bar=2 chord-number=1 chord=Dadd11/F#)
        claim bar(bar=2 tone=3 tone=11 tone=R tone=b5)
        claim bar(bar=2 string=3 tone=11)
        claim melody(tone=5 first=4)
        claim melody(note=D4 note=C4 bar=3)
        claim contour()
        claim scale(tonic=A mode=minor mode=pentatonic)
        claim playable(tempo=96) section=verse
        claim reach(fret=2) section=verse
        claim no-barre()
        claim open(string=3)
        claim frets(from=1 to=12)
        claim thumb()
        claim common(note=G3)
      `,
    );
  });
  it('a variant', () => {
    reads(
      lesson`
        variant gentle "Gentler"
          capo 3
          level 2
          shape bell instead of lamp
          claim no barre
          step "Slow" at 60
      `,
      lesson`
        variant name=gentle title=Gentler
          capo fret=3
          level level=2
          shape name=bell instead=lamp
          claim no-barre()
          step title=Slow tempo=60
      `,
    );
  });
  it('prose is kept to the letter, with its own semicolons; a comment in the first column is none of it', () => {
    reads(
      'text\n  ## Two; three\n\n    ; code | here  \n; aside\n  {verse.1.chord}\n\nshow verse\n',
      lesson`
        text
          prose: "  ## Two; three\n\n    ; code | here  \n; aside\n  {verse.1.chord}"
          comment: ; aside
        show section=verse
      `.replaceAll('\\\\n', '\\n'),
    );
  });
  it('comments and blank lines never end a body', () => {
    reads(
      lesson`
        shape lamp ; three strings

          strings 4 2 1
        ; aside

          tones 3 R 5 ; allow muddy-low-interval
      `,
      lesson`
        shape name=lamp
          strings string=4 string=2 string=1
          tones tone=3 tone=R tone=5
          comment: ; three strings (trailing)
          comment: ; aside
          comment: ; allow muddy-low-interval (trailing)
      `,
    );
  });
  for (const name of readdirSync('samples', { recursive: true }).map(String)) {
    if (!name.endsWith('.lesson')) continue;
    it(`the sample ${name}`, () => assert.deepEqual(problemsOf(readFileSync(`samples/${name}`, 'utf8')), []));
  }
});

describe('broken lines', () => {
  /** One slip each; the line below it must be read as if nothing had happened. */
  const slips: readonly (readonly [line: string, ...problems: string[]])[] = [
    ['tempoo 84', '1:1 misspelt-word "tempoo" (right: tempo)'],
    ['Tempo 84', '1:1 misspelt-word "Tempo" (right: tempo)'],
    ['metre 3/4', '1:1 misspelt-word "metre" (right: meter)'],
    ['wibble 84', '1:1 unknown-statement "wibble"'],
    ['tempo: 84', '1:6 stray-colon ":" (word: tempo)'],
    ['tempo', '1:1 line-too-short "tempo" (after: tempo)'],
    ['tempo fast', '1:7 unexpected-word "fast" (after: tempo)'],
    ['tempo 84 bpm', '1:10 needless-word "bpm"'],
    ['tempo 84 loud', '1:10 unexpected-word "loud" (after: 84)'],
    ['hand midium', '1:6 misspelt-word "midium" (right: medium)'],
    ['lesson "Lamps', '1:8 unclosed-quote "\\"Lamps"'],
    ['lesson Lamps', '1:8 misspelt-word "Lamps" (right: "Lamps")'],
    ['capo 2 on', '1:8 line-too-short "on" (after: on)'],
    ['use lamp ripple from "a.lesson"', '1:10 unexpected-word "ripple" (after: lamp)'],
    ['"key" G major', '1:1 unknown-statement "\\"key\\""'],
    ['| G | D', '1:1 unknown-statement "|"'],
    ['claim reach at least 2', '1:16 unexpected-word "least" (after: at)'],
    ['form', '1:1 line-too-short "form" (after: form)'],
    ['text Let it ring', '1:6 unexpected-word "Let" (after: text)'],
    ['shape lamp\n  stings 4 2 1', '2:3 misspelt-word "stings" (right: strings)'],
    ['shape lamp\n  color 9', '2:3 misspelt-word "color" (right: colour)'],
    ['shape lamp\n  wibble 9', '2:3 unknown-line "wibble" (statement: shape)'],
    ['shape lamp\n  tempo 80', '2:3 unknown-line "tempo" (statement: shape, elsewhere: yes)'],
    ['shape lamp\n  reach 2\n  reach 3', '3:3 said-twice "reach" (word: reach, statement: shape)'],
    ['shape lamp\nreach 2', '2:1 line-not-indented "reach 2" (statement: shape)'],
    ['shape lamp\n  reach 2 3', '2:11 unexpected-word "3" (after: 2)'],
    ['progression quay\nG | D', '2:1 line-not-indented "G | D" (statement: progression)'],
    ['progression quay\n  G | 12 | D', '2:7 unexpected-word "12" (after: |)'],
    ['progression quay\n  G at | D', '2:8 unexpected-word "|" (after: at)'],
    ['progression quay\n  G puhsed | D', '2:5 misspelt-word "puhsed" (right: pushed)'],
    ['progression quay\n  G held held | D', '2:10 unexpected-word "held" (after: held)'],
    ['contour swell on 1\n  from 5 0 -1', '2:10 unexpected-word "0" (after: 5)'],
    ['contour swell on 1\n  fron 5: 0 -1', '2:3 misspelt-word "fron" (right: from)'],
    ['tab coda\n  top | 0 - 3 |', '2:3 unexpected-word "top"'],
    ['text\nLet it ring', '2:1 line-not-indented "Let it ring" (statement: text)'],
    ['note\nLet it ring', '2:1 line-not-indented "Let it ring" (statement: note)'],
  ];
  for (const [line, ...problems] of slips) {
    it(`${JSON.stringify(line)} has one problem, and what follows is read`, () => {
      const text = `${line}\nkey G major\nprogression pier\n  G | D\n`;
      assert.deepEqual(problemsOf(text), problems);
      assert.ok(
        outline(text).endsWith('key tonic=G mode=major\nprogression name=pier\n  bars chord(chord=G) | chord(chord=D)'),
      );
    });
  }
  it('a broken bar costs that bar alone', () => {
    const text = 'progression quay\n  G | at 5 | Em at | Am held\n';
    assert.deepEqual(problemsOf(text), ['2:7 unexpected-word "at" (after: |)', '2:20 unexpected-word "|" (after: at)']);
    assert.equal(
      outline(text),
      'progression name=quay\n  bars chord(chord=G) | broken= | chord(chord=Em) broken= | chord(chord=Am held) (broken)',
    );
  });
  it('a line without its indent still joins the body above', () => {
    const text = 'cell ripple\neach 1/8\np4 i3 m2 i3\n  p5 i3\n';
    assert.equal(
      outline(text),
      lesson`
        cell name=ripple
          each length=1/8
          picks note(sign=p4) note(sign=i3) note(sign=m2) note(sign=i3)
          picks note(sign=p5) note(sign=i3)
      `.trimEnd(),
    );
    assert.deepEqual(problemsOf(text), [
      '2:1 line-not-indented "each 1/8" (statement: cell)',
      '3:1 line-not-indented "p4 i3 m2 i3" (statement: cell)',
    ]);
  });
  it('calls of a section that lost their indent still join it; what has a body of its own does not', () => {
    const text = lesson`
      section verse
      progression quay
      cell ripple
      shape lamp
        strings 4 2 1
    `;
    assert.equal(
      outline(text),
      lesson`
        section name=verse
          progression name=quay
          cell name=ripple
        shape name=lamp
          strings string=4 string=2 string=1
      `.trimEnd(),
    );
    assert.deepEqual(
      problemsOf(text).map((one) => one.split(' ')[1]),
      ['line-not-indented', 'line-not-indented'],
    );
  });

  it('an unknown word has one problem, not one for each line under it', () => {
    assert.deepEqual(problemsOf('wibble\n  a b c\n  d e f\nkey G major\n'), ['1:1 unknown-statement "wibble"']);
    assert.deepEqual(problemsOf('section verse\nwibble\n  a b c\n  d e f\nkey G major\n'), [
      '2:1 unknown-statement "wibble"',
    ]);
  });
  it('comments count below an unknown word too', () => {
    assert.equal(
      outline('wibble ; a\n  b c ; d\n; e\n'),
      '(unread)\n  comment: ; a (trailing)\n  comment: ; d (trailing)\n  comment: ; e',
    );
  });
  it('a text whose first line is indented is not passed over in silence', () => {
    assert.deepEqual(problemsOf('; aside\n  G | D\n  Em\n'), ['2:3 unknown-statement "G"']);
    assert.equal(outline('\n  lesson "Lamps"\n  level 3\n'), 'lesson title=Lamps\n  level level=3');
  });
});

describe('texts as editors and people leave them', () => {
  const plain = 'lesson "Lamps"\n  level 3\n\nkey G major\n\ntext\n  Let it ring.\n\nprogression quay\n  G | D\n';
  const readsAlike = (text: string): void => {
    assert.deepEqual(problemsOf(text), []);
    assert.equal(outline(text), outline(plain));
  };
  it('CRLF', () => readsAlike(plain.replaceAll('\n', '\r\n')));
  it('a lone CR', () => readsAlike(plain.replaceAll('\n', '\r')));
  it('a byte-order mark', () => readsAlike(`\ufeff${plain}`));
  it('no last newline', () => readsAlike(plain.trimEnd()));
  it('blanks at line ends', () => readsAlike(plain.replace(/(?<!ring\.)\n/g, ' \t\n')));
  it('curly quotes', () => readsAlike(plain.replace('"Lamps"', '“Lamps”')));
  it('tabs for indent and between words', () => {
    assert.equal(outline('shape lamp\n\tstrings\t4 2\t1\n'), outline('shape lamp\n  strings 4 2 1\n'));
  });
  it('no-break spaces for indent and between words', () => {
    const text = 'shape\u00a0lamp\n\u00a0\u00a0strings 4\u202f2 1\n';
    assert.deepEqual(problemsOf(text), []);
    assert.equal(outline(text), outline('shape lamp\n  strings 4 2 1\n'));
  });
  it('nothing at all, blanks alone, comments alone, a mark alone', () => {
    for (const text of ['', '\n', '  \n\t\n', '; aside', '\ufeff', '\r\n\r\n']) {
      assert.deepEqual(problemsOf(text), [], JSON.stringify(text));
    }
    assert.equal(outline(''), '');
  });
  it('an end in mid word reads what is there', () => {
    for (const end of [0, 3, 6, 10, 14, 20, 26, 30, 40, 45, 55, 70, 80]) {
      const { statements } = readDocument(plain.slice(0, end));
      assert.ok(statements.length <= 5);
    }
    assert.deepEqual(problemsOf('key G maj'), []);
    assert.deepEqual(problemsOf('key'), ['1:1 line-too-short "key" (after: key)']);
  });
  it('what is no text is said once and not read', () => {
    const binary = Array.from({ length: 5000 }, (_, i) => String.fromCharCode((i * 7919) % 256)).join('');
    assert.deepEqual(readDocument(binary).statements, []);
    assert.equal(readDocument(binary).problems.length, 1);
    assert.equal(readDocument(binary).problems[0].kind, 'not-a-text');
  });
  it('five megabytes are read up to the limit, at the end of a line', () => {
    const { statements, problems } = readDocument('progression quay\n  G | D | Em\n\n'.repeat(170_000));
    assert.deepEqual(
      problems.map((problem) => problem.kind),
      ['lesson-too-long'],
    );
    const last = statements[statements.length - 1];
    assert.ok(last.start + last.tree.text.length <= LONGEST_TEXT);
    assert.ok(last.tree.text.endsWith('\n'));
  });
  it('a line of five megabytes is not read', () => {
    assert.deepEqual(readDocument('G '.repeat(2_500_000)).statements, []);
  });
  it('a line of brackets that never close is read up to the limit', () => {
    const text = `progression quay\n  ${'C('.repeat(100_000)}\n  G | D\n`;
    assert.deepEqual(
      readDocument(text).problems.map((problem) => problem.kind),
      ['line-too-long'],
    );
    assert.ok(outline(text).endsWith('bars chord(chord=G) | chord(chord=D)'));
  });
  it('a long paragraph of prose is no long line', () => {
    assert.deepEqual(problemsOf(`text\n  ${'Let it ring. '.repeat(1000)}\n`), []);
  });
});

describe('reading again', () => {
  it('an edit reads one statement anew and shares the others', () => {
    const cache = new Map();
    const before = readDocument('key G major\n\nprogression quay\n  G | D\n\nform verse\n', cache);
    const after = readDocument('key G major\n\nprogression quay\n  G | Em\n\nform verse\n', cache);
    assert.equal(after.statements[0].tree, before.statements[0].tree);
    assert.notEqual(after.statements[1].tree, before.statements[1].tree);
    assert.equal(after.statements[2].tree, before.statements[2].tree);
    assert.equal(after.statements[2].start, before.statements[2].start + 1);
  });
});
