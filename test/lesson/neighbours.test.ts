/** Lessons among other files: what they use, what is said where a file is missing, and what is asked of the outside. */
import assert from 'node:assert/strict';
import { analyze, Session, type Analysis } from '../../server/src/analyze.ts';
import { formatFretList } from '../../server/src/fretboard/frets.ts';
import { pathFrom } from '../../server/src/util/lesson-path.ts';

type Shelf = Readonly<Record<string, string>>;

const among = (files: Shelf, path = 'week/monday.lesson'): Analysis =>
  analyze(files[path], new Session(), { path, files: { read: (other) => files[other] ?? null } });

/** A rub of the open string is the shape's business, and no matter here. */
const told = (analysis: Analysis): readonly string[] =>
  analysis.findings
    .filter(({ code }) => code !== 'open-string-clash')
    .map(({ code, span }) => `${code}: ${analysis.text.slice(span.start, span.end)}`);

const voicings = ({ score }: Analysis): readonly string[] =>
  score.sections.flatMap(({ bars }) =>
    bars.flatMap(({ chords }) => chords.map(({ voicing }) => (voicing ? formatFretList(voicing.frets) : '-'))),
  );

const LAMP = `shape lamp
  strings 4 2 1
  tones 3 R 5
  open 3
  frets 1 to 12
  reach 2
`;
const SECTION = `
section verse
  progression row
  shape lamp
`;

describe('a file that is used', () => {
  const said = (files: Shelf): readonly string[] => among(files).findings.map(({ message }) => message);

  it('is found by its name without the ending', () => {
    const [finding] = among({ 'week/monday.lesson': 'use "parts"\n', 'week/parts.lesson': LAMP }).findings;
    assert.equal(finding.message, 'There is no file `parts`, but there is `parts.lesson`.');
    assert.equal(finding.fixes[0].edits[0].text, '"parts.lesson"');
  });

  it('is told to name the tuning that its frets were written for', () => {
    const monday = 'tuning drop-d\nuse coda from "parts.lesson"\nsection end\n  tab coda\n';
    const coda = 'tab coda\n  each 1/4\n  6 | 3 - - - |\n';
    assert.deepEqual(said({ 'week/monday.lesson': monday, 'week/parts.lesson': coda }), [
      '`parts.lesson` names no tuning, so `tab coda` counts as written for standard, and sounds other notes in drop-d; say the tuning there.',
    ]);
    assert.deepEqual(said({ 'week/monday.lesson': monday, 'week/parts.lesson': `tuning drop-d\n${coda}` }), []);
  });
});

describe('a path', () => {
  const paths: readonly [string, string, string | undefined][] = [
    ['a.lesson', 'b.lesson', 'b.lesson'],
    ['week/a.lesson', 'b.lesson', 'week/b.lesson'],
    ['week/a.lesson', '../parts/b.lesson', 'parts/b.lesson'],
    ['week/a.lesson', './b.lesson', 'week/b.lesson'],
    ['week/a.lesson', '..\\parts\\b.lesson', 'parts/b.lesson'],
    ['a.lesson', '../b.lesson', undefined],
    ['week/a.lesson', '../../b.lesson', undefined],
    ['a.lesson', '/etc/b.lesson', undefined],
    ['a.lesson', 'C:/b.lesson', undefined],
    ['a.lesson', 'https://b.lesson', undefined],
    ['a.lesson', '', undefined],
  ];
  for (const [from, written, to] of paths)
    it(`${written || 'of nothing'} in ${from} leads ${to === undefined ? 'nowhere' : `to ${to}`}`, () =>
      assert.equal(pathFrom(from, written), to));
});

