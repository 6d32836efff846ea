/** The other keys that the editor offers, and the table of what open strings win and lose. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { analyze } from '../../server/src/analyze.ts';
import { coloursByKey } from '../../server/src/features/actions/transpose.ts';
import { plainOf } from '../../server/src/features/page.ts';
import { colourPage, compareColours } from '../../server/src/features/transpose-table.ts';
import { actionsAt } from '../../server/src/features/actions/registry.ts';
import { actionLines, afterAction } from '../support/check-actions.ts';
import { dedented } from '../support/check-features.ts';
import { capoed, transposed } from '../support/transposed.ts';

const lamps = readFileSync('samples/harbour-lamps.lesson', 'utf8');

describe('what open strings win and lose', () => {
  // Over A, E and F#m the open G is the flat seventh, the sharp ninth and the flat ninth: counted on the letters A, E, F#.
  it('is told chord by chord', () => {
    const { rows } = compareColours(analyze(lamps), analyze(transposed(lamps, 'A major').text));
    assert.deepEqual(
      rows.slice(0, 3).map(({ before, after, won, lost }) => [before.symbol, after.symbol, won.join(), lost.join()]),
      [
        ['G', 'A', 'b7', ''],
        ['D', 'E', '#9', '11'],
        ['Em', 'F#m', 'b9', ''],
      ],
    );
    assert.deepEqual(rows[1].before.open, [{ string: 3, degree: '11' }]);
  });
  it('is a table with each line once, and what is found anew', () => {
    const page = plainOf(colourPage(compareColours(analyze(lamps), analyze(transposed(lamps, 'A major').text))));
    assert.match(page, /^bar +before +open +sounds +after +open +sounds +won +lost\n/);
    assert.match(page, /\nverse 2 +D +3: 11 +Dadd11\/F# +E +3: #9 +E\/G +#9 +11\n/);
    assert.doesNotMatch(page, /verse 5/);
    assert.match(page, /\n\nNew, error: `lamp` has no voicing of `Bm`/);
  });
  it('is nothing under a capo', () => {
    const { rows } = compareColours(analyze(lamps), analyze(capoed(lamps, 'A major').text));
    assert.ok(rows.length > 0);
    assert.ok(rows.every(({ won, lost }) => won.length === 0 && lost.length === 0));
  });
  it('is said where no string rings open', () => {
    const plain = analyze('progression p\n  F\nsection s\n  progression p\n  shape barre-chords\n');
    assert.equal(plainOf(colourPage(compareColours(plain, plain))), 'No open string rings, before or after.');
  });
});

describe('the other keys', () => {
  const lesson = `
    key G maj<|>or
    capo 2
    progression p
      G | D
    section s
      progression p
  `;
  const offered = (marked: string): readonly string[] => [
    ...actionLines(marked, 'transpose'),
    ...actionLines(marked, 'capo'),
  ];
  it('are offered on the key, the nearest first, and then by the capo', () => {
    const titles = offered(lesson);
    assert.deepEqual(titles.slice(0, 3), [
      'Transpose to Ab major, sounding Bb major',
      'Transpose to F# major, sounding Ab major',
      'Transpose to A major, sounding B major',
    ]);
    assert.equal(titles.filter((title) => title.startsWith('Transpose')).length, 11);
    assert.deepEqual(titles.filter((title) => title.startsWith('Let')).slice(0, 4), [
      'Let it sound in Bb major with the capo on fret 3',
      'Let it sound in Ab major with the capo on fret 1',
      'Let it sound in B major with the capo on fret 4',
      'Let it sound in G major without the capo',
    ]);
  });
  it('are offered for the whole lesson, and nowhere else', () => {
    const analysis = analyze(dedented(lesson).replace('<|>', ''));
    assert.ok(actionsAt(analysis, { start: 0, end: analysis.text.length }).length > 11);
    assert.deepEqual(offered(lesson.replace('<|>', '').replace('G | D', 'G<|> | D')), []);
    assert.deepEqual(offered('key G<|> major\n'), []);
  });
  it('do what they say', () => {
    const text = dedented(lesson).replace('<|>', '');
    assert.equal(afterAction(lesson, 'transpose A major'), text.replace('key G', 'key A').replace('G | D', 'A | E'));
    assert.equal(afterAction(lesson, 'capo G major'), text.replace('capo 2', 'no capo'));
  });
  it('say what open strings win and lose there, once that has been worked out', () => {
    const analysis = analyze(lamps);
    const titles = (): readonly string[] => {
      const at = lamps.indexOf('key G') + 5;
      return actionsAt(analysis, { start: at, end: at }).map(({ title }) => title);
    };
    assert.ok(titles().includes('Transpose to A major'));
    for (const step of coloursByKey(analysis)) assert.equal(step, undefined);
    // Over A, E and F#m the open G is the b7, the #9 and the b9; the 11 of D and the b7 of Am are gone.
    assert.ok(titles().includes('Transpose to A major (loses 2 colours, wins 3)'), titles().join());
  });
  it('say what has to stay behind', () => {
    const titles = offered('key C<|> major\nprogression p\n  C | H\nsection s\n  progression p\n');
    assert.equal(titles[0], 'Transpose to Db major; one part stays');
  });
});
