/** Inlay hints, written into the text in angle brackets where the editor shows them. */
import assert from 'node:assert/strict';
import { analyze, type Analysis } from '../../server/src/analyze.ts';
import {
  inlayHintPage,
  inlayHintsIn,
  type InlayHint,
  type WantedHints,
} from '../../server/src/features/inlay-hints.ts';
import { plainOf } from '../../server/src/features/page.ts';
import { dedented } from '../support/check-features.ts';

const ALL: WantedHints = { soundingNames: true, contourFrets: true };

const hinted = (analysis: Analysis, wanted = ALL, span = { start: 0, end: analysis.text.length }): string => {
  let shown = analysis.text;
  for (const { at, label } of [...inlayHintsIn(analysis, span, wanted)].reverse())
    shown = `${shown.slice(0, at)}⟨${label}⟩${shown.slice(at)}`;
  return shown;
};

/** The lines that have a hint. */
const hintedLines = (text: string, wanted = ALL): string =>
  hinted(analyze(dedented(text)), wanted)
    .split('\n')
    .filter((line) => line.includes('⟨'))
    .join('\n');

const pageOf = (text: string, kind: InlayHint['kind'], number = 0): string => {
  const analysis = analyze(dedented(text));
  const hints = inlayHintsIn(analysis, { start: 0, end: analysis.text.length }, ALL);
  return plainOf(inlayHintPage(analysis, hints.filter((one) => one.kind === kind)[number]));
};

// The names and frets are those that the language's own page works out by hand for this lesson.
const HARBOUR = `
  key G major
  meter 3/4

  shape lamp
    strings 4 2 1
    tones 3 R 5
    open 3
    frets 1 to 12
    reach 2

  progression quay
    G | D | Em | Am | Em | D | G at 8 | G held

  cell ripple
    each 1/8
    p4 i3 m2 i3 m2 i3

  contour swell on 1
    each 1/4
    from 5: 0 -1 0

  section verse
    progression quay
    shape lamp
    cell ripple
    contour swell
`;

describe('inlay hints', () => {
  it('tell what sounds and the colour that is added, and the frets of a contour, where there is something to tell', () => {
    assert.equal(
      hintedLines(HARBOUR),
      [
        '  G | D⟨Dadd11/F# · 11⟩ | Em⟨Em/G⟩ | Am⟨Am7/G · b7⟩ | Em⟨Em/G⟩ | D⟨Dadd11/F# · 11⟩ | G at 8 | G held',
        '  contour swell⟨10 8 10 | 5 3 5 | 7 5 7 | 12 10 12 | …⟩',
      ].join('\n'),
    );
  });

  it('are of the kinds that are wanted', () => {
    assert.equal(hintedLines(HARBOUR, { soundingNames: false, contourFrets: false }), '');
    assert.match(hintedLines(HARBOUR, { soundingNames: false, contourFrets: true }), /^ {2}contour swell⟨/);
    assert.match(hintedLines(HARBOUR, { soundingNames: true, contourFrets: false }), /G held$/);
  });

  it('are made for the place that is asked about', () => {
    const analysis = analyze(dedented(HARBOUR));
    const at = analysis.text.indexOf('Am | Em');
    assert.match(hinted(analysis, ALL, { start: at, end: at + 7 }), /Em \| Am⟨Am7\/G · b7⟩ \| Em⟨Em\/G⟩ \| D \|/);
    assert.deepEqual(inlayHintsIn(analysis, { start: 0, end: 5 }, ALL), []);
  });

  it('say which chord a numeral is, and what a capo makes of a shape', () => {
    assert.equal(
      hintedLines(`
        key G major
        progression p
          I | V7 | G
        section a
          progression p
      `),
      '  I⟨G⟩ | V7⟨D7⟩ | G',
    );
    assert.equal(
      hintedLines(`
        capo 3
        progression p
          G | %
        section a
          progression p
      `),
      '  G⟨Bb⟩ | %',
    );
  });

  it('name both where two sections play one progression with other shapes', () => {
    const text = `
      shape lamp
        strings 4 2 1
        tones 3 R 5
        open 3
        frets 1 to 12
      progression p
        D
      section a
        progression p
        shape lamp
      section b
        progression p
    `;
    assert.equal(hintedLines(text), '  D⟨Dadd11/F# · 11; D⟩');
  });

  it('stand behind each call of a contour, for the bars that it is for', () => {
    const text = (calls: string): string => `
      key C major
      progression p
        C | F | G | C
      contour up on 1
        each 1/2
        from 5 or 3 or R: 0 +1
      section a
        progression p
        contour up${calls}
    `;
    const all = /⟨(.+)⟩/.exec(hintedLines(text('')))![1].split(' | ');
    assert.equal(all.length, 4);
    assert.equal(
      hintedLines(text(' bars 1 to 2\n        contour up at bar 4')),
      `  contour up bars 1 to 2⟨${all[0]} | ${all[1]}⟩\n  contour up at bar 4⟨${all[3]}⟩`,
    );
  });

  it('are silent where nothing is played, nothing can be read, or a tab gives the notes', () => {
    for (const text of [
      '',
      'progression p\n  D\n',
      'progression p\n  Hm |\nsection a\n  progression p\n  contour none\n',
    ])
      assert.deepEqual(inlayHintsIn(analyze(text), { start: 0, end: text.length }, ALL), []);
    assert.equal(
      hintedLines(`
        tab t
          each 1/4
          chords D7
          1 | 2 3 2 -
        section a
          tab t
      `),
      '',
    );
  });

  it('tell the intervals, string by string and chord by chord', () => {
    assert.equal(
      pageOf(HARBOUR, 'sounding'),
      dedented(`
        D sounds Dadd11/F#, bar 2 of verse: x-x-4-0-3-5, with the eleventh added.

        string  fret  note  interval
        4       4     F#3   major third
        3       0     G3    eleventh
        2       3     D4    root
        1       5     A4    fifth
      `).trim(),
    );
    // A step of the scale below the fifth of a chord is its fourth, which is counted as the eleventh.
    assert.match(pageOf(HARBOUR, 'frets'), /^1 {4}G +1 +10 8 10 +5 11 5$/m);
    assert.match(pageOf(HARBOUR, 'frets'), /^2 {4}D +1 +5 3 5 +5 11 5$/m);
  });
});
