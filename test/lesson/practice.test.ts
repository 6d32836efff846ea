import assert from 'node:assert/strict';
import { describeProblems, lessonOf } from '../support/describe-lesson.ts';

const SECTIONS = `progression quay
  G | C | D | G

section verse
  progression quay
`;

const TWO_SECTIONS = `${SECTIONS}
section coda
  progression quay
`;

/** `title: tempi, minutes, section bars`, for each step of a plan. */
function plan(steps: string, above = SECTIONS): string[] {
  const lesson = lessonOf(`${above}\npractice\n${steps}`);
  return lesson.practice.map(({ title, tempi, minutes, section, first, last }) => {
    const words = [`${title}: ${tempi.join(' ')}`];
    if (minutes !== undefined) words.push(`${minutes} min`);
    if (section !== undefined) words.push(lesson.sections[section].name);
    if (first !== undefined) words.push(`bars ${first}-${last}`);
    return words.join(', ');
  });
}

const problems = (steps: string, above = SECTIONS): string[] => describeProblems(`${above}\npractice\n${steps}`);

describe('a step of practice', () => {
  it('keeps to one tempo, for the minutes that it states', () => {
    assert.deepEqual(plan('  step "Shapes only" at 60 for 3 minutes'), ['Shapes only: 60, 3 min']);
  });

  it('climbs from tempo to tempo', () => {
    assert.deepEqual(plan('  step "Up" from 60 to 84 by 6'), ['Up: 60 66 72 78 84']);
  });

  it('ends at the tempo that is named last, even where the steps do not meet it', () => {
    assert.deepEqual(plan('  step "Up" from 60 to 70 by 4'), ['Up: 60 64 68 70']);
    assert.deepEqual(plan('  step "Up" from 60 to 64 by 10'), ['Up: 60 64']);
  });

  it('is practised at its first tempo where the ladder never climbs', () => {
    assert.deepEqual(plan('  step "Down" from 84 to 60 by 6'), ['Down: 84']);
    assert.deepEqual(problems('  step "Down" from 84 to 60 by 6'), ['ladder-never-climbs "from 84 to 60 by 6"']);
    assert.deepEqual(problems('  step "Still" from 60 to 60 by 6'), ['ladder-never-climbs "from 60 to 60 by 6"']);
  });

  it('speaks of the whole lesson, of a section or of bars of it', () => {
    assert.deepEqual(
      plan(
        `  step "All" at 60
  step "Coda" at 60 in coda
  step "The change" at 60 bars 2 to 3 in verse
  step "A bar" at 60 in coda bar 4`,
        TWO_SECTIONS,
      ),
      ['All: 60', 'Coda: 60, coda', 'The change: 60, verse, bars 2-3', 'A bar: 60, coda, bars 4-4'],
    );
  });

  it('needs no name where there is one section', () => {
    assert.deepEqual(plan('  step "The change" at 60 bars 2 to 3'), ['The change: 60, verse, bars 2-3']);
    assert.deepEqual(problems('  step "The change" at 60 bars 2 to 3', TWO_SECTIONS), [
      'bars-without-section "2 to 3"',
    ]);
  });

  it('says what it cannot mean', () => {
    assert.deepEqual(problems('  step "All" at 60 in bridge'), ['unknown-name "bridge"']);
    assert.deepEqual(problems('  step "All" at 60 bars 3 to 5'), ['bars-outside-section "3 to 5"']);
    assert.deepEqual(problems('  step "All" at 60 bars 3 to 2'), ['bars-outside-section "3 to 2"']);
    assert.deepEqual(problems('  step "All" at 6000'), ['number-out-of-range "6000"']);
    assert.deepEqual(problems('  step "Up" from 60 to 90 by 0'), ['number-out-of-range "0"']);
    assert.deepEqual(problems('  step "Up" from 20 to 400 by 1'), ['too-much "from 20 to 400 by 1"']);
  });

  it('keeps to a hundred tempi, the last of which is the one named last', () => {
    const lesson = lessonOf(`${SECTIONS}\npractice\n  step "Up" from 20 to 400 by 1\n`);
    assert.equal(lesson.practice[0].tempi.length, 100);
    assert.equal(lesson.practice[0].tempi.at(-1), 400);
  });
});
