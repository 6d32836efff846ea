import assert from 'node:assert/strict';
import { applyEdits } from '../../server/src/util/edits.ts';
import type { Edit } from '../../server/src/util/finding.ts';
import { mappedBack } from '../../server/src/util/mapped-spans.ts';

const BEFORE = 'G | Em at 8 | D';

const replaced = (word: string, text: string): Edit => {
  const start = BEFORE.indexOf(word);
  return { span: { start, end: start + word.length }, text };
};

/** What stands, in the text before the edits, where `word` stands after them. */
function behind(word: string, ...edits: readonly Edit[]): string {
  const after = applyEdits(BEFORE, edits);
  const at = after.indexOf(word);
  const { start, end } = mappedBack(edits)({ start: at, end: at + word.length });
  return BEFORE.slice(start, end);
}

describe('a place in an edited text', () => {
  const up = [replaced('D', 'Eb'), replaced('G', 'Ab'), replaced('Em', 'Fm')];

  it('is found behind the edits, whose order does not matter', () => {
    assert.equal(behind('at 8', ...up), 'at 8');
    assert.equal(behind('| Fm at', ...up), '| Em at');
  });

  it('stands for the words that new words took the place of', () => {
    assert.equal(behind('Ab', ...up), 'G');
    assert.equal(behind('Fm', ...up), 'Em');
    assert.equal(behind('Eb', ...up), 'D');
    assert.equal(behind('Ab | Fm at 8 | Eb', ...up), BEFORE);
  });

  it('inside new words stands for all of the old ones', () => {
    assert.equal(behind('b', ...up), 'G');
    assert.equal(behind('m at', ...up), 'Em at');
  });

  it('beside a deletion keeps what it had', () => {
    const shorter = replaced(' at 8', '');
    assert.equal(behind('Em', shorter), 'Em');
    assert.equal(behind(' | D', shorter), ' | D');
    assert.equal(behind('Em | D', shorter), 'Em at 8 | D');
  });

  it('that is empty stays empty', () => {
    const back = mappedBack([replaced('Em', 'F#m7')]);
    assert.deepEqual(back({ start: 5, end: 5 }), { start: 4, end: 4 });
    assert.deepEqual(back({ start: 8, end: 8 }), { start: 6, end: 6 });
  });
});
