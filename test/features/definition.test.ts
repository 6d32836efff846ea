/** From a name’s use to where it is given. */
import assert from 'node:assert/strict';
import { definitionLine } from '../support/check-features.ts';

const LESSON = `
  shape lamp
    strings 4 2 1
  grip A x02220
  progression quay
    G | A | D as lamp with ripple
  cell ripple
    p4 i3
  section quay
    progression quay
    shape lamp
  form quay
  show quay
`;
const from = (words: string, marked: string): string => definitionLine(LESSON.replace(words, marked));

describe('a definition', () => {
  it('is found from a section’s lines', () => {
    assert.equal(from('shape lamp\n  form', 'shape la<|>mp\n  form'), 'lamp -> shape lamp');
  });

  it('is found from a chord’s modifiers', () => {
    assert.equal(from('as lamp', 'as <|>lamp'), 'lamp -> shape lamp');
    assert.equal(from('with ripple', 'with ripple<|>'), 'ripple -> cell ripple');
  });

  it('tells a section from the progression of the same name', () => {
    assert.equal(from('progression quay\n    shape', 'progression <|>quay\n    shape'), 'quay -> progression quay');
    assert.equal(from('form quay', 'form <|>quay'), 'quay -> section quay');
    assert.equal(from('show quay', 'show <|>quay'), 'quay -> section quay');
  });

  it('is the name itself where it is given', () => {
    assert.equal(from('cell ripple', 'cell <|>ripple'), 'ripple -> cell ripple');
  });

  it('is the grip that a chord takes', () => {
    const lesson = 'grip A x02220\nprogression p\n  <|>A\nsection s\n  progression p\n';
    assert.equal(definitionLine(lesson), 'A -> grip A x02220');
  });

  it('is not there for what needs no statement, for chords and for keywords', () => {
    assert.equal(definitionLine('section s\n  progression p\n  shape open-<|>chords\n'), '-');
    assert.equal(from('G | A', '<|>G | A'), '-');
    assert.equal(from('strings 4', 'str<|>ings 4'), '-');
  });
});
