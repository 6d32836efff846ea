/** Variants as a teacher means them: what is played, what holds, and where the words about it stand. */
import assert from 'node:assert/strict';
import type { Lesson } from '../../server/src/lesson/lesson.ts';
import { analyze, type Analysis } from '../../server/src/analyze.ts';
import { formatFretList } from '../../server/src/fretboard/frets.ts';
import { describeBars, describeProblems, describeSettings } from '../support/describe-lesson.ts';
import { checkFindings } from '../support/check-findings.ts';

const LESSON = `lesson "Two lamps"
  level 3
  minutes 20

key G major
tempo 84

shape lamp
  strings 4 2 1
  tones 3 R 5
  open 3

shape bell
  strings 3 2 1
  spacing close

progression quay
  G | C

progression pier
  Em | D

cell ripple
  each 1/8
  p(bass) i3 m2 i3 m2 i3 m2 i3

cell drops
  p(bass) - m2 -

section verse
  progression quay
  shape lamp
  cell ripple
`;

/** The first variant of the lesson with these lines in it. */
function variant(body: string, lesson = LESSON): Analysis {
  const analysis = analyze(`${lesson}\nvariant gentle "Gentler"\n${body}\n`);
  return analysis.variants[0];
}

const bars = (body: string, lesson = LESSON): string[] => describeBars(variant(body, lesson).lesson.sections[0].plan);

/** Symbol and frets of every chord. */
const shapes = ({ score }: Analysis): string[] =>
  score.sections.flatMap((section) =>
    section.bars.flatMap((bar) =>
      bar.chords.map(({ chord, voicing }) => `${chord?.symbol} ${voicing ? formatFretList(voicing.frets) : 'none'}`),
    ),
  );

describe('a variant', () => {
  it('is the lesson but for what it sets', () => {
    assert.equal(
      describeSettings(variant('  tempo 60').lesson),
      'G major, 4/4, 60 x 1/4, E2 A2 D3 G3 B3 E4, medium hand',
    );
    assert.equal(
      describeSettings(variant('  hand small\n  tuning drop-d').lesson),
      'G major, 4/4, 84 x 1/4, D2 A2 D3 G3 B3 E4, small hand',
    );
    assert.equal(variant('  level 1').lesson.settings.level, 1);
    assert.equal(variant('  level 1', LESSON.replace(/^lesson.*\n.*\n.*\n/, '')).lesson.settings.level, 1);
    assert.equal(variant('  tempo 60').lesson.settings.level, 3);
  });

  it('bears the title of both', () => {
    assert.equal(variant('  tempo 60').lesson.title, 'Two lamps: Gentler');
  });

  it('takes a capo off', () => {
    const lesson = variant('  no capo', LESSON.replace('tempo 84', 'tempo 84\ncapo 2')).lesson;
    assert.doesNotMatch(describeSettings(lesson), /capo/);
  });

  it('keeps the frets behind a capo and sounds higher', () => {
    const plain = analyze(LESSON);
    const behindCapo = variant('  capo 3');
    assert.deepEqual(shapes(behindCapo), shapes(plain));
    // Three frets are a minor third: the G shape sounds Bb.
    assert.equal(behindCapo.score.sections[0].bars[0].chords[0].voicing?.sounding[0], 'Bb');
  });

  it('plays other parts wherever the lesson calls for one', () => {
    assert.deepEqual(bars('  shape bell instead of lamp'), [
      '1: G 1 [bell], cell ripple',
      '2: C 1 [bell], cell ripple',
    ]);
    assert.deepEqual(bars('  progression pier instead of quay\n  cell drops instead of ripple'), [
      '1: Em 1 [lamp], cell drops',
      '2: D 1 [lamp], cell drops',
    ]);
    assert.deepEqual(bars('  shape power-chords instead of lamp'), [
      '1: G 1 [power-chords], cell ripple',
      '2: C 1 [power-chords], cell ripple',
    ]);
  });

  it('replaces what a chord calls for behind `as` and `with` too', () => {
    const lesson = LESSON.replace('  G | C', '  G as lamp | C with ripple');
    assert.deepEqual(bars('  shape bell instead of lamp\n  cell drops instead of ripple', lesson), [
      '1: G 1 [bell], cell drops',
      '2: C 1 [bell] with drops, cell drops',
    ]);
  });

  it('can let two parts change places', () => {
    const lesson = `${LESSON}\nsection coda\n  progression pier\n`;
    const { sections } = variant(
      '  progression pier instead of quay\n  progression quay instead of pier',
      lesson,
    ).lesson;
    const symbols = sections.map(({ plan }) => plan.bars.map((bar) => bar.chords[0].chord?.symbol).join(' '));
    assert.deepEqual(symbols, ['Em D', 'G C']);
  });

  it('may be one of several, each of which stands for itself', () => {
    const { variants } = analyze(`${LESSON}\nvariant slow\n  tempo 60\n\nvariant high\n  capo 5\n`);
    assert.deepEqual(
      variants.map(({ definition, lesson }) => `${definition.name} ${lesson.settings.tempo.perMinute}`),
      ['slow 60', 'high 84'],
    );
  });

  it('leaves the lesson as it is', () => {
    const alone = analyze(LESSON);
    const beside = analyze(`${LESSON}\nvariant gentle\n  key A major\n  shape bell instead of lamp\n`);
    assert.deepEqual(shapes(beside), shapes(alone));
    assert.equal(describeSettings(beside.lesson), describeSettings(alone.lesson));
  });
});

