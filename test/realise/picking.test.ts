/** Cells laid over bars and chords: what is plucked when, read as a player would count it. */
import assert from 'node:assert/strict';
import { RealiseCache, realiseSection } from '../../server/src/realise/realise.ts';
import type { BarScore } from '../../server/src/realise/score.ts';
import { formatFraction } from '../../server/src/util/fraction.ts';
import { cellOf, contourOf, instrument, planOf, played, settingsOf, shapeOf, type Parts } from '../support/plan.ts';

/** Exact frets, so that only the right hand is asked about. */
const GRIPS = { G: '320003', C: 'x32010', D: 'xx0232', Em: '022000', Am: 'x02210' };

function play(progression: string, parts: Parts, tuning?: string): readonly BarScore[] {
  const settings = settingsOf(tuning ? { instrument: instrument(tuning) } : {});
  return realiseSection(planOf(progression, { grips: GRIPS, ...parts }), settings, new RealiseCache()).bars;
}

const lines = (bars: readonly BarScore[]): string[] => bars.map(played);
const rests = (bar: BarScore): string[] =>
  bar.rests.map(({ start, length }) => `${formatFraction(start)} for ${formatFraction(length)}`);

describe('a cell', () => {
  it('fills a bar of 3/4', () => {
    assert.deepEqual(lines(play('C', { cell: cellOf('each 1/8', 'p5 i3 m2 i3 m2 i3'), meter: '3/4' })), [
      '0 p5:3  1/8 i3:0  1/4 m2:1  3/8 i3:0  1/2 m2:1  5/8 i3:0',
    ]);
  });

  it('repeats where it goes into the bar: three eighths in 6/8', () => {
    assert.deepEqual(lines(play('C', { cell: cellOf('each 1/8', 'p5 i3 m2'), meter: '6/8' })), [
      '0 p5:3  1/8 i3:0  1/4 m2:1  3/8 p5:3  1/2 i3:0  5/8 m2:1',
    ]);
  });

  it('runs on over the bar line where it is two bars long', () => {
    const cell = cellOf('each 1/2', 'p(bass) i3 p(alt) m2');
    const bars = play('C | C | G', { cell });
    assert.deepEqual(lines(bars), ['0 p5:3  1/2 i3:0', '0 p4:2  1/2 m2:1', '0 p6:3  1/2 i3:0']);
    assert.ok(bars.every(({ cellMisfit }) => !cellMisfit));
  });

  it('carries on across the two chords of a bar', () => {
    assert.deepEqual(lines(play('C G', { cell: cellOf('each 1/4', 'p(bass) i3 p(alt) i3') })), [
      '0 p5:3  1/4 i3:0  1/2 p5:2  3/4 i3:0',
    ]);
  });

  it('gives way to a chord’s own cell, which starts with that chord', () => {
    const bars = play('C G with own', {
      cell: cellOf('each 1/4', 'p(bass) i3 m2 i3'),
      own: cellOf('each 1/4', 'p6 a1'),
    });
    assert.deepEqual(lines(bars), ['0 p5:3  1/4 i3:0  1/2 p6:3  3/4 a1:3']);
  });

  it('that does not go into the bar starts anew in each, and the bar says so', () => {
    const bars = play('C | C', { cell: cellOf('each 1/4', 'p5 i3 m2') });
    assert.deepEqual(lines(bars), ['0 p5:3  1/4 i3:0  1/2 m2:1  3/4 p5:3', '0 p5:3  1/4 i3:0  1/2 m2:1  3/4 p5:3']);
    assert.deepEqual(
      bars.map(({ cellMisfit }) => cellMisfit),
      [true, true],
    );
  });

  it('pinches, accents, and takes lengths of its own', () => {
    assert.deepEqual(lines(play('C', { cell: cellOf('each 1/4', 'p5+a1> i3 1/2 m2') })), [
      '0 p5:3> a1:0>  1/4 i3:0  3/4 m2:1',
    ]);
  });

  it('has three in the time of two', () => {
    const [bar] = play('C', { cell: cellOf('each 1/8 triplet', 'p5 i3 m2'), meter: '2/4' });
    assert.equal(played(bar), '0 p5:3  1/12 i3:0  1/6 m2:1  1/4 p5:3  1/3 i3:0  5/12 m2:1');
    assert.ok(bar.events.every(({ triplet }) => triplet));
  });

  it('is silent at a rest and goes on at a dash', () => {
    const [bar] = play('C', { cell: cellOf('each 1/4', 'p5 - r i3') });
    assert.equal(played(bar), '0 p5:3  3/4 i3:0');
    assert.deepEqual(rests(bar), ['1/2 for 1/4']);
    assert.deepEqual(
      bar.events.map(({ length, ringing }) => `${formatFraction(length)} ${formatFraction(ringing)}`),
      ['1/2 1/2', '1/4 1/4'],
    );
  });

  it('shows a dash at the start of a bar as nothing new', () => {
    assert.deepEqual(rests(play('C', { cell: cellOf('each 1/2', '- i3') })[0]), ['0 for 1/2']);
  });

  it('says which plucks find no string', () => {
    const [bar] = play('D', { cell: cellOf('each 1/4', 'p6 i3 p5 i3') });
    assert.equal(played(bar), '1/4 i3:2  3/4 i3:2');
    assert.deepEqual(bar.silentPlucks, [
      { cell: 0, note: 0, string: 6, chord: 0 },
      { cell: 0, note: 2, string: 5, chord: 0 },
    ]);
  });

  it('takes bass and top by what sounds on a ukulele with its high fourth string', () => {
    const bars = play('C as 0003', { cell: cellOf('each 1/4', 'p(bass) p(alt) a(top) i4') }, 'ukulele');
    // C4 on string 3 is the lowest, E4 on 2 the next, C5 on 1 the highest.
    assert.deepEqual(lines(bars), ['0 p3:0  1/4 p2:0  1/2 a1:3  3/4 i4:0']);
  });
});

