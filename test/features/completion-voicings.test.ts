/** Positions, fret lists and shapes behind a chord: only what can be played, the easiest first. */
import assert from 'node:assert/strict';
import { shapePage } from '../../server/src/features/completion-voicings.ts';
import { plainOf } from '../../server/src/features/page.ts';
import { completionLabels, completionLines, cursorIn, dedented } from '../support/check-features.ts';

const LAMPS = `
  key G major
  shape lamp
    strings 4 2 1
    tones 3 R 5
    open 3
    frets 1 to 20
  shape bell
    strings 6 5 4
    tones 5 R 3
    frets 1 to 3
  progression quay
    G | D | Em
  section verse
    progression quay
    shape lamp
`;
const at = (words: string, lesson = LAMPS): readonly string[] =>
  completionLines(lesson.replace('| D |', `| ${words} |`));

describe('the positions behind a chord', () => {
  // F#, D and A on strings 4, 2 and 1 lie at 4, 3 and 5, and an octave above, where the frets are narrower and the open G is the lowest note.
  it('are those of its shape, with what sounds there and how hard that is', () =>
    assert.deepEqual(at('D at <|>'), ['15 (D/G, x-x-16-0-15-17, easy)', '3 (Dadd11/F#, x-x-4-0-3-5, moderate)']));
  // The capo takes the shape two frets up, where frets are narrower; it sounds a tone higher.
  it('are counted from the capo, as they are written', () =>
    assert.deepEqual(at('D at <|>', LAMPS.replace('shape lamp', 'capo 2\n  shape lamp').replace('to 20', 'to 12')), [
      '3 (Eadd11/G#, x-x-4-0-3-5, easy)',
    ]));
  it('are none where the shape has no voicing', () =>
    assert.deepEqual(at('D at <|>', LAMPS.replace('1 to 20', '1 to 2')), []));
});

describe('what a chord may be played as', () => {
  it('is a fret list of its shape, then a shape that has a voicing of it, each easiest first', () => {
    const offered = at('D as <|>');
    assert.deepEqual(offered.slice(0, 2), ['x-x-16-0-15-17 (D/G, easy)', 'x-x-4-0-3-5 (Dadd11/F#, moderate)']);
    // Within three frets of the nut strings 6, 5 and 4 have no A, D and F# as fifth, root and third.
    const labels = offered.map((line) => line.split(' ')[0]);
    assert.ok(labels.includes('lamp') && labels.includes('power-chords') && !labels.includes('bell'));
    assert.match(offered[labels.indexOf('lamp')], /^lamp \(D\/G, x-x-16-0-15-17, easy\)$/);
  });
  it('is any shape where no section plays the chord', () =>
    assert.ok(completionLabels('shape bell\n  strings 3 2 1\n\nprogression p\n  D as <|>\n').includes('bell')));
  it('is for a grip a list of open strings', () => assert.ok(completionLabels('grip D <|>\n').includes('x-x-0-2-3-2')));
});

describe('what is shown beside a voicing', () => {
  it('is its diagram and what its strings sound', () => {
    const { analysis } = cursorIn(LAMPS.replace('| D |', '| D at <|> |'));
    assert.equal(
      plainOf(shapePage(analysis, { chord: 'D', frets: 'x-x-4-0-3-5' })),
      dedented(`
        Dadd11/F#: F#3 3, G3 11, D4 R, A4 5

        x x   o
        ───────────
        │ │ │ │ 1 │  fret 3
        │ │ 2 │ │ │
        │ │ │ │ │ 3
        │ │ │ │ │ │
      `).trimEnd(),
    );
  });
  it('is nothing for what is no voicing', () => {
    const { analysis } = cursorIn(LAMPS.replace('| D |', '| D at <|> |'));
    assert.deepEqual(shapePage(analysis, { chord: 'H', frets: 'x-x-4-0-3-5' }), []);
    assert.deepEqual(shapePage(analysis, { chord: 'D', frets: '4-0' }), []);
  });
});