describe('a variant in another key', () => {
  it('moves symbols by the interval of the tonics, numerals by themselves', () => {
    // From G to A is a whole tone.
    const lesson = LESSON.replace('  G | C', '  G | C/E | IV | Em7 at 7');
    const symbols = variant('  key A major', lesson).lesson.sections[0].plan.bars.map(
      (bar) => bar.chords[0].chord?.symbol,
    );
    assert.deepEqual(symbols, ['A', 'D/F#', 'D', 'F#m7']);
  });

  it('moves grips', () => {
    const lesson = `${LESSON}\ngrip C x-3-5-5-5-3\n`.replace('  shape lamp\n', '');
    assert.deepEqual(shapes(variant('  key D major', lesson))[1], 'G x-10-12-12-12-10');
  });

  it('moves what the lesson claims, and not what it claims itself', () => {
    const lesson = `${LESSON}\nclaim verse bar 2 is C\n`;
    const { claims } = variant('  key A major\n  claim verse bar 1 is A', lesson).lesson;
    assert.deepEqual(
      claims.map(({ says }) => (says.kind === 'is' ? says.claimed.symbol : says.kind)),
      ['D', 'A'],
    );
  });

  it('is heard in that key even where the lesson names none', () => {
    const lesson = LESSON.replace('key G major\n', '');
    // Without a key a lesson is in C, so that D is a whole tone above.
    assert.deepEqual(
      variant('  key D major', lesson).lesson.sections[0].plan.bars.map((bar) => bar.chords[0].chord?.symbol),
      ['A', 'D'],
    );
  });

  it('says what cannot go along', () => {
    const lesson = LESSON.replace('key G major', 'key G major\nfrets 12').replace('  G | C', '  G as 3-2-0-0-0-12 | C');
    const codes = (text: string): string[] =>
      analyze(text).findings.flatMap(({ code, message }) => (code === 'left-in-old-key' ? message : []));
    const [message] = codes(`${lesson}\nvariant high\n  key A major\n`);
    assert.match(message, /^In variant `high`: .* stays as it is: /);
    assert.deepEqual(codes(`${lesson}\nvariant high\n  capo 2\n`), []);
  });

  it('takes the parts of other files along', () => {
    const text =
      'key G major\n\nuse row, coda from "parts.lesson"\n\nsection verse\n  progression row\n\nsection end\n  tab coda\n\nvariant high\n  key A major\n';
    const parts = 'progression row\n  G | C\n\ntab coda\n  each 1/4\n  1 | 3 - 5 - |\n';
    const files = { read: (path: string) => (path === 'parts.lesson' ? parts : null) };
    const { lesson, variants, findings } = analyze(text, undefined, { path: 'a.lesson', files });
    const chords = (of: Lesson): unknown => of.sections[0].plan.bars.map((bar) => bar.chords[0].chord?.symbol);
    const frets = (of: Lesson): unknown => of.sections[1].plan.bars[0].tab?.notes.map(({ fret }) => fret);
    assert.deepEqual(
      [chords(lesson), frets(lesson)],
      [
        ['G', 'C'],
        [3, 5],
      ],
    );
    assert.deepEqual(
      [chords(variants[0].lesson), frets(variants[0].lesson)],
      [
        ['A', 'D'],
        [5, 7],
      ],
    );
    assert.deepEqual(findings, []);
  });

  it('points to the words of the text as it is', () => {
    const text = `${LESSON.replace('  G | C', '  G as 3-x-0-0-0-3 | C')}\nvariant high\n  key Bb major\n`;
    const analysis = analyze(text);
    const [section] = analysis.variants[0].lesson.sections;
    const words = section.places.flatMap((bar) => bar.chords.map(({ span }) => text.slice(span.start, span.end)));
    assert.deepEqual(words, ['G as 3-x-0-0-0-3', 'C']);
  });
});

