/** Snippets are what the table gives now, and a lesson that takes one as it comes can be read. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { lineSnippet, snippetsFile, statementSnippet } from '../../server/src/syntax/snippets.ts';
import { statementNamed, statements } from '../../server/src/syntax/statements.ts';
import { errorsWith, statementWith } from '../support/example-lesson.ts';
import { filledIn } from '../support/snippets.ts';

interface Manifest {
  readonly contributes: { readonly snippets: readonly { readonly language: string; readonly path: string }[] };
}

const lineOf = (keyword: string, label: string): string | undefined => {
  const form = statementNamed(keyword)!;
  return lineSnippet(
    form,
    form.body.find((line) => line.label === label)!,
  );
};

describe('snippets', () => {
  it('are in the file what the table gives now (to renew it: node .scripts/write-grammar.mjs)', () => {
    const { contributes } = JSON.parse(readFileSync('package.json', 'utf8')) as Manifest;
    assert.deepEqual(contributes.snippets, [{ language: 'stringcourse', path: './syntaxes/snippets.json' }]);
    assert.deepEqual(JSON.parse(readFileSync('syntaxes/snippets.json', 'utf8')), snippetsFile());
  });

  it('have no word that calls them up, since the server offers the same words', () => {
    for (const snippet of Object.values(snippetsFile()))
      assert.deepEqual(Object.keys(snippet).sort(), ['body', 'description']);
  });

  it('have a gap for each thing to say, and one for music', () => {
    assert.equal(
      statementSnippet(statementNamed('contour')!),
      'contour ${1:swell} on ${2:1}\n  each ${3:1/4}\n  from ${4:5}: ${5:0 -1 0}',
    );
    assert.equal(lineOf('shape', 'frets'), 'frets ${1:1} to ${2:12}');
    assert.equal(lineOf('shape', 'spacing'), 'spacing ${1|close,spread|}');
    assert.equal(lineOf('tab', 'row'), '${1:1} | ${2:0 - 3 - <12> - |}');
    assert.equal(lineOf('practice', 'step'), 'step "${1:The ripple}" from ${2:60} to ${3:84} by ${4:6}');
  });

  it('take what a lesson proposes, and leave out a line that it has nothing for', () => {
    const section = statementSnippet(statementNamed('section')!, ({ kind, line }) =>
      kind !== 'name' || !line ? undefined : line.label === 'progression' ? ['a}b', 'c,d'] : 'without',
    );
    assert.equal(section, 'section ${1:verse} "${2:The quay at dusk}"\n  progression ${3|a\\}b,c\\,d|}');
  });

  for (const form of statements) {
    it(`${form.keyword} can be read as it comes`, () =>
      assert.deepEqual(errorsWith(filledIn(statementSnippet(form))), []));
    for (const line of form.body)
      it(`${form.keyword}, ${line.label} can be read as it comes`, () => {
        const text = filledIn(lineSnippet(form, line)!);
        assert.deepEqual(errorsWith(statementWith(form, line, text), ['words', 'names']), []);
      });
  }
});
