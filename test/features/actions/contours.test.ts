/** Written notes told as movement. */
import assert from 'node:assert/strict';
import { actionLines, afterAction } from '../../support/check-actions.ts';
import { dedented } from '../../support/check-features.ts';

/** The shapes of the harbour's lamps, whose highest note is the fifth on string 1: frets 10 for G, 5 for D and 7 for Em. */
const lesson = (part: string, call: string): string => `
  key G major
  meter 3/4

  shape lamp
    strings 4 2 1
    tones 3 R 5
    open 3
    frets 1 to 12
    reach 2

  progression quay
    G | D | Em

  cell ripple
    each 1/8
    p4 i3 m2 i3 m2 i3

${part}

  section verse
    progression quay
    shape lamp
    cell ripple
    ${call}
`;
const refusal = (part: string, call: string): string => actionLines(lesson(part, call), 'contour of')[0];

describe('a contour in the place of notes', () => {
  // A step below the fifth: C under D over G, G under A over D, A under B over E minor.
  const contour = 'contour quill on 1\n  each 1/4\n  from 5: 0 -1 0\n';
  it('tells a melody', () => {
    const melody = '  melody <|>quill on 1\n    each 1/4\n    10 8 10 | 5 3 5 | 7 5 7';
    const after = afterAction(lesson(melody, 'melody quill'), 'contour of');
    const plain = dedented(lesson(melody, 'melody quill')).replace('<|>', '');
    assert.equal(
      after,
      plain.replace(/melody quill on 1\n.*\n.*\n/, contour).replace('  melody quill', '  contour quill'),
    );
  });
  it('tells a tab of one line, with its own lengths', () => {
    const tab = '  tab <|>quill\n    each 1/4\n    1 | 10 - 8 | 5 - 3 | 7 - 5 |';
    const after = afterAction(lesson(tab, 'tab quill'), 'contour of');
    assert.match(after, /contour quill on 1\n {2}each 1\/2\n {2}from 5: 0 -1 1\/4\n/);
    assert.match(after, / {2}contour quill\n$/);
  });
  it('tells the top voice, and leaves a tab with other notes where it is', () => {
    const tab = '  tab <|>quill\n    each 1/4\n    1 | 10 8 10 | 5 3 5 | 7 5 7 |\n    4 | 9 - - | 4 - - | 5 - - |';
    assert.equal(refusal(tab, 'tab quill'), 'Turn the top voice of tab quill into a contour');
    const after = afterAction(lesson(tab, 'tab quill'), 'contour of');
    assert.match(after, /tab quill\n[^]*contour quill on 1\n[^]*section/);
  });
  it('is not to be had where the steps differ', () =>
    assert.equal(
      refusal('  melody <|>quill on 1\n    each 1/4\n    10 8 10 | 5 3 5 | 7 5 8', 'melody quill'),
      'Turn melody quill into a contour -- No contour tells it: it does not take the same steps over every chord.',
    ));
  it('is not to be had where the rhythm or the tone differs, or there are rests or signs', () => {
    const melody = (notes: string): string => `  melody <|>quill on 1\n    each 1/4\n    ${notes}`;
    assert.match(refusal(melody('10 8 10 | 5 3 - | 7 5 7'), 'melody quill'), /not the same rhythm/);
    assert.match(refusal(melody('10 8 10 | 2 0 2 | 7 5 7'), 'melody quill'), /starts on another tone/);
    assert.match(refusal(melody('10 8 r | 5 3 r | 7 5 r'), 'melody quill'), /it has rests/);
    assert.match(refusal(melody('10 p8 10 | 5 p3 5 | 7 p5 7'), 'melody quill'), /its signs are more than steps/);
  });
  it('is not to be had where the hand would play it elsewhere', () =>
    // An octave above the shapes, where the contour does not go.
    assert.match(
      refusal('  melody <|>quill on 1\n    each 1/4\n    10 8 10 | 17 15 17 | 19 17 19', 'melody quill'),
      /-- No contour tells it: over the shapes of its section the hand would play it elsewhere\./,
    ));
  it('is not to be had without chords', () =>
    assert.equal(
      actionLines('melody <|>quill on 1\n  each 1/4\n  10 8 10 9\n\nsection s\n  melody quill\n', 'contour of')[0],
      'Turn melody quill into a contour -- No contour tells it: its section has no progression for a contour to lie over.',
    ));
});
