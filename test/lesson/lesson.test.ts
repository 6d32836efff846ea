import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import {
  describeBars,
  describeProblems,
  describeRule,
  describeSettings,
  lessonOf,
} from '../support/describe-lesson.ts';
import { formatNoteName } from '../../server/src/theory/note.ts';
import { formatFraction } from '../../server/src/util/fraction.ts';

const harbour = readFileSync('samples/harbour-lamps.lesson', 'utf8');

/** A section over one progression, with whatever stands above it. */
const withProgression = (bars: string, above = 'key G major', body = ''): string =>
  `${above}\nprogression a\n  ${bars}\nsection verse\n  progression a\n${body}`;
const barsOf = (text: string): string[] => describeBars(lessonOf(text).sections[0].plan);

describe('a whole lesson', () => {
  it('is understood as its author meant it', () => {
    const lesson = lessonOf(harbour);
    assert.deepEqual(lesson.problems, []);
    assert.equal(lesson.title, 'Harbour lamps');
    assert.equal(lesson.settings.level, 3);
    assert.deepEqual(lesson.focus, ['three-note chords up the neck', 'a ringing open string']);
    assert.equal(describeSettings(lesson), 'G major, 3/4, 84 x 1/4, E2 A2 D3 G3 B3 E4, medium hand');
    assert.equal(describeRule(lesson.shapes[0].rule), 'strings 4 2 1 tones 3 R 5 open 3 frets 1-12 reach 2');
    assert.deepEqual(describeBars(lesson.sections[0].plan).slice(5), [
      '6: D 3/4 [lamp], cell ripple, contour swell',
      '7: G 3/4 at 8 [lamp], cell ripple, contour swell',
      '8: G 3/4 [lamp] held, cell ripple, contour swell',
    ]);
  });

  it('survives an empty text', () => {
    const lesson = lessonOf('');
    assert.deepEqual(lesson.problems, []);
    assert.deepEqual(lesson.sections, []);
    assert.equal(describeSettings(lesson), 'C major, 4/4, 90 x 1/4, E2 A2 D3 G3 B3 E4, medium hand');
  });
});

describe('settings', () => {
  const settings = (text: string): string => describeSettings(lessonOf(text));

  it('count a dotted quarter in 6/8 unless the tempo says otherwise', () => {
    assert.match(settings('meter 6/8\ntempo 60'), /6\/8, 60 x 3\/8/);
    assert.match(settings('meter 6/8\ntempo 1/8 = 180'), /180 x 1\/8/);
  });
  it('forgive how a tuning or a key is written', () => {
    assert.match(settings('tuning dropped D'), /D2 A2 D3 G3 B3 E4/);
    assert.match(settings('tuning D2 A2 D3 G3 A3 D4'), /D2 A2 D3 G3 A3 D4/);
    assert.match(settings('key d major'), /^D major/);
    assert.match(settings('key Gmaj'), /^G major/);
  });
  it('say what is out of range, unknown or said twice', () => {
    assert.deepEqual(describeProblems('tempo 9000'), ['number-out-of-range "9000"']);
    assert.deepEqual(describeProblems('meter 4/5'), ['bad-meter "4/5"']);
    assert.deepEqual(describeProblems('tuning dadgat'), ['unknown-tuning "dadgat"']);
    assert.deepEqual(describeProblems('tuning E2 A2'), ['tuning-string-count "E2 A2"']);
    assert.deepEqual(describeProblems('tuning E2 A2 D3 G3 B3 X4'), ['unknown-note "X4"']);
    assert.deepEqual(describeProblems('key G\n'), ['unknown-key "G"']);
    assert.deepEqual(describeProblems('key G major\nkey D major'), ['said-twice "key"']);
    assert.deepEqual(describeProblems('capo 2 on 7'), ['unknown-string "7"']);
  });
});

