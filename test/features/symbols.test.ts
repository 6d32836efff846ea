/** The outline of a lesson, and what can be folded away. */
import assert from 'node:assert/strict';
import { analyze } from '../../server/src/analyze.ts';
import { foldsOf } from '../../server/src/features/folding.ts';
import { dedented, outlineOf } from '../support/check-features.ts';

describe('the outline', () => {
  it('groups settings and claims, and holds bars and headings', () => {
    assert.equal(
      outlineOf(
        dedented(`
          lesson "Harbour"
            level 3
          key G major
          meter 3/4
          shape lamp
            strings 4 2 1
          capo 2
          progression quay
            G | D held
            %
          section verse "The quay"
            progression quay
          claim no barre
          claim reach at most 2
          text
            ## Above
            Words.
            # Below
          practice
            step "Slowly" at 60
        `),
      ),
      dedented(`
        Harbour — lesson
          level — 3
        Settings — G major · 3/4
          key — G major
          meter — 3/4
        lamp — shape
        capo — 2
        quay — progression, 3 bars
          Bar 1 — G
          Bar 2 — D held
          Bar 3 — %
        verse — The quay, 3 bars
          progression — quay
        Claims — 2
          no barre — claim
          reach at most 2 — claim
        Above — text
          Below
        practice — 1 step
          step — "Slowly" at 60
      `).trimEnd(),
    );
  });

  it('names what has no name yet', () => {
    assert.equal(outlineOf('lesson\nshape\ntext\n'), 'lesson — lesson\nshape — shape\ntext — text');
  });
});

describe('folds', () => {
  const folded = (text: string): string[] =>
    foldsOf(analyze(dedented(text))).map(({ startLine, endLine, kind }) => `${startLine}-${endLine} ${kind}`);

  it('end with the last words of a statement', () => {
    assert.deepEqual(
      folded(`
        shape lamp
          strings 4 2 1

          tones 3 R 5

        ; One
        ; and two.

        key G major
        text
          Words.

          More.
      `),
      ['0-3 statement', '5-6 comment', '9-12 statement'],
    );
  });

  it('are not made of one line', () => {
    assert.deepEqual(folded('; One.\nkey G major\n'), []);
  });
});
