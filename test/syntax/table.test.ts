import assert from 'node:assert/strict';
import { match } from '../../server/src/syntax/patterns.ts';
import { slotKinds, type SlotForm } from '../../server/src/syntax/slots.ts';
import { statements } from '../../server/src/syntax/statements.ts';
import { cutWords } from '../../server/src/syntax/words.ts';
import { problemsOf } from '../support/syntax-outline.ts';

describe('table of statements', () => {
  for (const form of statements) {
    it(`the example of ${form.keyword} reads without a problem`, () => {
      assert.match(form.example, new RegExp(`^${form.keyword}\\b`));
      assert.deepEqual(problemsOf(form.example), []);
    });
    for (const line of form.body) {
      it(`the example of ${form.keyword}, ${line.label} reads without a problem`, () => {
        const { words } = cutWords(line.example, 0);
        if (line.keyword) assert.equal(words[0].text, line.keyword);
        const found = match(line.pattern, words, line.keyword ? 1 : 0);
        assert.equal(found.read, words.length, line.example);
        // As the body of its statement, too.
        const head = form.example.split('\n')[0];
        assert.deepEqual(problemsOf(`${head}\n  ${line.example}\n`), []);
      });
    }
  }
  it('says of everything what it is for, in one sentence', () => {
    for (const form of [...statements, ...statements.flatMap((one) => one.body)]) {
      assert.match(form.says, /^[A-Z`].*\.$/s, form.example);
    }
  });
  it('has every keyword once, and every line of a statement once', () => {
    const keywords = statements.map((form) => form.keyword);
    assert.deepEqual(keywords, [...new Set(keywords)]);
    for (const form of statements) {
      const labels = form.body.map((line) => line.label);
      assert.deepEqual(labels, [...new Set(labels)], form.keyword);
      assert.ok(form.body.filter((line) => line.keyword === undefined).length <= 1, form.keyword);
    }
  });
  it('has an example that fits for each kind of word', () => {
    for (const [name, kind] of Object.entries<SlotForm>(slotKinds)) {
      const { words } = cutWords(kind.example, 0);
      assert.equal(words.length, 1, name);
      assert.equal(words[0].kind, kind.quoted ? 'quoted' : 'word', name);
      assert.ok(kind.fits(words[0].text), name);
    }
  });
});
