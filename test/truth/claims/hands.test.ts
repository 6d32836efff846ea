/** Claims about what hands do in time. Limits of the plucking hand: 6.5 notes a second for one finger, 15 % less for the ring finger; hard from 5. */
import assert from 'node:assert/strict';
import { analyze } from '../../../server/src/analyze.ts';
import { ClaimedLesson } from '../../support/claims.ts';

/** Eighths by one finger: at a tempo of T, T / 30 notes a second. */
const picked = (finger: string, level: string): ClaimedLesson =>
  new ClaimedLesson(`
  lesson "Drops"
    level ${level}
  tempo 60
  progression p
    Em as 022000
  cell drop
    each 1/8
    ${finger}
  section s
    progression p
    cell drop
`);

describe('playable', () => {
  it('asks no finger for more than it can do', () => {
    // 6.5 · 30 = 195.
    const drops = picked('i3', '3');
    assert.equal(drops.answer('playable at 195'), 'true');
    assert.equal(
      drops.answer('playable at 196'),
      'false: in bar 1 the index plucks 6.6 notes a second at 196, and 6.5 is the most; it is playable at 195',
    );
    assert.equal(drops.mended('playable at 250'), 'playable at 195');
  });
  it('counts the ring finger slower, and a beginner’s hand too', () => {
    // 6.5 · 0.85 · 30 = 165.75, 5 · 30 = 150.
    assert.equal(picked('a1', '3').mended('playable at 250'), 'playable at 165');
    assert.equal(picked('i3', '1').mended('playable at 250'), 'playable at 150');
  });
  const moved = `
    tempo 60
    progression p
      G as 320003 | Am as x-12-14-14-13-12
    cell drop
      each 1/8
      p(bass) i3 m2 a1 m2 i3 m2 i3
    section s
      progression p
      cell drop
  `;
  it('leaves every change its time', () => {
    const lesson = new ClaimedLesson(moved);
    const text = moved.replace(/^ {4}/gm, '');
    const tightest = analyze(text).score.sections[0].bars[1].chords[0].change!.tightest!;
    // What it needs stays, what it has shrinks as the tempo grows.
    const fastest = Math.floor((60 * tightest.available) / tightest.need);
    assert.equal(lesson.answer(`playable at ${fastest}`), 'true');
    assert.match(
      lesson.answer(`playable at ${fastest + 1}`),
      new RegExp(`^false: from \`G\` to \`Am\` in bar 2 the \\w+ finger needs .* it is playable at ${fastest}$`),
    );
    assert.equal(lesson.finding(`playable at ${fastest + 1}`).points, 'Am as x-12-14-14-13-12');
    assert.equal(lesson.mended(`playable at ${fastest + 40}`), `playable at ${fastest}`);
  });
  it('gives a beginner longer than an advanced player', () => {
    const at = (level: string): number =>
      Number(
        new ClaimedLesson(`lesson "A"\n  level ${level}\n${moved.replace(/^ {4}/gm, '')}`)
          .mended('playable at 400')
          .replace(/\D/g, ''),
      );
    assert.ok(at('1') < at('3') && at('3') < at('5'));
  });
  it('is never so where no hand can hold a shape', () => {
    const wide = new ClaimedLesson('progression p\n  C as 1-x-x-x-x-12\nsection s\n  progression p');
    assert.match(wide.answer('playable at 40'), /^false: no medium hand can hold `C` in bar 1$/);
    assert.equal(wide.mended('playable at 40'), 'no fix');
  });
  it('is meant for the section that it names', () => {
    const two = new ClaimedLesson(`
      progression p
        Em as 022000
      cell slow
        each 1/4
        i3
      cell quick
        each 1/16
        i3
      section verse
        progression p
        cell slow
      section coda
        progression p
        cell quick
    `);
    assert.equal(two.answer('playable at 120 in verse'), 'true');
    // Sixteenths: T / 15 notes a second.
    assert.equal(
      two.answer('playable at 120'),
      'false: in bar 1 of coda the index plucks 8 notes a second at 120, and 6.5 is the most; it is playable at 97',
    );
  });
});

const thumbed = (cell: string, chords = 'G as 320003 | C as x32010'): ClaimedLesson =>
  new ClaimedLesson(`
  progression p
    ${chords}
  cell roll
    each 1/4
    ${cell}
  section s
    progression p
    cell roll
`);

