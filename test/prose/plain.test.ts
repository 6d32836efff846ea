/** Prose as plain text, as a terminal shows it. */
import assert from 'node:assert/strict';
import { analyze } from '../../server/src/analyze.ts';
import { filledProse } from '../../server/src/prose/filled.ts';
import { proseText } from '../../server/src/prose/plain.ts';

function plain(markdown: string, width = 30): string {
  const indented = markdown
    .split('\n')
    .map((line) => `  ${line}\n`)
    .join('');
  const { lesson, score } = analyze(`lesson "A low \u202elamp"\nkey D major\ntext\n${indented}`);
  const [prose] = lesson.passages;
  assert.ok(prose?.kind === 'text');
  return proseText(filledProse(prose, lesson, score), { width, columns: (text) => text.length });
}

describe('prose as plain text', () => {
  it('is broken to the width, its marks left out', () => {
    assert.equal(
      plain('# Floor\nThe *open* string is the **floor** under `x02220` and under all of them.'),
      'Floor\n\nThe open string is the floor\nunder x02220 and under all of\nthem.',
    );
  });
  it('keeps the marks of lists and quotations, and indents what belongs to them', () => {
    assert.equal(
      plain('Then\n- one string that rings on and on\n- two\n  1. a\n  2. b\n\n> so it is said,\n> every day'),
      'Then\n\n- one string that rings on and\n  on\n- two\n  1. a\n  2. b\n\n> so it is said, every day',
    );
  });
  it('has code and tables in their columns', () => {
    assert.equal(plain('```\na  b\n c\n```'), '    a  b\n     c');
    assert.equal(plain('|chord|sounds|\n|-|-|\n|G|as written|'), 'chord  sounds\nG      as written');
  });
  it('tells where a link leads', () => {
    assert.equal(
      plain('See [a page](https://example.org) or [next](next.lesson).', 60),
      'See a page (https://example.org) or next.',
    );
    assert.equal(plain('<https://example.org>'), 'https://example.org');
  });
  it('fills facts in as they are, but for what would turn a terminal’s line', () => {
    assert.equal(plain('In {lesson.key}: *{lesson.title}*', 60), 'In D major: A low \ufffdlamp');
    assert.equal(plain('&#8238;a'), '\ufffda');
  });
  it('may be nothing', () => assert.equal(plain(''), ''));
});
