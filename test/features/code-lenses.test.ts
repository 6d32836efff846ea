/** What stands above sections and parts. */
import assert from 'node:assert/strict';
import { analyze } from '../../server/src/analyze.ts';
import { lensesOf, usesTitle } from '../../server/src/features/code-lenses.ts';
import { dedented } from '../support/check-features.ts';

/** `line of the text: what stands above it`. */
function lensesIn(lesson: string): readonly string[] {
  const text = dedented(lesson);
  const analysis = analyze(text);
  return lensesOf(analysis).map((lens) => {
    const line = analysis.lines.line(analysis.lines.lineAt(lens.span.start));
    if (lens.kind === 'uses') return `${line}: uses of ${lens.named.kind} ${lens.named.name}`;
    return `${line}: ${lens.kind} ${lens.section} at ${text.slice(lens.bar.start, lens.bar.end)}`;
  });
}

describe('code lenses', () => {
  it('stand above every section that has bars, and above every part that can be used', () => {
    assert.deepEqual(
      lensesIn(`
        lesson "Lamps"
        shape lamp
          strings 4 2 1
          tones 3 R 5
        grip G 320003
        progression quay
          G as lamp | D
        cell ripple
          p4 i3
        melody landing on 1
          each 1/4
          7 8 5 7
        section verse "The quay"
          progression quay
        section empty
        variant gentle "Gentler"
          tempo 60
        practice
          step "Slowly" at 60
      `),
      [
        'shape lamp: uses of shape lamp',
        'progression quay: uses of progression quay',
        'cell ripple: uses of cell ripple',
        'melody landing on 1: uses of melody landing',
        'section verse "The quay": play verse at G as lamp',
        'section verse "The quay": preview verse at G as lamp',
      ],
    );
  });

  it('count in words', () => {
    assert.deepEqual([0, 1, 2].map(usesTitle), ['no uses', '1 use', '2 uses']);
  });
});