describe('strokes', () => {
  it('run over every sounding string, or over those that they name', () => {
    assert.deepEqual(lines(play('C', { cell: cellOf('each 1/2', 'down up(1to3)') })), [
      '0 down5:3 down4:2 down3:0 down2:1 down1:0  1/2 up3:0 up2:1 up1:0',
    ]);
  });

  it('stop what sounds where they are muted', () => {
    const [bar] = play('D', { cell: cellOf('each 1/2', 'down mute') });
    assert.deepEqual(
      bar.events.map(({ stroke, ringing }) => `${stroke} ${formatFraction(ringing)}`),
      [...Array(4).fill('down 1/2'), ...Array(4).fill('mute 0')],
    );
  });

  it('are one stroke a chord where there is no cell, and where the chord is held', () => {
    assert.deepEqual(lines(play('D Em', {})), [
      '0 down4:0 down3:2 down2:3 down1:2  1/2 down6:0 down5:2 down4:2 down3:0 down2:0 down1:0',
    ]);
    assert.deepEqual(lines(play('D held', { cell: cellOf('each 1/4', 'p4 i3 m2 i3') })), [
      '0 down4:0 down3:2 down2:3 down1:2',
    ]);
  });
});

describe('a held chord', () => {
  it('rings on the free open strings that the cell would have plucked', () => {
    // A on strings 4, 3 and 2 is A C# E at 7 6 5, and the open first string is an E too.
    const parts = { rule: shapeOf('strings 4 3 2', 'tones R 3 5', 'open any', 'frets 0 to 12'), grips: {} };
    const lastOf = (cell: string): string => lines(play('A | A held', { ...parts, cell: cellOf('each 1/4', cell) }))[1];
    assert.equal(lastOf('p4 i3 m2 a1'), '0 down4:7 down3:6 down2:5 down1:0');
    assert.equal(lastOf('p4 i3 m2 i3'), '0 down4:7 down3:6 down2:5');
  });
});

describe('no chord', () => {
  it('is silence, and the cell is where it would have been', () => {
    const bars = play('C N.C. | C', { cell: cellOf('each 1/4', 'p5 i3 m2 i3') });
    assert.deepEqual(lines(bars), ['0 p5:3  1/4 i3:0', '0 p5:3  1/4 i3:0  1/2 m2:1  3/4 i3:0']);
    assert.deepEqual(rests(bars[0]), ['1/2 for 1/2']);
    assert.deepEqual(
      bars[0].events.map(({ ringing }) => formatFraction(ringing)),
      ['1/2', '1/4'],
    );
  });
});

