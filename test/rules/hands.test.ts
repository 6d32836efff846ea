/** Findings about changes, melodies and the plucking hand, as a teacher meets them. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { analyze } from '../../server/src/analyze.ts';
import { lesson } from '../support/syntax-outline.ts';

/** Findings about hands, each on a line. */
const told = (text: string): readonly string[] =>
  analyze(text)
    .findings.filter(({ severity }) => severity !== 'information')
    .map(({ severity, code, message }) => `${severity} ${code}: ${message}`);

const gravity = (text: string): readonly string[] => told(text).map((line) => line.slice(0, line.indexOf(':')));

describe('a change', () => {
  const changing = (level: string, tempo: number) => lesson`
    lesson "Up and down"
      ${level}

    tempo ${String(tempo)}

    progression quay
      C as x-3-2-0-1-0 | Am as x-12-14-14-13-12

    cell ripple
      each 1/8
      p5 i3 m2 i3 p5 i3 m2 i3

    section verse
      progression quay
      cell ripple
  `;

  it('is judged by the player that the level speaks to', () => {
    assert.deepEqual(gravity(changing('level 5', 90)), []);
    assert.deepEqual(gravity(changing('level 3', 90)), ['warning change-too-fast']);
    assert.deepEqual(gravity(changing('level 5', 150)), ['warning change-too-fast']);
    assert.deepEqual(gravity(changing('level 5', 220)), ['error change-too-fast']);
  });

  it('says which finger, how long it needs and has, how far the hand goes, and a tempo that would do', () => {
    const [message] = told(changing('level 3', 90));
    assert.match(
      message,
      /`C` to `Am` .* an intermediate player: the \w+ finger needs 0\.\d\d s and has 0\.67, with \d+ mm to shift; play at \d+, or choose shapes nearer by\.$/,
    );
    const tempo = Number(/play at (\d+)/.exec(message)?.[1]);
    assert.deepEqual(gravity(changing('level 3', tempo)), ['hint change-too-fast']);
    assert.deepEqual(gravity(changing('level 3', Math.floor(tempo * 0.8))), []);
  });
});

describe('a melody', () => {
  const harbour = readFileSync('samples/harbour-lamps.lesson', 'utf8');

  it('over Harbour lamps is comfortable; a step above over D is warned of', () => {
    assert.deepEqual(gravity(harbour), ['hint open-string-clash']);
    const above = told(harbour.replace('from 5: 0 -1 0', 'from 5: 0 +1 -1')).filter((line) => line.includes('melody'));
    assert.ok(
      above.some((line) =>
        /^warning melody-extreme: Over `D`, fret 7 of string 1 .* index finger at 3, little finger at 7, 114\.1 mm/.test(
          line,
        ),
      ),
      above.join('\n'),
    );
  });

  it('is a stretch for most, and warned of for a beginner', () => {
    const stretching = (level: string) => lesson`
      lesson "Above"
        ${level}

      key G major

      progression quay
        G as x-x-9-x-8-10

      cell ripple
        each 1/8
        p4 m2 p4 m2 p4 m2 p4 m2

      contour swell on 1
        each 1/4
        from 5: 0 +1 0 -1

      section verse
        progression quay
        cell ripple
        contour swell
    `;
    assert.deepEqual(gravity(stretching('level 4')), ['hint melody-stretch']);
    assert.deepEqual(gravity(stretching('level 1')), ['warning melody-stretch']);
  });

  it('out of reach is told with its fingers, the hand’s limit and what can be played', () => {
    const far = lesson`
      progression quay
        C as x-3-2-0-1-0

      cell ripple
        each 1/8
        p5 i3 m2 i3 p5 i3 m2 i3

      contour swell on 1
        each 1/4
        from R: 0 +1 0

      section verse
        progression quay
        cell ripple
        contour swell
    `;
    assert.deepEqual(told(far), [
      'warning melody-unreachable: Over `C`, fret 8 of string 1 is out of reach: index finger at fret 1, little finger at 8, 206.4 mm apart, a medium hand reaches 130; from `3` it can be kept.',
    ]);
  });
});

describe('the plucking hand', () => {
  const picking = (tempo: number, cell: string, level = 'level 4') => lesson`
    lesson "Fingers"
      ${level}

    tempo ${String(tempo)}

    progression quay
      Em as 0-2-2-0-0-0

    cell ripple
      each 1/16
      ${cell}

    section verse
      progression quay
      cell ripple
  `;

  it('is told of a finger that is too fast, and at which tempo it is not', () => {
    // Four sixteenths a beat: at 120 the thumb plucks 8 a second where it repeats.
    const cell = 'p6 p6 i3 m2 p6 p6 i3 m2';
    assert.deepEqual(told(picking(120, cell)), [
      'warning finger-too-fast: The thumb plucks 8 notes a second in `ripple`, and 6.5 is the most; play at 97 beats a minute, or share them out.',
    ]);
    assert.deepEqual(gravity(picking(97, cell)), ['hint finger-too-fast']);
    assert.deepEqual(gravity(picking(97, cell, 'level 2')), ['warning finger-too-fast']);
    assert.deepEqual(gravity(picking(75, cell)), []);
  });

  it('may roll over the strings faster than one finger repeats', () => {
    assert.deepEqual(gravity(picking(150, 'p6 i3 m2 a1 p6 i3 m2 a1')), []);
    assert.deepEqual(gravity(picking(180, 'p6 i3 m2 a1 p6 i3 m2 a1')), ['hint finger-too-fast']);
  });

  it('has each finger in one place, and lets the thumb brush', () => {
    assert.deepEqual(told(picking(60, 'p6+p4 i3 m2 i3 p6+p5 i3 m2 i3')), [
      'error pluck-clash: The thumb is to pluck strings 6 and 4 at once in `ripple`; give one to another finger.',
    ]);
    assert.deepEqual(gravity(picking(60, 'p6+p5 i3 m2 i3 p6+p5 i3 m2 i3')), []);
  });

  it('crosses its fingers only where they are close', () => {
    assert.deepEqual(told(picking(60, 'p6 m1 a2 i3 p6 m2 a1 i3')), [
      'hint pluck-clash: The middle and ring finger cross on strings 1 and 2 in `ripple`; swap them, or give them more time.',
    ]);
    assert.deepEqual(gravity(picking(40, 'p6 - m1 - a2 - i3 - p6 - m2 - a1 - i3 -')), []);
  });

  it('is told once of a melody that takes a finger the cell needs', () => {
    const text = lesson`
      key G major

      progression quay
        G as 3-2-0-0-0-3

      cell ripple
        each 1/8
        p6 i3 m2 i3 p4 i3 m2 i3

      contour swell on 1
        each 1/4
        with m
        from R: 0 -1 0 -1

      section verse
        progression quay
        cell ripple
        contour swell
    `;
    assert.deepEqual(gravity(text), ['hint pluck-clash']);
  });
});
