/** Melodies on other strings, where the hand has them. */
import assert from 'node:assert/strict';
import { analyze } from '../../../server/src/analyze.ts';
import { actionLines, afterAction, checkAction } from '../../support/check-actions.ts';
import { dedented } from '../../support/check-features.ts';

/** A minor under a barre at the fifth fret, all of whose strings ring on; the melody is put in the place of `MELODY`. */
const HELD = `
  progression quay
    Am as 577555

  cell ripple
    each 1/8
    p6 i4 m3 a1 m3 i4 m2 i3

MELODY

  section verse
    progression quay
    cell ripple
    CALL
`;
const held = (melody: string, call: string): string => HELD.replace('MELODY', melody).replace('CALL', call);
const codes = (text: string): readonly string[] => analyze(text).findings.map(({ code }) => code);

describe('a melody on another string', () => {
  // String 2 is a fourth below string 1: what lies at 5 there lies at 0 here, and 3 has it nine frets up.
  const tune = (notes: string, on = 1): string =>
    `melody <|>tune on ${on}\n  each 1/4\n  ${notes}\n\nsection s\n  melody tune\n`;
  it('keeps its pitches', () => {
    checkAction(tune('5 7 8 5'), 'melody on 2', 'melody tune on 2\n  10 12 13 10');
    checkAction(tune('10 12 13 10', 2), 'melody on 1', 'melody tune on 1\n  5 7 8 5');
  });
  it('keeps its signs', () =>
    checkAction(tune('5 h7 (8) 7b9'), 'melody on 2', 'melody tune on 2\n  10 h12 (13) 12b14'));
  it('is not offered where the string lacks a note, or sounds another harmonic', () => {
    // E5 lies at fret 12 of string 1, at 17 of string 2, and beyond the neck of string 3.
    assert.deepEqual(actionLines(tune('12 10'), 'melody'), ['Play tune on string 2, at the same pitches']);
    assert.deepEqual(actionLines(tune('<12> 0 0 0', 1), 'melody'), [
      'Play tune on another string -- No other string has all of its notes.',
    ]);
  });
  it('is only offered where that helps, if it is out of reach', () =>
    // An octave above the barre is too far on any string.
    assert.deepEqual(
      actionLines(held('  melody <|>tune on 1\n    each 1/4\n    5 17 5 5', 'melody tune'), 'melody on'),
      ['Play tune on another string -- No other string has all of it in reach.'],
    ));
});

describe('notes out of reach', () => {
  // A4 lies at fret 10 of string 2 and under the barre, at fret 5 of string 1.
  it('go to the strings that have them in reach, and the others stay', () => {
    const melody = (notes: string): string => `  melody <|>tune on 2\n    each 1/4\n    ${notes}`;
    const lesson = held(melody('5 10 8 5'), 'melody tune');
    assert.ok(codes(dedented(lesson).replace('<|>', '')).includes('notes-stretch'));
    checkAction(lesson, 'notes', '5 1: 5 2: 8 5');
    assert.ok(!codes(afterAction(lesson, 'notes')).includes('notes-stretch'));
    checkAction(held(melody('5 1: 5 2: 10 8'), 'melody tune'), 'notes', '5 1: 5 1: 5 2: 8');
  });
  it('stay where their neighbours are joined to them', () =>
    assert.deepEqual(
      actionLines(held('  melody <|>tune on 2\n    each 1/4\n    5 10 p8 5', 'melody tune'), 'notes'),
      [],
    ));
});

describe('a contour out of reach', () => {
  // On string 5 the root lies open, under the barre, or at fret 12, seven above it.
  const contour = '  contour <|>swell on 5\n    each 1/4\n    from R: 0 +1 0';
  const lesson = held(contour, 'contour swell');
  it('goes to a string that has all of it in reach', () => {
    assert.ok(codes(dedented(lesson).replace('<|>', '')).includes('melody-unreachable'));
    assert.equal(actionLines(lesson, 'contour on')[0], 'Play swell on string 1');
    checkAction(lesson, 'contour on 1', 'contour swell on 1');
    assert.ok(!codes(afterAction(lesson, 'contour on 1')).includes('melody-unreachable'));
  });
  it('may start on another tone instead', () => {
    // Over an open C the fifth on string 1 is at fret 3, two steps above it at 7; the third is the open string, with G at 3.
    const high = held('  contour <|>swell on 1\n    each 1/4\n    from 5: 0 +1 0 +2', 'contour swell')
      .replace('Am as 577555', 'C as x32010')
      .replace('p6 i4 m3 a1 m3 i4 m2 i3', 'p5 i3 m2 i4 m2 i3 p5 i3');
    checkAction(high, 'contour from', 'from 5 or 3: 0 +1 0 +2');
    assert.ok(!codes(afterAction(high, 'contour from')).includes('melody-unreachable'));
  });
  it('is found where the section calls for it too', () =>
    assert.equal(
      actionLines(lesson.replace('<|>', '').replace('    contour swell', '    contour swe<|>ll'), 'contour on')[0],
      'Play swell on string 1',
    ));
});