describe('a lesson that uses another file', () => {
  it('plays its parts as if they were its own', () => {
    const own = analyze(`key G major\n\n${LAMP}\nprogression row\n  G | D\n${SECTION}`);
    const used = among({
      'week/monday.lesson': `key G major\n\nuse lamp, row from "../parts.lesson"\n${SECTION}`,
      'parts.lesson': `${LAMP}\nprogression row\n  G | D\n`,
    });
    assert.deepEqual(told(used), []);
    assert.deepEqual(voicings(own), ['x-x-9-0-8-10', 'x-x-4-0-3-5']);
    assert.deepEqual(voicings(used), voicings(own));
  });

  it('gets everything where it names nothing, and keeps its own where both have the name', () => {
    const both = among({
      'week/monday.lesson': `key G major\n\nuse "../parts.lesson"\n\nprogression row\n  D\n${SECTION}`,
      'parts.lesson': `${LAMP}\nprogression row\n  G | D\n`,
    });
    assert.deepEqual(told(both), []);
    assert.deepEqual(voicings(both), ['x-x-4-0-3-5']);
  });

  it('is told of a name that it has itself and calls for as well', () => {
    const both = among({
      'week/monday.lesson': `key G major\n\nuse lamp, row from "../parts.lesson"\n\nprogression row\n  D\n${SECTION}`,
      'parts.lesson': `${LAMP}\nprogression row\n  G | D\n`,
    });
    assert.deepEqual(told(both), ['doubled-name: row']);
  });

  it('finds what a brought part calls for in the file that the part comes from', () => {
    const used = among({
      'week/monday.lesson': 'key G major\n\nuse row from "../parts.lesson"\n\nsection verse\n  progression row\n',
      'parts.lesson': `use "shapes.lesson"\n\nprogression row\n  G as lamp | D as lamp\n`,
      'shapes.lesson': LAMP,
    });
    assert.deepEqual(told(used), []);
    assert.deepEqual(voicings(used), ['x-x-9-0-8-10', 'x-x-4-0-3-5']);
  });

  it('has what is wrong with a brought part said at the word that brings it', () => {
    const used = among({
      'week/monday.lesson': `key G major\n\nuse lamp from "../parts.lesson"\n\nprogression row\n  G\n${SECTION}`,
      'parts.lesson': LAMP.replace('frets 1 to 12', 'frets 1 to 2'),
    });
    assert.equal(used.findings[0].code, 'no-voicing');
    for (const { span, related } of used.findings)
      for (const one of [span, ...related.map((each) => each.span)]) assert.ok(one.end <= used.text.length);
  });

  it('says once that a name which it brings is played nowhere', () => {
    const used = among({
      'week/monday.lesson': `use lamp, ripple from "../parts.lesson"\n\nprogression row\n  G\n${SECTION}`,
      'parts.lesson': `${LAMP}\ncell ripple\n  each 1/4\n  p4 i2\n`,
    });
    assert.deepEqual(told(used), ['unused-name: ripple']);
  });

  it('follows the file as it changes, with one session', () => {
    const session = new Session();
    const text = `key G major\n\nuse "parts.lesson"\n\nprogression row\n  G\n${SECTION}`;
    const played = (parts: string): readonly string[] =>
      voicings(analyze(text, session, { path: 'a.lesson', files: { read: () => parts } }));
    const high = LAMP.replace('strings 4 2 1', 'strings 3 2 1').replace('  open 3\n', '');
    const [first, second, third] = [played(LAMP), played(high), played(LAMP)];
    assert.notDeepEqual(first, second);
    assert.deepEqual(third, first);
  });
});

describe('a file that nobody has fetched yet', () => {
  const text = `use lamp from "parts.lesson"\n\nprogression row\n  G\n${SECTION}`;

  it('is asked for, and nothing is complained of meanwhile', () => {
    const waiting = analyze(text, new Session(), { path: 'a.lesson', files: { read: () => undefined } });
    assert.deepEqual(told(waiting), []);
    assert.deepEqual([...waiting.files.wanted].sort(), ['library.lesson', 'parts.lesson']);
  });

  it('lets nobody judge the music that is missing its parts, be they one file further', () => {
    const lesson =
      'lesson "Row"\n  level 1\n\nuse "parts.lesson"\n\nprogression row\n  F\n\nsection verse\n  progression row\n\nclaim no barre\n\ntext\n  {verse.1.melody}\n';
    const read = (files: Shelf): readonly string[] =>
      told(analyze(lesson, new Session(), { path: 'a.lesson', files: { read: (path) => files[path] } }));
    assert.deepEqual(read({}), []);
    assert.deepEqual(read({ 'parts.lesson': 'use "grips.lesson"\n' }), []);
    assert.deepEqual(read({ 'parts.lesson': 'grip F 133211\n' }), [
      'hard-for-beginners: F',
      'false-claim: no barre',
      'unknown-fact: melody',
    ]);
  });

  it('is not spoken of in a text that stands alone', () => {
    const alone = analyze(text);
    assert.deepEqual(told(alone), []);
    assert.deepEqual([...alone.files.asked], []);
  });
});

describe('a course', () => {
  const day = (level: number, more = ''): string => `lesson "A day"\n  level ${level}\n  minutes 10\n${more}`;

  it('is checked against the heads of its lessons', () => {
    const course = among(
      {
        'course.lesson':
          'course "A week"\n  day 1 "a.lesson"\n  day 2 "b.lesson"\n  day 4 "c.lesson"\n  day 4 "d.lesson"\n',
        'a.lesson': day(2, '  needs "c.lesson"\n'),
        'b.lesson': day(1),
        'c.lesson': day(2),
      },
      'course.lesson',
    );
    assert.deepEqual(told(course), [
      'course-before-needs: "a.lesson"',
      'course-level-falls: "b.lesson"',
      'course-day-missing: 4',
      'course-day-doubled: 4',
      'file-missing: "d.lesson"',
    ]);
  });

  for (const [date, right] of [
    ['2032-02-29', true],
    ['2031-02-29', false],
    ['2000-02-29', true],
    ['2100-02-29', false],
    ['2030-13-01', false],
    ['2030-04-31', false],
    ['2030-12-31', true],
  ] as const)
    it(`${right ? 'may start' : 'cannot start'} on ${date}`, () => {
      const course = among({ 'c.lesson': `course "A day"\n  starts ${date}\n` }, 'c.lesson');
      assert.equal(course.lesson.course?.starts, right ? date : undefined);
      assert.deepEqual(told(course), right ? [] : [`bad-date: ${date}`]);
    });
});

describe('a library', () => {
  it('asks of each lesson below it what it requires, and of files of parts nothing', () => {
    const files = {
      'library.lesson': 'library "Lamps"\n  requires level focus\n',
      'week/monday.lesson': 'lesson "Two lamps"\n  level 2\n',
      'parts.lesson': LAMP,
    };
    assert.deepEqual(told(among(files)), ['library-requirement: "Two lamps"']);
    assert.deepEqual(told(among(files, 'parts.lesson')), []);
    assert.deepEqual(told(among(files, 'library.lesson')), []);
  });
});
