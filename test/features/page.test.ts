/** A lesson’s words in a hover stay words: no markup, no links, no images, no hidden signs. */
import assert from 'node:assert/strict';
import { code, figure, line, markdownOf, plainOf, strong, table } from '../../server/src/features/page.ts';

const written = (text: string): string => markdownOf([line(strong('x'), ' ', text)]).slice('**x** '.length);

describe('Markdown from a lesson’s words', () => {
  it('makes no links and no images', () => {
    assert.equal(written('[a](command:b)'), '\\[a\\](command:b)');
    assert.equal(written('![a](b)'), '!\\[a\\](b)');
    assert.equal(written('<https://a.b>'), '\\<https\\://a.b\\>');
    assert.equal(written('https://a.b www.a.b a@b.c'), 'https\\://a.b www\\.a.b a\\@b.c');
    assert.equal(written('[a]: //b'), '\\[a\\]: //b');
  });

  it('makes no markup', () => {
    assert.equal(written('*a* _b_ `c` ~~d~~ &amp; <b>'), '\\*a\\* \\_b\\_ \\`c\\` \\~\\~d\\~\\~ \\&amp; \\<b\\>');
    assert.equal(markdownOf([line('# a')]), '\\# a');
    assert.equal(markdownOf([line('- a')]), '\\- a');
    assert.equal(markdownOf([line('12. a')]), '12\\. a');
    assert.equal(markdownOf([line('=== a')]), '\\=== a');
  });

  it('leaves chords as they are', () => {
    assert.equal(written('Dadd11/F# C7(b9) F#m7b5 +1'), 'Dadd11/F# C7(b9) F#m7b5 +1');
  });

  it('closes no fence early', () => {
    assert.equal(markdownOf([line(code('a`b'))]), '``a`b``');
    assert.equal(markdownOf([line(code('`'))]), '`` ` ``');
    assert.equal(markdownOf([figure('```\n# a')]), '````\n```\n# a\n````');
  });

  it('adds no column to a table', () => {
    assert.equal(markdownOf([table(['a|b'], [['c|d']])]), '| a\\|b |\n| --- |\n| c\\|d |');
  });

  it('shows no signs that nobody sees', () => {
    assert.equal(written('a\u202eb\u0000c\nd'), 'a b c d');
    assert.equal(plainOf([line('a\u202eb\u0007c\nd')]), 'a b c d');
  });
});

describe('plain text', () => {
  it('keeps the columns of a table', () => {
    assert.equal(
      plainOf([
        table(
          ['string', 'note'],
          [
            ['1', 'E4'],
            ['2', 'B3'],
          ],
        ),
      ]),
      'string  note\n1       E4\n2       B3',
    );
  });
});