describe('thumb alternates throughout', () => {
  it('holds where the thumb never plucks one string twice running', () => {
    assert.equal(thumbed('p(bass) i3 p4 m2').answer('thumb alternates throughout'), 'true');
    // The lowest and the second lowest string of C are the fifth and the fourth.
    assert.equal(
      thumbed('p(bass) i3 p(alt) m2').why('thumb alternates throughout'),
      'Under each chord the thumb goes 6 5, 5 4.',
    );
  });
  it('may begin on the string that the chord before ended on', () => {
    // G ends on the fifth string, where C begins.
    assert.equal(thumbed('p(bass) i3 p(alt) m2').answer('thumb alternates throughout'), 'true');
  });
  it('says where it does not', () => {
    const same = thumbed('p6 i3 p6 m2', 'G as 320003');
    assert.equal(same.answer('thumb alternates throughout'), 'false: in bar 1 the thumb plucks string 6 twice running');
    // One pluck a bar is no alternation, though no bar has the string twice.
    const single = thumbed('p4 i3 m2 i3');
    assert.equal(
      single.answer('thumb alternates throughout'),
      'false: in bar 2 the thumb plucks string 4 twice running',
    );
    assert.equal(single.finding('thumb alternates throughout').points, 'C as x32010');
    assert.equal(single.mended('thumb alternates throughout'), 'no fix');
    assert.equal(
      thumbed('i3 m2 a1 m2').answer('thumb alternates throughout'),
      'false: the thumb plucks nothing in bar 1',
    );
  });
});

describe('playable, where a melody moves over a shape', () => {
  const over = (contour: string): ClaimedLesson =>
    new ClaimedLesson(`
    tempo 40
    progression p
      A as x-x-x-9-10-9
    contour swell on 1
      each 1/16
      ${contour}
    section s
      progression p
      contour swell
  `);
  it('gives one finger its time from note to note', () => {
    // The little finger has both E and F, at 12 and 13. The 18.5 mm between the fingertip's places, and the lift of 4, are 0.06 + 0.05 ·
    // log2(1 + 22.5 / 8) = 0.156 s for a good player, 1.6 times that for an intermediate one, less half of 0.05 for the string that
    // leads: 0.2253 s. A sixteenth is 15 / T s.
    const steps = over('from 5: 0 +1 - -');
    assert.equal(steps.answer('playable at 66'), 'true');
    assert.equal(
      steps.answer('playable at 75'),
      'false: in bar 1 from fret 12 to 13 the little finger needs 0.23 s and at 75 has 0.20; it is playable at 66',
    );
    assert.equal(steps.mended('playable at 75'), 'playable at 66');
  });
  it('lets another finger lie ready', () => {
    // C# at 9 is in the shape, and E at 12 under the little finger.
    assert.equal(over('from 3: 0 5 0 5').answer('playable at 150'), 'true');
  });
});

describe('playable, where notes are written out', () => {
  // From fret 1 to fret 12 and back on one string, a quarter each: the hand must shift by half the neck.
  const leaps = new ClaimedLesson(`
    tempo 40
    tab leap
      each 1/4
      1 | 1 12 1 12 |
    section s
      tab leap
  `);
  it('is judged note by note at the tempo that is claimed', () => {
    assert.equal(leaps.answer('playable at 40'), 'true');
    const truth = leaps.answer('playable at 300');
    assert.match(truth, /^false: in bar 1 the \w+ finger needs \d\.\d\d s and at 300 has .*; it is playable at \d+$/);
    const fastest = Number(/\d+$/.exec(truth)![0]);
    assert.ok(fastest >= 40 && fastest < 300);
    assert.equal(leaps.mended('playable at 300'), `playable at ${fastest}`);
    assert.match(leaps.answer(`playable at ${fastest + 1}`), /^false/);
  });
  it('tells of the bar that asks for the slowest tempo first', () => {
    // The leap of bar 2 has half the time of that in bar 1.
    const two = new ClaimedLesson(`
      tempo 40
      tab leap
        each 1/8
        1 | 1 - 12 - 1 - 12 - | 1 12 - - - - - - |
      section s
        tab leap
    `);
    assert.match(two.answer('playable at 300'), /^false: in bar 2 the /);
    assert.equal(two.finding('playable at 300').points, '1 12 - - - - - -');
  });
});
