import assert from 'node:assert/strict';
import { cutWords } from '../../server/src/syntax/words.ts';

/** The words of a line between angle brackets where they are plain, quoted where they are titles; then the comment. */
function cut(line: string): string {
  const { words, comment } = cutWords(line, 0);
  const shown = words.map((word) =>
    word.kind === 'quoted' ? `"${word.text}"${word.unclosed ? ' unclosed' : ''}` : `<${word.text}>`,
  );
  if (comment) shown.push(line.slice(comment.start, comment.end));
  return shown.join(' ');
}

describe('words of a line', () => {
  const lines: readonly (readonly [says: string, line: string, words: string])[] = [
    ['are cut at white space', 'key  G\tmajor', '<key> <G> <major>'],
    ['are cut at no-break spaces too', 'key\u00a0G\u202fmajor', '<key> <G> <major>'],
    ['bar lines are words of their own', '|G|D |', '<|> <G> <|> <D> <|>'],
    ['commas and colons too', 'from 5: 0,1', '<from> <5> <:> <0> <,> <1>'],
    ['brackets hold a word together', 'C7(b9, #11) down(4 to 1)', '<C7(b9, #11)> <down(4 to 1)>'],
    ['a bracket that never closes does not', 'C7(b9, #11', '<C7(b9> <,> <#11>'],
    ['no bracket reaches across a bar line', 'C7(b9 | D)', '<C7(b9> <|> <D)>'],
    ['a triplet holds words', 'triplet(p6 i3 m2) 1/4', '<triplet(> <p6> <i3> <m2> <)> <1/4>'],
    ['a ghost note in a triplet keeps its brackets', 'triplet((5) 7 8)', '<triplet(> <(5)> <7> <8> <)>'],
    ['a title keeps its blanks', 'lesson "Two  lamps"', '<lesson> "Two  lamps"'],
    ['a title may hold a semicolon', 'by "A ; B" ; so', '<by> "A ; B" ; so'],
    ['a title has two escapes', String.raw`by "\"A\" \\ \n"`, String.raw`<by> ""A" \ \n"`],
    ['curly quotes are read', 'lesson “Two lamps”', '<lesson> "Two lamps"'],
    ['low quotes are read', 'lesson „Two lamps“', '<lesson> "Two lamps"'],
    ['a title without an end takes the line', 'lesson "Two lamps  ', '<lesson> "Two lamps" unclosed'],
    ['a title may touch the next word', '"a"b', '"a" <b>'],
    ['a comment starts behind white space', 'G ; home', '<G> ; home'],
    ['a comment may start the line', '; home ', '; home'],
    ['a semicolon inside a word is no comment', 'G;home', '<G;home>'],
    ['an empty line has none', ' \t ', ''],
  ];
  for (const [says, line, words] of lines) it(says, () => assert.equal(cut(line), words));

  it('know where they stand', () => {
    const line = '  step "A \\" b" at 60';
    for (const { kind, text, start, end } of cutWords(line, 0).words) {
      if (kind !== 'quoted') assert.equal(line.slice(start, end), text);
      else assert.equal(line.slice(start, end), '"A \\" b"');
    }
    assert.deepEqual(
      cutWords(line, 100).words.map((word) => word.start),
      [102, 107, 116, 119],
    );
  });
});
