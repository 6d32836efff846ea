/** What players write when they mean something else, and how they are told. */
import assert from 'node:assert/strict';
import { findingsOf, gravity } from '../support/check-findings.ts';

describe('slips that players make', () => {
  /** What is said of `line`, put under `head`. */
  const said = (head: string, line: string): readonly string[] =>
    findingsOf(`${head}\n  ${line}\n`)
      .filter(({ severity }) => severity === 'error')
      .map(({ message }) => message);

  it('strokes written with one letter or as arrows', () => {
    for (const [found, right] of [
      ['D', 'down'],
      ['u', 'up'],
      ['\u2193', 'down'],
      ['>m2', 'm2>'],
    ])
      assert.deepEqual(said('cell strum', found), [`\`${found}\` is no pluck or stroke; do you mean \`${right}\`?`]);
  });

  it('a step up without its sign', () => {
    assert.deepEqual(said('contour swell on 1', 'from 5: 0 1 0'), [
      'A bare `1` is no step; write `+1` for a step up, or `R` for the root.',
    ]);
  });

  it('a note shorter than any sign for it, alone or in a triplet', () => {
    for (const line of ['p6 1/129', 'triplet(p6 i3 m2) 1/64'])
      assert.match(said('cell ripple', line).join(), /is no length of a note/, line);
    assert.deepEqual(said('cell ripple', 'p6 1/128'), []);
  });

  it('a range that runs backwards is one slip, not one a chord', () => {
    const text = 'shape lamp\n  strings 4 3 2\n  tones R 3 5\n  frets 12 to 1\nprogression quay\n  G | D\n';
    assert.deepEqual(gravity(`${text}section verse\n  progression quay\n  shape lamp\n`), [
      'error number-out-of-range',
    ]);
  });

  it('a line that belongs inside another statement', () => {
    const messages = (text: string) => findingsOf(text).map(({ message }) => message);
    assert.deepEqual(messages('level 3\n'), ['`level` belongs inside `lesson`; write it there, indented.']);
    assert.deepEqual(messages('section verse\n  progression quay\n  reach 2\nprogression quay\n  G\n'), [
      '`reach` belongs inside `shape`, not under `section`.',
    ]);
  });

  it('a meter and a name of a section without the word before them', () => {
    assert.match(findingsOf('4/4 time\n')[0].message, /do you mean `meter 4\/4`\?/);
    assert.match(findingsOf('chorus\n  progression p\n')[0].message, /do you mean `section chorus`\?/);
    assert.match(findingsOf('forever\n')[0].message, /prose goes under `text`/);
  });

  it('plucks of another spelling, a row at a time', () => {
    for (const [written, right] of [
      ['p6-i3-m2-a1', 'p6 i3 m2 a1'],
      ['P6 I3 M2', 'p6 i3 m2'],
      ['(p6+a1)', 'p6+a1'],
      ['D U x', 'down up mute'],
    ]) {
      const [{ message, fixes }, ...others] = findingsOf(`cell waltz\n  ${written}\n`).filter(
        ({ code }) => code === 'unknown-pluck',
      );
      assert.ok(message.endsWith(`do you mean \`${right}\`?`), message);
      assert.deepEqual([fixes[0].edits[0].text, others.length], [right, 0]);
    }
  });

  it('a fact of the lesson that is asked for without it', () => {
    const [finding] = findingsOf('capo 2\n\ntext\n  At {capo}.\n').filter(({ code }) => code === 'unknown-fact');
    assert.equal(finding.message, '`capo` is told of the lesson; write `lesson.capo`.');
    assert.equal(finding.fixes[0].edits[0].text, 'lesson.capo');
  });

  it('a contour that is cut since the cell plucks its string too seldom', () => {
    const text = `shape lamp
  strings 3 2 1
  tones R 3 5
progression quay
  D
cell ripple
  each 1/8
  p3 i2 m1 i2 p3 i2 m1 i2
contour swell on 1
  from 5: 0 +1 0
section verse
  progression quay
  shape lamp
  cell ripple
  contour swell
`;
    const [cut] = findingsOf(text).filter(({ code }) => code === 'notes-cut');
    assert.match(cut.message, /which takes the cell’s plucks; shorten it, or say `each 1\/4` in it\.$/);
  });

  it('a melody that goes on into the endings is told how an ending has one', () => {
    const text = `progression quay
  G | C
progression home
  D | G
melody landing on 1
  each 1/4
  3 5 3 2 | 0 1 3 0 | 2 1/1 | 3 1/1
section verse
  progression quay
  melody landing
  times 2
  ending 1 home
`;
    const [said] = findingsOf(text).filter(({ code }) => code === 'melody-outlasts-chords');
    assert.match(said.message, /; what belongs to an ending is a melody of the ending’s name\.$/);
  });

  it('a mode, a tuning, a silent bar and a held chord that are nearly right', () => {
    assert.match(findingsOf('key E minr\n')[0].message, /do you mean `E minor`\?/);
    assert.match(findingsOf('tuning DADGBE\n')[0].message, /do you mean `drop-d`\?/);
    assert.match(findingsOf('tuning D A D G A D\n')[0].message, /do you mean `dadgad`\?/);
    assert.doesNotMatch(findingsOf('tuning DADGBD#\n')[0].message, /do you mean/);
    for (const [written, name] of [
      ['standard E', 'standard'],
      ['Eb standard', 'half-step-down'],
      ['D standard', 'whole-step-down'],
      ['dadgad D A D G A D', 'dadgad'],
    ])
      assert.equal(findingsOf(`tuning ${written}\n`)[0].message.split('; ')[1], `do you mean \`${name}\`?`, written);
    assert.match(said('progression quay', 'G | NC').join(), /surely mean `N\.C\.`/);
    assert.match(said('progression quay', 'G hold').join(), /do you mean `held`\?/);
  });

  it('a melody in the names of its notes is told their frets', () => {
    assert.deepEqual(said('melody landing on 2', 'D4 | G bb'), [
      '`D4` is a note, and a melody is written in frets: 3 on string 2.',
      '`G` is a note, and a melody is written in frets: 8 on string 2.',
      '`bb` is a note, and a melody is written in frets: 11 on string 2.',
    ]);
    // D3 lies below the open second string.
    for (const [head, line] of [
      ['melody landing', 'G'],
      ['melody landing on 2', 'D3'],
    ])
      assert.match(said(head, line)[0], /write the note’s fret, with its string on the melody’s first line/);
  });

  it('a part whose first line is broken is not said to be missing as well', () => {
    const text =
      'contour swell\n  on 1\n  from 5: 0\nprogression p\n  G\nsection s\n  progression p\n  contour swell\n';
    assert.deepEqual(gravity(text), ['error line-too-short', 'error unknown-line']);
  });

  it('a key that cannot be read moves no variant', () => {
    const music = 'progression p\n  G as 320003 | D as xx0232\nsection s\n  progression p\n';
    assert.deepEqual(gravity(`key G majr q\n${music}variant high\n  key B major\n`), ['error unknown-key']);
  });

  it('a mark for too few or too many notes is shown as many as there are, and the bar that repeats it', () => {
    const rows = ['1 | 0 - | 3 - |', '2 | - - | 1 - |', '6 | 3 - | 3 - |', 'pluck p+a - | ...'];
    const marks = findingsOf(`tab coda\n  each 1/8\n  ${rows.join('\n  ')}\n`).filter(
      ({ code }) => code === 'stray-mark',
    );
    assert.deepEqual(
      marks.map(({ message }) => message),
      [
        '`p+a` does not fit the 3 notes that begin in bar 2, which repeats it; write one for each from the lowest string up, as in `p+i+a`.',
      ],
    );
  });

  it('plain-text tab without blanks is read as it stands', () => {
    const rows = 'e|--0-3-----|\nB|1---------|\nG|----------|\nD|----------|\nA|3---------|\nE|----------|\n';
    const codes = findingsOf(`tab coda\n${rows}`).map(({ code }) => code);
    assert.deepEqual([...new Set(codes)].sort(), ['line-not-indented', 'misspelt-word', 'unknown-sign']);
  });

  it('a cell of the wrong meter is told the meter, not the length of its bar', () => {
    const text = 'meter 6/8\nprogression quay\n  G as 3-2-0-0-0-3\ncell ripple\n  p(bass) i3 m2 i3\n';
    assert.match(
      findingsOf(`${text}section verse\n  progression quay\n  cell ripple\n`)[0].message,
      /lasts 1\/2 and does not fit bars of 6\/8; add 1\/4/,
    );
  });
});
