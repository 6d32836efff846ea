/** Laying out while writing: `<|>` is the cursor, `<[>` and `<]>` are the ends of what is chosen. */
import assert from 'node:assert/strict';
import { formatText } from '../../server/src/syntax/format.ts';
import { formatRange, formatTyped } from '../../server/src/syntax/format-range.ts';
import { applyEdits } from '../../server/src/util/edits.ts';
import { Dice } from '../support/dice.ts';
import { losses } from '../support/format-losses.ts';
import { generateLesson } from '../support/generate-lesson.ts';
import { mutate, roughen } from '../support/mutate.ts';

function rangeBecomes(marked: string, after: string): void {
  const start = marked.indexOf('<[>');
  const end = marked.indexOf('<]>') - '<[>'.length;
  const text = marked.replace('<[>', '').replace('<]>', '');
  assert.equal(applyEdits(text, formatRange(text, { start, end })), after);
}

/** The cursor stands behind what was typed: a bar line, or else a line end and what the editor put there. */
function typedBecomes(marked: string, after: string): void {
  const offset = marked.indexOf('<|>');
  const text = marked.replace('<|>', '');
  const typed = text[offset - 1] === '|' ? '|' : '\n';
  assert.equal(applyEdits(text, formatTyped(text, offset, typed)), after.replace('<|>', ''));
}

const typedStays = (marked: string): void => typedBecomes(marked, marked);

describe('formatting a range', () => {
  it('changes the lines that it touches, and no others', () => {
    rangeBecomes(
      'key  G major\nmeter  <[>3/4\ntempo<]>  84\nhand  small\n',
      'key  G major\nmeter 3/4\ntempo 84\nhand  small\n',
    );
  });
  it('does not touch the line at whose start it ends', () => {
    rangeBecomes('<[>key  G major\n<]>meter  3/4\n', 'key G major\nmeter  3/4\n');
    rangeBecomes('key  G major\n<[><]>meter  3/4\n', 'key  G major\nmeter 3/4\n');
    rangeBecomes('key  G major\r\n<[>meter  3/4\r\n<]>tempo  84\r\n', 'key  G major\r\nmeter 3/4\r\ntempo  84\r\n');
  });
  it('puts a line in the columns of its neighbours, which stay where they are', () => {
    rangeBecomes(
      'progression a\n  Am7 | D at 5 | G\n<[>  G|D|Em<]>\n  C|D|Em\n',
      'progression a\n  Am7 | D at 5 | G\n  G   | D      | Em\n  C|D|Em\n',
    );
  });
  it('settles blank lines and the end of the text where it reaches them', () => {
    rangeBecomes('cell a\n  p6 i3\n<[>cell b\n  p5 i3\n\n\n<]>\n\n', 'cell a\n  p6 i3\n\ncell b\n  p5 i3\n\n\n');
    rangeBecomes('cell  a\n  p6  <[>i3<]>', 'cell  a\n  p6 i3\n');
  });
  it('over the whole text is formatting the text', () => {
    for (let seed = 1; seed <= 20; seed++) {
      const text = roughen(generateLesson(seed), seed);
      assert.equal(applyEdits(text, formatRange(text, { start: 0, end: text.length })), formatText(text));
    }
  });
  it('says what the text said, wherever it lies', () => {
    for (let seed = 1; seed <= 60; seed++) {
      const text = mutate(roughen(generateLesson(seed), seed), seed);
      const dice = new Dice(seed);
      const start = dice.between(0, text.length);
      const edits = formatRange(text, { start, end: dice.between(start, text.length) });
      assert.deepEqual(losses(text, applyEdits(text, edits)), [], `seed ${seed}`);
    }
  });
});