describe('a pushed chord', () => {
  it('is struck an eighth early, in the bar before', () => {
    const bars = play('D | Em pushed', {});
    assert.deepEqual(lines(bars), [
      '0 down4:0 down3:2 down2:3 down1:2  7/8 down6:0 down5:2 down4:2 down3:0 down2:0 down1:0',
      '',
    ]);
    const pushed = bars[0].events.filter((event) => event.pushed);
    assert.equal(pushed.length, 6);
    assert.ok(pushed.every(({ chord, length }) => chord === 0 && formatFraction(length) === '1/8'));
    assert.ok(pushed.every(({ ringing }) => formatFraction(ringing) === '9/8'));
  });

  it('takes the cell’s first pluck ahead, and the old chord gives way', () => {
    const bars = play('C | G pushed', { cell: cellOf('each 1/4', 'p(bass) i3 m2 i3') });
    assert.deepEqual(lines(bars), ['0 p5:3  1/4 i3:0  1/2 m2:1  3/4 i3:0  7/8 p6:3', '1/4 i3:0  1/2 m2:0  3/4 i3:0']);
  });

  it('has nowhere to come from at the very start', () => {
    assert.deepEqual(lines(play('D pushed', {})), ['0 down4:0 down3:2 down2:3 down1:2']);
  });
});

describe('ringing', () => {
  it('lasts until the string is plucked again, and over a change only where the next shape leaves it alone', () => {
    const [first] = play('C | Em', { cell: cellOf('each 1/2', 'p5 i3') });
    // The fifth string is at 3 in C and plucked again in Em; the third is open in both, and plucked again at 3/2.
    assert.deepEqual(
      first.events.map(({ string, ringing }) => `${string} ${formatFraction(ringing)}`),
      ['5 1', '3 1'],
    );
    // C is x-3-2-0-1-0 and Em 0-2-2-0-0-0: the fourth string stays at 2, the third and the first stay open.
    const bars = play('C held | Em', { cell: cellOf('each 1/1', 'p6') });
    assert.deepEqual(
      bars[0].events.map(({ string, fret, ringing }) => `${string}:${fret} ${formatFraction(ringing)}`),
      ['5:3 1', '4:2 2', '3:0 2', '2:1 1', '1:0 2'],
    );
  });
});

describe('a melody over a cell', () => {
  const cell = cellOf('each 1/4', 'p4 a1 m2 a1');

  it('has its string: where both begin, and while it sounds', () => {
    const contour = contourOf(1, '1/2', 'R', '0 -1');
    // Over D the nearest root on the first string is D4 … at fret 10; a step below is C# at 9.
    const [bar] = play('D', { cell, contour, key: 'D major' });
    assert.equal(played(bar), '0 p4:0 ~a1:10  1/4 a1:10  1/2 m2:3 ~a1:9  3/4 a1:9');
  });

  it('rides the cell’s plucks of its string, and keeps its last note', () => {
    const contour = contourOf(1, undefined, '3', '0 +1 0');
    const [bar] = play('D', { cell, contour, key: 'D major' });
    assert.equal(played(bar), '0 p4:0  1/4 ~a1:2  1/2 m2:3  3/4 ~a1:3');
    assert.equal(bar.chords[0].contour?.cut, 1);
    assert.deepEqual(bar.chords[0].contour?.frets, [2, 3]);
  });

  it('starts anew with every chord, and is cut where the chord is too short', () => {
    const contour = contourOf(1, '1/4', '3 or R', '0 +1 0');
    const [bar] = play('D G', { contour, key: 'G major' });
    assert.deepEqual(
      bar.chords.map(({ contour: outcome }) => `${outcome!.frets.join(' ')}, ${outcome!.cut} cut`),
      ['2 3, 1 cut', '3 5, 1 cut'],
    );
  });

  it('names its finger where the author gives one', () => {
    const contour = contourOf(1, '1/1', '3', '0', { finger: 'm' });
    assert.equal(played(play('D', { cell, contour })[0]).split('  ')[0], '0 p4:0 ~m1:2');
  });
});