describe('claims and practice of a variant', () => {
  const claimsOf = (own: string, lesson: string): string[] => {
    const text = `${lesson}\nvariant gentle\n  tempo 60\n${own}\n`;
    return analyze(text).variants[0].lesson.claims.map(({ span }) => text.slice(span.start, span.end));
  };

  it('are those of the lesson where it has none of its own', () => {
    assert.deepEqual(claimsOf('', `${LESSON}\nclaim open 3 throughout\n`), ['open 3 throughout']);
    const lesson = `${LESSON}\npractice\n  step "Shapes" at 60 for 10 minutes\n`;
    assert.equal(variant('  tempo 60', lesson).lesson.practice[0].title, 'Shapes');
  });

  it('go before those of the lesson about the same thing', () => {
    const lesson = `${LESSON}\nclaim reach at most 2\nclaim verse bar 1 is G\nclaim verse bar 2 is C\n`;
    assert.deepEqual(claimsOf('  claim reach at most 3\n  claim bar 2 is C/E', lesson), [
      'verse bar 1 is G',
      'reach at most 3',
      'bar 2 is C/E',
    ]);
  });

  it('are held against the minutes and the hands only where the steps are its own', () => {
    const lesson = LESSON.replace('tempo 84', 'tempo 60');
    const codes = (text: string): string[] =>
      analyze(text).findings.flatMap(({ code, message }) =>
        code.startsWith('practice-') ? `${code}: ${message}` : [],
      );
    const practice = '\npractice\n  step "Shapes" at 60 for 10 minutes\n';
    assert.deepEqual(codes(`${lesson}${practice}\nvariant gentle\n  tempo 30\n  level 1\n`), []);
    const [too] = codes(`${lesson}${practice}\nvariant gentle\n  tempo 30\n  step "Slowly" at 30 for 25 minutes\n`);
    assert.equal(
      too,
      'practice-longer-than-lesson: The steps take 25 minutes and the lesson 20; shorten a step, or give the lesson more.',
    );
  });

  it('make a plan of practice of its own', () => {
    const lesson = `${LESSON}\npractice\n  step "Shapes" at 60 for 10 minutes\n`;
    const { practice } = variant('  tempo 60\n  step "Slowly" from 40 to 60 by 10', lesson).lesson;
    assert.deepEqual(
      practice.map(({ title, tempi }) => `${title} ${tempi.join(' ')}`),
      ['Slowly 40 50 60'],
    );
  });
});

