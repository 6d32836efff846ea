/** Linked editing: the places that are written in together, in square brackets. */
import assert from 'node:assert/strict';
import { linkedAt, NAME_PATTERN } from '../../server/src/features/linked-editing.ts';
import { cursorIn } from '../support/check-features.ts';

function linked(marked: string): string {
  const { analysis, text, offset } = cursorIn(marked);
  const places = linkedAt(analysis, offset);
  if (!places) return '-';
  return [...places].reverse().reduce((all, { start, end }) => {
    return `${all.slice(0, start)}[${all.slice(start, end)}]${all.slice(end)}`;
  }, text);
}

const SONG = (verse: string, form = 'verse'): string =>
  `progression verse\n  G\nsection ${verse}\n  progression verse\nform ${form} verse\ntext\n  {verse.1.chord}\n`;

describe('linked editing', () => {
  it('takes a section’s name with it wherever the lesson speaks of the section, and of nothing else', () => {
    assert.equal(
      linked(SONG('ver<|>se')),
      'progression verse\n  G\nsection [verse]\n  progression verse\nform [verse] [verse]\ntext\n  {[verse].1.chord}\n',
    );
  });

  it('leaves a use alone: another section is wanted there, not another name', () => {
    assert.equal(linked(SONG('verse', 've<|>rse')), '-');
  });

  it('leaves parts alone, which other files may use', () => {
    assert.equal(linked('progression qu<|>ay\n  G\nsection a\n  progression quay\n'), '-');
  });

  it('leaves a name alone that two sections have, or that nothing speaks of', () => {
    assert.equal(linked(`${SONG('ver<|>se')}section verse\n  progression verse\n`), '-');
    assert.equal(linked('section ver<|>se\n'), '-');
    assert.equal(linked('key <|>G major\n'), '-');
  });

  it('ends where what is written is no name any more', () => {
    const name = new RegExp(`^${NAME_PATTERN}$`);
    for (const good of ['verse', 'low-tide2', 'Ö', 'ß-x', '夜']) assert.match(good, name);
    for (const bad of ['two words', '2nd', '', '-a']) assert.doesNotMatch(bad, name);
  });
});