describe('formatting while typing', () => {
  it('a bar line sets the lines above in columns and leaves the line in hand', () => {
    typedBecomes(
      'key  G major\n\nprogression a\n   G|D at 5\n  Am7|C\n    Em   |<|>  D\n',
      'key  G major\n\nprogression a\n  G   | D at 5\n  Am7 | C\n    Em   |<|>  D\n',
    );
  });
  it('a bar line in a tab sets the rows above step under step', () => {
    typedBecomes(
      'tab coda\n  each 1/8\n  1 | 0 - 12 |\n  2 | 10  1  - |<|>\n',
      'tab coda\n  each 1/8\n  1 | 0  - 12 |\n  2 | 10  1  - |<|>\n',
    );
  });
  it('a bar line in prose, or in the first line, is left alone', () => {
    typedStays('text\n   a  b\n  | c |<|>\n');
    typedStays('key  G major\nprogression  a |<|>\n');
    typedStays('|<|>');
  });
  it('a new line finishes the one above', () => {
    typedBecomes('key   G major\n<|>', 'key G major\n<|>');
    typedBecomes('progression a\n  G|D\n  Am7|C\n  <|>\n', 'progression a\n  G   | D\n  Am7 | C\n  <|>\n');
  });
  it('a new line below a first line has the indent of a body, where there can be one', () => {
    typedBecomes('section verse\n<|>', 'section verse\n  <|>');
    typedBecomes('text\n<|>\n\nshow verse\n', 'text\n  <|>\n\nshow verse\n');
    typedBecomes('section\n\t<|>', 'section\n  <|>');
    typedStays('form verse\n<|>');
    typedBecomes('key G major\n  <|>', 'key G major\n<|>');
  });
  it('a new line in a body keeps its indent, one behind an empty line leaves the body', () => {
    typedBecomes('shape a\n\tstrings 4 2 1\n\t<|>\n', 'shape a\n  strings 4 2 1\n  <|>\n');
    typedBecomes('shape a\n  strings 4 2 1\n  ; so far\n<|>\n', 'shape a\n  strings 4 2 1\n  ; so far\n  <|>\n');
    typedBecomes('shape a\n  strings 4 2 1\n\n  <|>\n', 'shape a\n  strings 4 2 1\n\n<|>\n');
    typedBecomes('shape a\r\n  strings 4 2 1\r\n<|>\r\n', 'shape a\r\n  strings 4 2 1\r\n  <|>\r\n');
  });
  it('a line cut in two goes on in the body', () => {
    typedBecomes('progression a\n  G | D\n<|>Em | Am\n', 'progression a\n  G  | D\n  <|>Em | Am\n');
    typedStays('claim open 3\n <|>throughout\n');
  });
  it('a new line in prose stands under the one above, and what is written there stays', () => {
    typedBecomes('text\n    - a  b\n<|>\n', 'text\n    - a  b\n    <|>\n');
    typedStays('text\n  a\n\n  <|>\n');
  });
  it('an empty line above a statement moves nothing', () => {
    typedStays('key G major\n\n<|>meter 3/4\n');
    typedStays('\n<|>key G major\n');
  });
  it('is at home nowhere in what is no text, or among strangers', () => {
    typedStays('key\u0000\n<|>');
    typedStays('wibble  a\n  b  c\n <|>\n');
  });
  it('never changes what the text says above, and nothing below', () => {
    for (let seed = 1; seed <= 60; seed++) {
      const text = mutate(roughen(generateLesson(seed), seed), seed);
      const offset = new Dice(seed).between(0, text.length);
      for (const typed of ['|', '\n']) {
        const edits = formatTyped(text, offset, typed);
        const from = Math.max(text.lastIndexOf('\n', offset - 1), text.lastIndexOf('\r', offset - 1));
        const end = /[\r\n]|$/.exec(text.slice(offset))!.index + offset;
        assert.ok(
          edits.every(({ span }) => span.end <= (typed === '|' ? from + 1 : end)),
          `seed ${seed}`,
        );
        const written = edits.filter(({ span }) => span.end <= from);
        assert.deepEqual(losses(text, applyEdits(text, written)), [], `seed ${seed}`);
      }
    }
  });
});