describe('what is found in a variant', () => {
  it('is said at its place with the variant’s name, and not again where the lesson has it too', () => {
    checkFindings(`
      progression quay
        D as x-x-4-0-3-5
    ;   ^^^^^^^^^^^^^^^^ open-string-clash: In \`D\` open string 3 (G3) rubs against F#3 on string 4; keep it if you like it, or leave one of them out.

      section verse
        progression quay

      variant gentle
        tempo 60
    `);
    checkFindings(`
      shape lamp
        strings 4 2 1
        tones 3 R 5
        open 3
        frets 1 to 12

      progression quay
        G | Am
    ;       ^^ no-voicing: In variant \`high\`: \`lamp\` has no voicing of \`Bm\`: \`frets 1 to 12\` rules out the only one that the other lines allow; the nearest is x-x-12-0-12-14.

      key G major

      section verse
        progression quay
        shape lamp

      variant high
        key A major
    `);
  });

  it('names all variants that have it', () => {
    const { findings } = analyze(`${LESSON}\nvariant one\n  tempo 250\n\nvariant two\n  tempo 250\n  hand medium\n`);
    const changes = findings.filter(({ code }) => code === 'change-too-fast');
    assert.ok(changes.length > 0);
    for (const { message, related } of changes) {
      assert.match(message, /^In variants `one` and `two`: `/);
      assert.deepEqual(
        related.slice(-2).map((place) => place.message),
        ['Variant `one` is written here.', 'Variant `two` is written here.'],
      );
    }
  });

  it('says of a claim that moved along what may take its place', () => {
    const { findings } = analyze(
      'key G major\ntempo 40\nprogression p\n  C as x-3-2-0-1-0\nsection s\n  progression p\nclaim frets 0 to 3\nvariant up\n  key A major\n',
    );
    const [claim] = findings.filter(({ code }) => code === 'false-claim');
    assert.equal(
      claim.related.at(-1)?.message,
      'Variant `up` is written here, in A major, and the claim moves along; a claim of its own about the same thing takes this one’s place.',
    );
  });

  it('points to the variant', () => {
    const text = `${LESSON}\nvariant high\n  tempo 250\n`;
    const found = analyze(text).findings.find(({ message }) => message.startsWith('In variant `high`: '))!;
    const { span } = found.related.at(-1)!;
    assert.equal(text.slice(span.start, span.end), 'high');
    assert.deepEqual(found.fixes, []);
  });

  it('is said without more words where it stands in the variant itself', () => {
    checkFindings(`
      progression quay
        G | C

      section verse
        progression quay

      variant high
        capo 99
    ;        ^^ number-out-of-range: The capo’s fret cannot be \`99\`; it lies between 1 and 19.
    `);
  });

  it('is silent where a comment allows it', () => {
    const text = `${LESSON.replace('  G | C', '  G | C ; allow change-too-fast')}\nvariant high\n  tempo 250\n`;
    assert.ok(!analyze(text).findings.some(({ code }) => code === 'change-too-fast'));
  });

  it('does not call a part unused that only a variant plays, nor one that a variant does not play', () => {
    const codes = (text: string): string[] =>
      analyze(text).findings.flatMap(({ code, message }) => (code === 'unused-name' ? message : []));
    assert.equal(codes(LESSON).length, 3);
    assert.deepEqual(
      codes(
        `${LESSON}\nvariant other\n  shape bell instead of lamp\n  cell drops instead of ripple\n  progression pier instead of quay\n`,
      ),
      [],
    );
    const written =
      'melody tune on 1\n  3\n\nmelody other on 1\n  5\n\ntab coda\n  1 | 3 |\n\nsection end\n  melody tune\n';
    assert.equal(codes(written).length, 2);
    assert.deepEqual(codes(`${written}  tab coda at bar 2\n\nvariant up\n  melody other instead of tune\n`), []);
  });
});

describe('a variant that cannot be meant so', () => {
  const problems = (body: string): string[] => describeProblems(`${LESSON}\nvariant gentle\n  tempo 60\n${body}\n`);

  it('says which part is unknown, of another kind, not played, or replaced twice', () => {
    assert.deepEqual(problems('  shape tower instead of lamp'), ['unknown-name "tower"']);
    assert.deepEqual(problems('  shape bell instead of lantern'), ['unknown-name "lantern"']);
    assert.deepEqual(problems('  shape ripple instead of lamp'), ['part-of-another-kind "ripple"']);
    assert.deepEqual(problems('  shape lamp instead of bell'), ['nothing-to-replace "bell"']);
    assert.deepEqual(problems('  shape lamp instead of lamp'), ['nothing-to-replace "lamp"']);
    assert.deepEqual(problems('  shape bell instead of lamp\n  shape power-chords instead of lamp'), [
      'said-twice "shape power-chords instead of lamp"',
    ]);
  });

  it('has another’s name', () => {
    const text = `${LESSON}\nvariant gentle\n  tempo 60\n\nvariant gentle\n  tempo 70\n`;
    assert.deepEqual(describeProblems(text), ['doubled-name "gentle"']);
    assert.deepEqual(
      analyze(text).variants.map(({ lesson }) => lesson.settings.tempo.perMinute),
      [60],
    );
  });

  it('is left out beyond a dozen', () => {
    const many = Array.from({ length: 14 }, (_, i) => `\nvariant v${i}\n  tempo ${60 + i}\n`).join('');
    assert.equal(analyze(LESSON + many).variants.length, 12);
    assert.deepEqual(describeProblems(LESSON + many), ['too-much "v12"']);
  });
});
