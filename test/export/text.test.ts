/** A lesson as plain text: prose and tab in one order. */
import assert from 'node:assert/strict';
import { analyze, Session } from '../../server/src/analyze.ts';
import { lessonText } from '../../server/src/export/text.ts';

const LESSON = `lesson "Two lamps"
grip G 320003
grip D xx0232
progression quay
  G | D
section verse "At the quay"
  progression quay
text
  # The floor
  Over {verse.1.chord} the *sixth* string is the {verse.1.string6.interval}.
show verse bar 1
note
  Ask for the bass alone.
text
  And then:
show verse bar 2 as diagrams
`;

const textOf = (text: string, notes = false): string => lessonText(analyze(text), { width: 60, notes });
/** The first lines of the parts below the head, and of the notes on the signs at the end. */
const partsOf = (text: string): readonly string[] =>
  text
    .trimEnd()
    .split('\n\n')
    .slice(1, -1)
    .map((part) => part.split('\n')[0].trim());

describe('A lesson as plain text', () => {
  it('has prose and tab in the order of the lesson, and what is not shown at its end', () => {
    assert.deepEqual(partsOf(textOf(LESSON)), [
      'The floor',
      'Over G the sixth string is the root.',
      'At the quay · bar 1',
      '1',
      'And then:',
      'At the quay · bar 2',
      'D',
      'No `show` sets these bars between the prose:',
      'At the quay · bar 2',
      '2',
    ]);
  });
  it('draws shapes where shapes are shown', () => {
    assert.ok(
      textOf(LESSON).includes(
        [
          'At the quay · bar 2',
          '',
          'D',
          'x x o',
          '═══════════',
          '│ │ │ │ │ │',
          '│ │ │ 1 │ 2',
          '│ │ │ │ 3 │',
          '│ │ │ │ │ │',
        ].join('\n'),
      ),
    );
  });
  it('keeps the teacher’s notes to the teacher', () => {
    assert.ok(!textOf(LESSON).includes('Ask for the bass'));
    assert.ok(textOf(LESSON, true).includes('For the teacher:\nAsk for the bass alone.'));
  });
  it('has the music behind the first text where nothing is shown', () => {
    const plain = LESSON.replace(/^show .*\n/gm, '');
    assert.deepEqual(
      partsOf(textOf(plain)).filter((part) => !/^\d/.test(part)),
      ['The floor', 'Over G the sixth string is the root.', 'At the quay', 'And then:'],
    );
  });
  it('is the days of a course, with what each lesson states', () => {
    const files: Readonly<Record<string, string>> = {
      'monday.lesson': 'lesson "Two lamps"\n  level 1\n  focus "a steady thumb"\n  minutes 10\n',
    };
    const course =
      'course "A week"\n  starts 2030-01-07\n  day 2 "monday.lesson"\n  day 1 "sunday.lesson"\n\ntext\n  Take it slowly.\n';
    const place = { path: 'course.lesson', files: { read: (path: string) => files[path] ?? null } };
    const lines = lessonText(analyze(course, new Session(), place), { width: 60, notes: false }).split('\n');
    assert.deepEqual(lines, [
      'A week',
      'starts 2030-01-07 · two days · 10 minutes in all · one error',
      '',
      'Day 1 · sunday.lesson',
      'Day 2 · Two lamps · level 1 · 10 minutes · a steady thumb',
      '',
      'Take it slowly.',
      '',
    ]);
  });
  it('is the parts of a file that holds nothing else, by their names', () => {
    assert.equal(
      textOf('shape window\n  strings 3 2 1\n  spacing close\n\ncell walk\n  each 1/4\n  p4 i3\n\ncell run\n  p4 i3\n'),
      'Parts\none shape · two cells · no findings\n\nShapes: window\nCells: walk, run\n',
    );
  });
  it('is what a library asks of its lessons', () => {
    assert.equal(
      textOf('library "Evenings"\n  requires level focus\n'),
      'Evenings\nno findings\n\nEvery lesson states: level, focus\n',
    );
  });
});