describe('a progression', () => {
  it('shares a bar evenly, or by counted strokes', () => {
    assert.deepEqual(barsOf(withProgression('G D | G / / D | % | N.C.')), [
      '1: G 1/2 [open-chords], D 1/2 [open-chords]',
      '2: G 3/4 [open-chords], D 1/4 [open-chords]',
      '3: G 3/4 [open-chords], D 1/4 [open-chords]',
      '4: silent 1',
    ]);
  });
  it('needs neither outer bar lines nor one line for all', () => {
    assert.equal(barsOf(withProgression('| G | D |\n  Em | C')).length, 4);
  });
  it('counts two beats in 6/8', () => {
    const text = withProgression('G / | D Em', 'key G major\nmeter 6/8');
    assert.deepEqual(describeProblems(text), []);
    assert.equal(barsOf(text)[1], '2: D 3/8 [open-chords], Em 3/8 [open-chords]');
    assert.deepEqual(describeProblems(withProgression('G / /', 'meter 6/8')), ['bar-not-full "G / /"']);
  });
  it('takes every modifier, in any order', () => {
    assert.deepEqual(
      barsOf(withProgression('G held at 8 | D as power-chords | A as x02220 pushed | Em over D', 'key G major')),
      [
        '1: G 1 at 8 [open-chords] held',
        '2: D 1 [power-chords]',
        '3: A 1 x-0-2-2-2-0 pushed',
        '4: Em/D 1 [open-chords]',
      ],
    );
  });
  it('repeats a bar in another cell, held, or early', () => {
    const cells = 'cell slow\n  p(bass) 1/1\ncell fast\n  p(bass) i3\n';
    const bars = barsOf(withProgression('G D with slow | % with fast | % held pushed | % / | %', cells));
    assert.deepEqual(bars.slice(0, 3), [
      '1: G 1/2 [open-chords], D 1/2 [open-chords] with slow',
      '2: G 1/2 [open-chords] with fast, D 1/2 [open-chords] with fast',
      '3: G 1/2 [open-chords] with fast held pushed, D 1/2 [open-chords] with fast held pushed',
    ]);
    assert.deepEqual(describeProblems(withProgression('G | % with fast | % with none', cells)), [
      'unknown-name "none"',
    ]);
  });
  it('reads numerals in its own key, the section’s, or the lesson’s', () => {
    assert.equal(barsOf(withProgression('I | vi7 | V7/V | bVII'))[2], '3: A7 1 [open-chords]');
    assert.equal(barsOf(withProgression('I', 'key G major', '  key D major'))[0], '1: D 1 [open-chords]');
    const inA = 'key G major\nprogression a in A minor\n  i | VI\nsection s\n  progression a';
    assert.deepEqual(barsOf(inA), ['1: Am 1 [open-chords]', '2: F 1 [open-chords]']);
  });
  it('keeps every bar but the one that is broken', () => {
    const text = withProgression('G | D at | C ^^ D | Em');
    assert.deepEqual(describeProblems(text), ['unexpected-word "|"', 'unexpected-word "^^"']);
    assert.deepEqual(
      lessonOf(text).sections[0].plan.bars.map((bar) => bar.broken),
      [false, true, true, false],
    );
  });
  it('says what is no chord and what repeats nothing', () => {
    assert.deepEqual(describeProblems(withProgression('% | Gx9 | Am')), [
      'nothing-to-repeat "%"',
      'unknown-chord "Gx9"',
    ]);
  });
});

describe('a section', () => {
  const parts =
    'key G major\nshape lamp\n  strings 4 2 1\n  tones 3 R 5\nshape bell\n  strings 3 2 1\n  tones R 3 5\n' +
    'cell slow\n  p4 i3 m2 i3 p4 i3 m2 i3\nprogression a\n  G | D | Em | C\nprogression b\n  Am | D\n';

  it('gives bars their own parts, and the rest the one without bars', () => {
    const text = `${parts}section s\n  progression a\n  shape lamp\n  shape bell bars 2 to 3\n  cell slow at bar 4`;
    assert.deepEqual(describeProblems(text), []);
    assert.deepEqual(barsOf(text), ['1: G 1 [lamp]', '2: D 1 [bell]', '3: Em 1 [bell]', '4: C 1 [lamp], cell slow']);
  });
  it('lays progressions side by side', () => {
    const text = `${parts}section s\n  progression a\n  progression b at bar 3\n  shape lamp`;
    assert.deepEqual(
      barsOf(text).map((bar) => bar.split(' ')[1]),
      ['G', 'D', 'Am', 'D', 'Em', 'C'],
    );
  });
  it('takes a grip where no shape rules', () => {
    const text = 'grip A x02220\n  fingers x01230\nprogression a\n  A | Am\nsection s\n  progression a';
    assert.deepEqual(barsOf(text), ['1: A 1 x-0-2-2-2-0', '2: Am 1 [open-chords]']);
    assert.deepEqual(barsOf(`shape lamp\n  strings 4 2 1\n  tones 3 R 5\n${text}\n  shape lamp`)[0], '1: A 1 [lamp]');
  });
  it('says which name is unknown, doubled or out of the section’s bars', () => {
    assert.deepEqual(describeProblems('section s\n  progression b'), ['unknown-name "b"']);
    assert.deepEqual(describeProblems(`${parts}section s\n  progression a\n  shape lamp bars 3 to 9`), [
      'bars-outside-section "3 to 9"',
    ]);
    assert.deepEqual(describeProblems('progression a\n  G\nprogression a\n  D'), ['doubled-name "a"']);
    assert.deepEqual(describeProblems('section s\n  meter 3/4'), ['empty-part "s"']);
  });
  it('is played in the order of the form', () => {
    const text = `${parts}section s\n  progression a\nsection t\n  progression b\nform s t s`;
    assert.deepEqual(lessonOf(text).form, [0, 1, 0]);
    assert.deepEqual(describeProblems(`${text} u`), ['unknown-name "u"']);
  });
  it('is not played where it has more notes than any lesson', () => {
    const row = 'G | D | Em | C | G | D | Em | C';
    const rows = Array.from({ length: 40 }, () => `  ${row}`).join('\n');
    const cell = `cell c\n  each 1/64\n  ${'p4 i3 m2 a1 '.repeat(16)}`;
    const text = `progression a\n${rows}\n${cell}\nsection s\n  progression a\n  cell c\nsection t\n  progression a\n  cell c`;
    // 320 bars of 64 notes are 20,480: one section is within the limit, two are not.
    assert.deepEqual(describeProblems(text), ['too-much "t"']);
    assert.equal(lessonOf(text).sections.length, 1);
  });
  it('leaves names alone that another file may bring', () => {
    assert.deepEqual(describeProblems('use "parts.lesson"\nsection s\n  progression far'), []);
  });
});

