/** Findings about changes, melodies and the plucking hand, as a teacher meets them. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { analyze } from '../../server/src/analyze.ts';
import { checkFindings } from '../support/check-findings.ts';
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

describe('a change in a strum', () => {
  const strum = (level: string, tempo: number, cell = 'down up down up down up down up', each = '1/8') => lesson`
    lesson "Two chords"
      ${level}

    tempo ${String(tempo)}

    progression quay
      G as 3-2-0-0-0-3 | D as x-x-0-2-3-2

    cell strum
      each ${each}
      ${cell}

    section verse
      progression quay
      cell strum
  `;

  it('begins before the last up-stroke, which rings on open strings', () => {
    // An eighth at 80 lasts 0.375 s: from the down-stroke on four to the next one there are two of them.
    assert.deepEqual(told(strum('level 2', 80)), [
      'warning change-too-fast: `G` to `D` is too fast for a beginner: the middle finger needs 0.83 s and has 0.75; play at 60, with time to spare, or choose shapes nearer by.',
    ]);
    const [held] = told(strum('level 2', 80, 'down up down up down up down up>'));
    assert.match(held, /needs 0\.83 s and has 0\.38;/);
    const [down] = told(strum('level 2', 80, 'down up down up down up down down'));
    assert.match(down, /needs 0\.83 s and has 0\.38;/);
  });

  it('gives a beginner about a second, and nobody else', () => {
    assert.deepEqual(gravity(strum('level 1', 60)), []);
    assert.deepEqual(told(strum('level 1', 61)), [
      'warning change-too-fast: `G` to `D` is hurried for a beginner: the middle finger has 0.98 s, and a change takes about a second at first; play at 60, with time to spare, or choose shapes nearer by.',
    ]);
    assert.deepEqual(gravity(strum('level 2', 60, 'down down down down', '1/4')), []);
    assert.deepEqual(gravity(strum('level 2', 70, 'down down down down', '1/4')), ['warning change-too-fast']);
    assert.deepEqual(gravity(strum('level 3', 90)), []);
    assert.deepEqual(gravity(strum('level 4', 160)), []);
  });

  it('is never out of reach of a beginner for a tempo alone: a warning, and a tempo that will do', () => {
    for (const tempo of [80, 100, 120, 160]) {
      const [line, ...more] = told(strum('level 1', tempo));
      assert.deepEqual(more, []);
      assert.match(line, /^warning change-too-fast: /);
      const slower = Number(/play at (\d+)/.exec(line)?.[1]);
      assert.deepEqual(gravity(strum('level 1', slower)), [], line);
    }
  });
});

describe('a strum', () => {
  const strum = (tempo: number, cell: string, settings = '') => lesson`
    tempo ${String(tempo)}
    ${settings}

    progression quay
      Em as 0-2-2-0-0-0

    cell strum
      each 1/8
      ${cell}

    section verse
      progression quay
      cell strum
  `;
  const DOWN = 'down down down down down down down down';
  const BOTH = 'down up down up down up down up';

  it('is told where the arm must swing too fast, with a tempo and a way out', () => {
    // Two eighths a beat: 7 a second at 210, 5.5 at 165, 5 at 150.
    assert.deepEqual(told(strum(210, DOWN)), [
      'warning finger-too-fast: The strumming hand strikes down 7 times a second in `strum`, and 6.5 is the most; play at 195 beats a minute, or let every second one go up.',
    ]);
    assert.deepEqual(gravity(strum(195, DOWN)), ['hint finger-too-fast']);
    assert.deepEqual(gravity(strum(150, DOWN)), []);
    assert.deepEqual(gravity(strum(210, BOTH)), []);
  });

  it('counts the short eighth where it swings', () => {
    // At 240 a beat is a quarter of a second: straight eighths come 8 a second, and the short one, a third of a beat, at 12.
    assert.deepEqual(gravity(strum(240, BOTH)), []);
    assert.deepEqual(told(strum(240, BOTH, 'swing 1/8')), [
      'hint finger-too-fast: The strumming hand makes 12 strokes a second in `strum`, and above 10 is hard; play at 200 beats a minute, or leave strokes out.',
    ]);
  });
});

describe('a melody', () => {
  const harbour = readFileSync('samples/harbour-lamps.lesson', 'utf8');

  it('over Harbour lamps is comfortable; a step above over D is warned of', () => {
    assert.deepEqual(gravity(harbour), ['hint open-string-clash']);
    const above = told(harbour.replace('from 5: 0 -1 0', 'from 5: 0 +1 -1')).filter((line) => line.includes('melody'));
    assert.deepEqual(above, [
      'warning melody-extreme: Over bars 2, 3, 5 and 6, notes of `swell` are at the edge of a medium hand, most of all fret 7 of string 1 over `D`: index finger at 3, little finger at 7, 114.1 mm; change the step, or move the chord up the neck.',
      'hint melody-stretch: Over bars 1, 4, 7 and 8, notes of `swell` are a stretch for a medium hand, most of all fret 12 of string 1 over `G`: index finger at 8, little finger at 12, 85.5 mm; warm up first, or play it higher up the neck.',
    ]);
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

  it('that starts elsewhere is told once for all its chords, with the bars', () => {
    checkFindings(`
      shape lamp
        strings 3 2 1
        tones R 3 5

      progression quay
        D | G | D | D

      contour swell on 1
        each 1/4
        from 9 or 5: 0 +1 0 +1

      section verse
        progression quay
        shape lamp
        contour swell
    ;           ^^^^^ contour-start-missing: Over bars 1, 2, 3 and 4, \`swell\` starts on \`5\`, not on \`9\`: the chords do not have it.
    `);
  });

  it('that is cut short is told once, by the chord that has least room', () => {
    const text = lesson`
      shape lamp
        strings 3 2 1
        tones R 3 5

      progression quay
        D | D G | D

      contour swell on 1
        each 1/4
        from 5: 0 +1 0 +1 0

      section verse
        progression quay
        shape lamp
        contour swell
    `;
    assert.deepEqual(told(text), [
      'hint notes-cut: Over bars 1, 2 and 3 there is no room for up to the last 3 notes of `swell`; shorten it, or hold the chords longer.',
    ]);
    const [{ span, related }] = analyze(text).findings;
    assert.equal(text.slice(span.start, span.end), 'swell');
    assert.deepEqual(
      related.map((one) => `${text.slice(one.span.start, one.span.end)}: ${one.message}`),
      [
        '0: From here on it is cut.',
        'D: Bar 1: over this chord.',
        'D: Bar 2: over this chord.',
        'G: Bar 2: over this chord.',
        'D: Bar 3: over this chord.',
      ],
    );
  });

  it('is told by section, where the section calls for it', () => {
    const text = lesson`
      shape lamp
        strings 3 2 1
        tones R 3 5

      progression quay
        D

      contour swell on 1
        each 1/4
        from 5: 0 +1 0 +1 0

      section verse
        progression quay
        shape lamp
        contour swell

      section coda
        progression quay
        shape lamp
        contour swell
    `;
    assert.deepEqual(gravity(text), ['hint notes-cut', 'hint notes-cut']);
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

  it('is not blamed for fingers that it did not name: they take turns, index and middle where it is fast', () => {
    const sung = (finger: string, tempo: number) => lesson`
      tempo ${String(tempo)}
      key E minor

      progression quay
        Em as 0-2-2-0-0-0

      cell ripple
        p6 - - - - - - -

      contour swell on 1
        each 1/16
        ${finger}
        from R: 0 +1 0 +1 0 +1 0 +1

      section verse
        progression quay
        cell ripple
        contour swell
    `;
    // Four sixteenths a beat: 8 notes a second at 120.
    const plucking = (text: string): readonly string[] =>
      gravity(text).filter((line) => /finger-too-fast|pluck/.test(line));
    assert.deepEqual(plucking(sung('with i', 120)), ['warning finger-too-fast']);
    assert.deepEqual(plucking(sung('', 120)), []);
  });

  it('is told of a rate just over the most with a number that says so', () => {
    // 6.54 a second at 98: to a tenth that would read "6.5, and 6.5 is the most".
    assert.match(
      told(picking(98.1, 'p6 p6 i3 m2 p6 p6 i3 m2'))[0],
      /plucks 6\.6 notes a second .* and 6\.5 is the most; play at 9[67] /,
    );
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

  it('is told of at the bar of a tab, and not of the cell that the section calls for', () => {
    const text = lesson`
      key G major

      progression quay
        G | G

      cell ripple
        each 1/8
        p6 i3 m2 i3 p4 i3 m2 i3

      tab landing
        each 1/4
        4 | - 0 - - |
        6 | 3 3 - - |
        pluck p p+p - - |

      section verse
        progression quay
        cell ripple
        tab landing at bar 2
    `;
    const [found, ...others] = analyze(text).findings;
    assert.equal(found.message, 'The thumb is to pluck strings 6 and 4 at once in bar 2; give one to another finger.');
    assert.ok(text.slice(found.span.start, found.span.end).startsWith('-'), 'in the row of the tab');
    assert.deepEqual(others, []);
  });
});
