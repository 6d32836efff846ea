/** Selection ranges: what is selected step by step around `<|>`, shown as its text. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { analyze, Session } from '../../server/src/analyze.ts';
import { selectionsAt } from '../../server/src/features/selection-ranges.ts';
import { cursorIn } from '../support/check-features.ts';

/** The steps; of those over several lines their first and last. */
function steps(marked: string): readonly string[] {
  const { analysis, text, offset } = cursorIn(marked);
  return selectionsAt(analysis, offset).map(({ start, end }) => {
    const lines = text.slice(start, end).split('\n');
    return lines.length === 1 ? lines[0] : `${lines[0]} … ${lines.at(-1)}`;
  });
}

describe('selection ranges', () => {
  it('grow from a word to its chord, bar, line, block, definition and the lesson', () => {
    assert.deepEqual(
      steps(`
        key G major
        meter 3/4

        progression quay
          G | D at <|>8 held | Em
          Am | G

          C

        section verse
          progression quay`),
      [
        '8',
        'at 8',
        'D at 8 held',
        'G | D at 8 held | Em',
        'G | D at 8 held | Em …   Am | G',
        'G | D at 8 held | Em …   C',
        'progression quay …   C',
        'key G major …   progression quay',
      ],
    );
  });

  it('grow from a note to its triplet, bar and row', () => {
    assert.deepEqual(
      steps(`
        melody m on 1
          7 triplet(5 <|>h8 p5) 1/4 | 7 -
        `).slice(0, 4),
      ['h8', 'triplet(5 h8 p5) 1/4', '7 triplet(5 h8 p5) 1/4', '7 triplet(5 h8 p5) 1/4 | 7 -'],
    );
    assert.deepEqual(
      steps(`
        tab t
          1 | 0 - 3 | <|>5 - |
          2 | 1 - - | - - |
        `).slice(0, 4),
      ['5', '5 -', '1 | 0 - 3 | 5 - |', '1 | 0 - 3 | 5 - | …   2 | 1 - - | - - |'],
    );
  });

  it('grow from a title to its quotes and what stands behind the keyword', () => {
    assert.deepEqual(steps('lesson "L"\n  focus "a ring", "an <|>open string" ; why').slice(0, 5), [
      'an open string',
      '"an open string"',
      '"a ring", "an open string"',
      'focus "a ring", "an open string"',
      'focus "a ring", "an open string" ; why',
    ]);
  });

  it('grow over settings that stand together', () => {
    assert.deepEqual(steps('lesson "L"\n\nkey G major\nmeter <|>3/4\ntempo 84\n\nsection a\n').slice(0, 3), [
      '3/4',
      'meter 3/4',
      'key G major … tempo 84',
    ]);
  });

  it('grow in prose from a fact or a word to the sentence, the paragraph and all of it', () => {
    const prose = (words: string): readonly string[] => steps(`text\n  ## Why\n\n  ${words}\n\n  Last.\n`);
    assert.deepEqual(prose('It is {verse.2.<|>sounds}. And so\n  it rings.'), [
      'sounds',
      'verse.2.sounds',
      '{verse.2.sounds}',
      'It is {verse.2.sounds}.',
      'It is {verse.2.sounds}. And so',
      'It is {verse.2.sounds}. And so …   it rings.',
      '## Why …   Last.',
      'text …   Last.',
      'text … ',
    ]);
    assert.deepEqual(prose('It is. And so\n  it <|>rings.').slice(0, 3), [
      'rings',
      'And so …   it rings.',
      'It is. And so …   it rings.',
    ]);
  });

  it('grow in a comment from a word to what it says, the comment, and those beside it', () => {
    assert.deepEqual(steps('key G major\n\n; One and <|>two,\n; and three.\n\nmeter 3/4\n').slice(0, 4), [
      'two',
      'One and two,',
      '; One and two,',
      '; One and two, … ; and three.',
    ]);
  });

  it('are the whole text where nothing is, and nothing in an empty one', () => {
    assert.deepEqual(steps('<|>'), ['']);
    assert.deepEqual(steps('; One.\n\n<|>\nkey G major'), ['; One. … key G major']);
  });

  it('hold one another and the cursor, at any place', () => {
    const text = readFileSync('samples/kite-weather.lesson', 'utf8');
    const analysis = analyze(text, new Session());
    for (let offset = 0; offset <= text.length; offset += 2) {
      const found = selectionsAt(analysis, offset);
      assert.deepEqual(found.at(-1), { start: 0, end: text.length });
      found.forEach(({ start, end }, i) => {
        assert.ok(start <= offset && offset <= end, `${offset}`);
        if (i === 0) return;
        const inner = found[i - 1];
        assert.ok(start <= inner.start && inner.end <= end && end - start > inner.end - inner.start, `${offset}`);
      });
    }
  });
});
