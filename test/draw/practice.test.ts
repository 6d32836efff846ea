import assert from 'node:assert/strict';
import { analyze } from '../../server/src/analyze.ts';
import { practiceHtml, practiceText } from '../../server/src/draw/practice.ts';
import { dedented } from '../support/check-features.ts';

const lessonOf = (text: string) => analyze(dedented(text)).lesson;

const LESSON = `
  progression quay
    G | C

  section verse "The quay"
    progression quay
    meter 6/8

  practice
    step "Shapes only, <one> strum a bar" at 60 for 1 minutes
    step "The change" at 60 for 3 minutes in verse bar 2
    step "All of it" from 60 to 72 by 6 in verse
    step "Far up" from 60 to 200 by 10
`;

describe('the plan of practice', () => {
  it('is a line a step, counted in the beats of its section', () => {
    assert.equal(
      practiceText(lessonOf(LESSON), 80),
      dedented(`
        Practice

        1. Shapes only, <one> strum a bar · quarter = 60 · 1 minute
        2. The change · The quay, bar 2 · dotted quarter = 60 · 3 minutes
        3. All of it · The quay · dotted quarter = 60, 66, 72
        4. Far up · quarter = 60, 70, 80, 90 … 200
      `).trimEnd(),
    );
  });

  it('is broken between words where a line is too long, and goes on below its words', () => {
    assert.deepEqual(practiceText(lessonOf(LESSON), 40).split('\n').slice(2, 6), [
      '1. Shapes only, <one> strum a bar',
      '   quarter = 60 · 1 minute',
      '2. The change · The quay, bar 2',
      '   dotted quarter = 60 · 3 minutes',
    ]);
  });

  it('is a numbered list, in which a lesson’s text is text', () => {
    const html = practiceHtml(lessonOf(LESSON));
    assert.match(
      html,
      /^<h2 class="section-title">Practice<\/h2><ol class="practice"><li data-step="0"><b>Shapes only, &lt;one&gt; /,
    );
    assert.match(html, /<span class="small">The quay, bar 2 · dotted quarter = 60 · 3 minutes<\/span>/);
  });

  it('is nothing where there is none', () => {
    assert.equal(practiceText(lessonOf('lesson "A"\n'), 80), '');
    assert.equal(practiceHtml(lessonOf('lesson "A"\n')), '');
  });
});
