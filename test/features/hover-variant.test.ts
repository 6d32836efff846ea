import assert from 'node:assert/strict';
import { checkHover, hoverText } from '../support/check-features.ts';

const LESSON = `
  lesson "Two chords"
    level 3

  key G major
  tempo 84

  progression quay
    G | C

  section verse
    progression quay
    shape barre-chords

  practice
    step "All of it" at 60 for 10 minutes
`;

describe('hovering over a variant', () => {
  it('tells what it changes, and how hard the lesson is before and after', () => {
    const said = hoverText(`${LESSON}
  variant gen<|>tle "Gentler, sounding in B flat"
    capo 3
    tempo 60
    level 2
    shape power-chords instead of barre-chords
    step "Slowly" at 50
    step "As written" at 60
`);
    const [name, title, blank, ...rows] = said.split('\n');
    assert.deepEqual([name, title, blank], ['[gentle]', 'gentle, a variant: Gentler, sounding in B flat.', '']);
    const cells = rows.map((row) => row.split(/ {2,}/));
    assert.deepEqual(
      cells.filter(([what]) => what !== 'difficulty'),
      [
        ['', 'lesson', 'variant'],
        // The frets of G three higher are those of Bb.
        ['key', 'G major', 'G major, sounding Bb major'],
        ['tempo', 'quarter = 84', 'quarter = 60'],
        ['capo', 'none', '3'],
        ['level', '3', '2'],
        ['shape', 'barre-chords', 'power-chords'],
        ['practice', '1 step', '2 steps'],
        [''],
        // A power chord leaves the third out, which two chords of the two are told.
        ['In it: two hints.'],
      ],
    );
    const [, before, after] = cells.find(([what]) => what === 'difficulty')!;
    assert.ok(parseFloat(before) > parseFloat(after), 'two fingers are easier than a barre');
  });

  it('says of a setting what it does in the variant', () => {
    checkHover(
      `${LESSON}
  variant gentle
    temp<|>o 60
`,
      `
        [tempo]
        tempo: Beats a minute, of the meter’s own beat or of the length named.

        tempo 84

        quarter = 60: a bar lasts 4.00 seconds.
      `,
    );
  });
});
