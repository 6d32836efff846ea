/** The reference is what the code says, and every example of it works in a lesson. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { referencePage } from '../../server/src/syntax/reference.ts';
import { STATEMENT_NOTES } from '../../server/src/syntax/statement-notes.ts';
import { statements } from '../../server/src/syntax/statements.ts';
import { errorsWith, statementWith } from '../support/example-lesson.ts';

describe('the reference', () => {
  it('is what `npm run docs` writes now', () =>
    assert.equal(readFileSync('server/REFERENCE.md', 'utf8'), referencePage(), 'run `npm run docs`'));

  it('has a part for every statement and names every line', () => {
    const page = referencePage();
    for (const { keyword, body } of statements) {
      assert.ok(page.includes(`\n## ${keyword}\n`), keyword);
      for (const { example } of body) assert.ok(page.includes(example), `${keyword}: ${example}`);
    }
  });

  it('has notes on statements of the language alone', () => {
    const keywords = new Set(statements.map(({ keyword }) => keyword));
    assert.deepEqual(
      Object.keys(STATEMENT_NOTES).filter((keyword) => !keywords.has(keyword)),
      [],
    );
  });

  for (const form of statements) {
    it(`has an example of ${form.keyword} that works`, () => assert.deepEqual(errorsWith(form.example), []));
    for (const line of form.body) {
      it(`has an example of the line ${line.label} of ${form.keyword} that can be read`, () =>
        // How it goes with the other parts of its example is another matter.
        assert.deepEqual(errorsWith(statementWith(form, line, line.example), ['words', 'names']), []));
    }
  }
});