describe('a shape', () => {
  const shape = (body: string): string => `shape lamp\n  ${body.replaceAll(' / ', '\n  ')}`;

  it('says what it lacks or says twice', () => {
    assert.deepEqual(describeProblems(shape('tones 3 R 5')), ['shape-incomplete "lamp"']);
    assert.deepEqual(describeProblems(shape('strings 4 2 1 / tones 3 R')), ['tones-miscounted "tones 3 R"']);
    assert.deepEqual(describeProblems(shape('strings 4 2 1 / tones 3 R 8')), ['unknown-tone "8"']);
    assert.deepEqual(describeProblems(shape('strings 4 2 7')), ['unknown-string "7"']);
    assert.deepEqual(describeProblems(shape('strings 4 2 1 / open 2')), ['string-said-twice "2"']);
    assert.deepEqual(describeProblems(shape('strings 4 2 1 / tones 3 R 5 / spacing close')), [
      'tones-and-spacing "spacing close"',
    ]);
  });
});

describe('a cell', () => {
  const cell = (body: string): string => {
    const [first] = lessonOf(`cell c\n  ${body.replaceAll(' / ', '\n  ')}`).cells;
    return first.cell.notes
      .map((note) => {
        const plucks = note.plucks.map((one) => `${one.finger}${one.target}`).join('+');
        const what = note.rest ? 'rest' : note.stroke ? note.stroke.kind : plucks || 'on';
        return `${what}${note.accent ? '>' : ''} ${formatFraction(note.start)} ${formatFraction(note.length)}`;
      })
      .join(', ');
  };

  it('counts its notes by `each`, by fractions and in triplets', () => {
    assert.equal(cell('each 1/4 / p6 1/2 i3'), 'p6 0 1/2, i3 1/2 1/4');
    assert.equal(cell('each 1/8 / triplet(p4 i3 m2) p4'), 'p4 0 1/12, i3 1/12 1/12, m2 1/6 1/12, p4 1/4 1/8');
    assert.equal(cell('each 1/8 triplet / p4 i3 m2'), 'p4 0 1/12, i3 1/12 1/12, m2 1/6 1/12');
  });
  it('reads plucks, pinches, strokes, accents, rests and holds', () => {
    assert.equal(cell('p(bass)+a1> - r down(4 to 1)'), 'pbass+a1> 0 1/8, on 1/8 1/8, rest 1/4 1/8, down 3/8 1/8');
  });
  it('says what is no pluck', () => {
    assert.deepEqual(describeProblems('cell c\n  p4 q3 i9'), ['unknown-string "i9"', 'unknown-pluck "q3"']);
    assert.deepEqual(describeProblems('cell c\n  T 3 2 p4 thumb 1/4 6 | 5'), [
      'unknown-pluck "T 3 2"',
      'unknown-pluck "thumb"',
      'unknown-pluck "6"',
      'unknown-pluck "5"',
    ]);
    assert.deepEqual(describeProblems('cell c\n  each 1/8'), ['empty-part "c"']);
  });
});

describe('a contour', () => {
  it('reads its starts, steps and lengths', () => {
    const [{ contour }] = lessonOf(
      'contour c on top\n  each 1/4\n  from 5 or R: 0 +1# -2 3 1/2 - r\n  with a\n  scale E dorian',
    ).contours;
    assert.deepEqual(
      contour.starts.map((tone) => tone.text),
      ['5', 'R'],
    );
    assert.deepEqual(
      contour.notes.map((note) => note.kind),
      ['step', 'step', 'step', 'tone', 'hold', 'rest'],
    );
    assert.equal(formatFraction(contour.notes[3].length!), '1/2');
    assert.equal(contour.voice, 'top');
    assert.equal(contour.finger, 'a');
    assert.equal(contour.scale!.scale.map(formatNoteName).join(' '), 'E F# G A B C# D');
  });
  it('rides the cell where it says no lengths', () => {
    const [{ contour }] = lessonOf('contour c on 1\n  from 5: 0 -1 0').contours;
    assert.ok(contour.notes.every((note) => note.length === undefined));
  });
  it('says what is no step', () => {
    assert.deepEqual(describeProblems('contour c on 1\n  from 5: 0 up 0'), ['unknown-step "up"']);
  });
});

describe('comments that allow a finding', () => {
  it('speak of their own line, or alone of the next', () => {
    const { allowed } = lessonOf('key G major ; allow stretch-wide\n; allow notes-cut, unused-name\nmeter 3/4');
    assert.deepEqual(
      allowed.map(({ code, line }) => `${code} ${line}`),
      ['stretch-wide 0', 'notes-cut 2', 'unused-name 2'],
    );
  });
});
