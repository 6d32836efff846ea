/** The built-in rules must give the shapes that every player knows: common knowledge of the trade, written down by hand. */
import assert from 'node:assert/strict';
import { builtInShapes } from '../../server/src/lesson/built-in-shapes.ts';
import { RealiseCache, realiseSection } from '../../server/src/realise/realise.ts';
import { fretsOf, instrument, planOf, settingsOf } from '../support/plan.ts';

const ruleNamed = (name: string) => builtInShapes.find((rule) => rule.name === name)!;

function chosen(name: string, progression: string, tuning = 'standard', level?: number): string[] {
  const settings = settingsOf({ instrument: instrument(tuning), level });
  const plan = planOf(progression, { rule: ruleNamed(name), key: 'C major' });
  return realiseSection(plan, settings, new RealiseCache()).bars.map((bar) => fretsOf(bar));
}

/** A line a chord, then the shapes that would do, without hyphens where every fret is one digit. */
function checkTable(name: string, table: string, tuning = 'standard'): void {
  for (const line of table.trim().split('\n')) {
    const [symbol, ...shapes] = line.trim().split(/\s+/);
    it(`${symbol} is ${shapes.join(' or ')}`, () => {
      const [frets] = chosen(name, symbol, tuning);
      assert.ok(shapes.includes(frets) || shapes.includes(frets.replaceAll('-', '')), `chose ${frets}`);
    });
  }
}

describe('open-chords', () => {
  checkTable(
    'open-chords',
    `
    C      x32010
    A      x02220
    G      320003 320033
    E      022100
    D      xx0232
    F      133211 xx3211 x33211
    B      x24442 x2444x
    Am     x02210
    Em     022000
    Dm     xx0231
    Bm     x24432
    F#m    244222
    Fm     133111
    F#     244322
    Bb     x13331 x1333x
    Eb     xx1343
    C7     x32310
    D7     xx0212
    E7     020100 022130
    G7     320001
    A7     x02020
    B7     x21202
    F7     131211
    Am7    x02010
    Em7    020000 022030 022033
    Dm7    xx0211
    Bm7    x20202 x24232
    Cmaj7  x32000
    Dmaj7  xx0222
    Emaj7  021100
    Fmaj7  xx3210 1x2210
    Gmaj7  320002
    Amaj7  x02120
    Cadd9  x32033 x32030
    Dsus2  xx0230
    Dsus4  xx0233
    Asus2  x02200
    Asus4  x02230
    Esus4  022200
    D/F#   200232 2x0232
    G/B    x20033 x20003
    C/G    332010
    C/E    032010
    Am/G   302210
    C/B    x22010
    Bdim   x2343x
    C9     x32333 x32330
  `,
  );

  it('spares a beginner the barre', () => {
    assert.deepEqual(chosen('open-chords', 'F', 'standard', 1), ['x-x-3-2-1-1']);
  });

  it('chooses what a songbook would have for a whole song', () => {
    assert.deepEqual(chosen('open-chords', 'G | D | Em | C | Am | D7 | G'), [
      '3-2-0-0-0-3',
      'x-x-0-2-3-2',
      '0-2-2-0-0-0',
      'x-3-2-0-1-0',
      'x-0-2-2-1-0',
      'x-x-0-2-1-2',
      '3-2-0-0-0-3',
    ]);
  });
});

describe('open-chords on a ukulele', () => {
  checkTable(
    'open-chords',
    `
    C      0003
    F      2010
    G      0232
    D      2220
    A      2100
    Am     2000
    Dm     2210
    Gm     0231
    Em     0432 0402
    Bb     3211
    C7     0001
    G7     0212
    D7     2223
    A7     0100
  `,
    'ukulele',
  );
});

describe('open-chords in drop-d', () => {
  checkTable('open-chords', 'D 000232\nA x02220\nC x32010\nAm x02210', 'drop-d');
});

describe('barre-chords', () => {
  checkTable(
    'barre-chords',
    `
    F      133211
    G      355433
    A      577655
    C      x35553
    D      x57775
    E      x79997
    Bb     x13331
    Gm     355333
    Am     577555
    Bm     x24432
    Cm     x35543
    G7     353433
    C7     x35353
    Gm7    353333
    Cm7    x35343
    Gmaj7  354433
    Cmaj7  x35453
    Gsus4  335533 355533
  `,
  );

  it('moves the same shapes with the tuning', () => {
    assert.deepEqual(chosen('barre-chords', 'G | C', 'half-step-down'), ['3-5-5-4-3-3', 'x-3-5-5-5-3']);
  });

  it('leaves out the low string of seven', () => {
    assert.deepEqual(chosen('barre-chords', 'G', 'seven-string'), ['x-3-5-5-4-3-3']);
  });
});

describe('power-chords', () => {
  checkTable(
    'power-chords',
    `
    E5     022xxx
    F5     133xxx
    G5     355xxx
    A5     x022xx 577xxx
    B5     x244xx 799xxx
    C5     x355xx
    D5     xx023x x577xx
    Am     x022xx 577xxx
    G7     355xxx
  `,
  );

  it('lie under one finger in drop-d', () => {
    assert.deepEqual(chosen('power-chords', 'D5 | F5 | G5', 'drop-d'), ['0-0-0-x-x-x', '3-3-3-x-x-x', '5-5-5-x-x-x']);
  });
});
