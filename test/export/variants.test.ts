/** Variants and practice in what is exported: the whole of a variant, as if it were the lesson. */
import assert from 'node:assert/strict';
import { analyze, variantNamed } from '../../server/src/analyze.ts';
import { lessonJson } from '../../server/src/export/json.ts';
import { lessonText } from '../../server/src/export/text.ts';

const LESSON = `lesson "Two chords"
  minutes 20

key G major

progression quay
  G | C

section verse
  progression quay
  shape barre-chords

practice
  step "The change" from 60 to 80 by 10 in verse bars 1 to 2
  step "All of it" at 60 for 10 minutes

variant high "Higher up"
  key Bb major
  step "Slowly" at 40 for 15 minutes
`;

interface Written {
  readonly title: string;
  readonly settings: { readonly key: string };
  readonly sections: readonly {
    readonly bars: readonly { readonly chords: readonly { readonly symbol: string }[] }[];
  }[];
  readonly practice: readonly unknown[];
  readonly variants: readonly (Written & { readonly name: string })[];
}

describe('a lesson with variants', () => {
  const json = JSON.parse(lessonJson(analyze(LESSON))) as Written;

  it('has each of them in its JSON, with all that the lesson has', () => {
    assert.deepEqual(
      json.variants.map(({ name, title, settings }) => [name, title, settings.key]),
      [['high', 'Two chords: Higher up', 'Bb major']],
    );
    const symbols = json.variants[0].sections[0].bars.map(({ chords }) => chords[0].symbol);
    // A minor third above G and C.
    assert.deepEqual(symbols, ['Bb', 'Eb']);
    assert.deepEqual(
      Object.keys(json.variants[0]).filter((key) => key !== 'name'),
      Object.keys(json).filter((key) => key !== 'version' && key !== 'variants'),
    );
  });

  it('has its practice in its JSON', () => {
    assert.deepEqual(json.practice, [
      { title: 'The change', tempi: [60, 70, 80], minutes: null, section: 'verse', first: 1, last: 2 },
      { title: 'All of it', tempi: [60], minutes: 10, section: null, first: null, last: null },
    ]);
    assert.deepEqual(json.variants[0].practice, [
      { title: 'Slowly', tempi: [40], minutes: 15, section: null, first: null, last: null },
    ]);
  });

  it('is written as text with its practice, a variant with its own', () => {
    const analysis = analyze(LESSON);
    const options = { width: 80, notes: false };
    assert.match(
      lessonText(analysis, options),
      /\nPractice\n\n1\. The change · verse, bars 1 to 2 · quarter = 60, 70, 80\n/,
    );
    const variant = lessonText(variantNamed(analysis, 'high')!, options);
    assert.match(variant, /^Two chords: Higher up\nBb major · /);
    assert.match(variant, /\nPractice\n\n1\. Slowly · quarter = 40 · 15 minutes\n/);
    assert.equal(variantNamed(analysis, 'low'), undefined);
  });
});
