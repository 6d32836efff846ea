/** Facts in prose as an editor shows them: what may stand in the braces, and what stands there for a reader. */
import assert from 'node:assert/strict';
import { checkHover, completionLines, definitionLine } from '../support/check-features.ts';

const MUSIC = `lesson "Two lamps"
      key G major
      grip G 320003
      progression quay
        G | D
      section verse "At the quay"
        progression quay`;
const withText = (prose: string): string => `
      ${MUSIC}
      text
        ${prose}
`;

describe('in the braces of a prose', () => {
  it('sections and the lesson are offered first', () => {
    assert.deepEqual(completionLines(withText('Over {<|>')), ['verse (At the quay)', 'lesson (the lesson as a whole)']);
    assert.deepEqual(completionLines(withText('Over { ver<|>} and'), false), [
      'verse (At the quay)',
      'lesson (the lesson as a whole)',
    ]);
  });
  it('then bars, and then what is told of them, with what it is', () => {
    assert.deepEqual(completionLines(withText('{verse.<|>}')).slice(0, 3), [
      '1 (bar 1: G)',
      '2 (bar 2: D)',
      'bars (2 · how many bars it has)',
    ]);
    assert.deepEqual(completionLines(withText('{verse.1.ch<|>')).slice(0, 2), [
      'chord (G · the symbol)',
      'sounds (G · the name of what sounds)',
    ]);
    assert.deepEqual(completionLines(withText('{verse.1.string6.<|>}')), [
      'interval (root · what it is to the chord)',
      'degree (R · the same as a number)',
      'note (G · the note that sounds)',
    ]);
  });
  it('nothing is offered behind them, before them, or in plain braces', () => {
    for (const prose of ['Over {verse.1.chord} <|>', 'Over <|>', '\\{<|>', '{verse.1.chord.<|>}'])
      assert.deepEqual(completionLines(withText(prose)), [], prose);
  });
});

describe('a hover on a fact', () => {
  it('says what stands there for a reader', () =>
    checkHover(
      withText('The low string is the {verse.1.string6.int<|>erval}.'),
      `
      [{verse.1.string6.interval}]
      root: what it is to the chord.
      `,
    ));
  it('says what is wrong with it', () =>
    checkHover(
      withText('{verse.3.ch<|>ord}'),
      `
      [{verse.3.chord}]
      \`verse\` has 2 bars, so there is no bar 3; name another.
      `,
    ));
  it('is none in words', () => checkHover(withText('The l<|>ow string.'), '-'));
});

describe('the name of a section in a fact', () => {
  it('leads to the section', () =>
    assert.equal(definitionLine(withText('{ver<|>se.1.chord}')), 'verse -> section verse "At the quay"'));
});
