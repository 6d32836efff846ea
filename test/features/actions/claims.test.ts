/** A claim that is true where the cursor is. */
import assert from 'node:assert/strict';
import { actionLines, afterAction } from '../../support/check-actions.ts';
import { dedented } from '../../support/check-features.ts';

/** Third, root and fifth on strings 4, 2 and 1, and the open third string over all of them. */
const LAMPS = `
  key G major

  shape lamp
    strings 4 2 1
    tones 3 R 5
    open 3
    frets 1 to 12
    reach 2

  progression quay
    G | D | Em

  section verse
    progression quay
    shape lamp
`;

describe('a claim that is true here', () => {
  // The open third string under D: G, the eleventh; the strings sound F#3 G3 D4 A4.
  it('speaks of the chord at the cursor', () =>
    assert.deepEqual(actionLines(LAMPS.replace('D |', '<|>D |'), 'claim'), [
      'Claim what is true here: bar 2 is Dadd11/F#',
      'Claim what is true here: bar 2 open 3 adds 11',
      'Claim what is true here: bar 2 tones 3 11 R 5',
    ]));
  it('speaks of one chord where a bar has several', () =>
    assert.equal(
      actionLines(LAMPS.replace('G | D |', 'G <|>D |'), 'claim')[0],
      'Claim what is true here: bar 1 chord 2 is Dadd11/F#',
    ));
  it('speaks of the section, one sentence of a kind', () =>
    assert.deepEqual(actionLines(LAMPS.replace('section v', 'section <|>v'), 'claim'), [
      'Claim what is true here: open 3 throughout',
      'Claim what is true here: reach at most 2',
      'Claim what is true here: frets 3 to 10',
      'Claim what is true here: no barre',
    ]));
  it('names the section where there are several', () => {
    const two = `${LAMPS}\n  section coda\n    progression quay\n    shape lamp\n`;
    assert.equal(
      actionLines(two.replace('section v', 'section <|>v'), 'claim')[0],
      'Claim what is true here: open 3 throughout in verse',
    );
    assert.equal(
      actionLines(two.replace('D |', '<|>D |'), 'claim')[0],
      'Claim what is true here: verse bar 2 is Dadd11/F#',
    );
  });
  it('stands below the section, or below the claims that are there', () => {
    const text = dedented(LAMPS);
    const first = afterAction(LAMPS.replace('D |', '<|>D |'), 'claim bar 2 is');
    assert.equal(first, `${text}\nclaim bar 2 is Dadd11/F#\n`);
    const more = `${LAMPS}\n  claim no barre ; by the thumb\n\n  text\n    Slowly.\n`;
    assert.equal(
      afterAction(more.replace('D |', '<|>D |'), 'claim bar 2 is'),
      dedented(more).replace('thumb\n', 'thumb\nclaim bar 2 is Dadd11/F#\n'),
    );
  });
  it('is not offered twice', () => {
    const more = `${LAMPS}\n  claim  open 3  throughout\n  claim no barre<|>\n`;
    assert.deepEqual(
      actionLines(more, 'claim').map((line) => line.slice('Claim what is true here: '.length)),
      ['reach at most 2', 'frets 3 to 10', 'common tone G3 throughout', 'scale G major'],
    );
  });
});
