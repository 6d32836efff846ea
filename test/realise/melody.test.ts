/** The melody of a contour as the hand has it while it holds the chord: fingers, ways, what is lost, and where it lies. */
import assert from 'node:assert/strict';
import type { Contour, SectionPlan } from '../../server/src/lesson/lesson.ts';
import { RealiseCache, realiseSection } from '../../server/src/realise/realise.ts';
import type { BarScore, NoteEvent } from '../../server/src/realise/score.ts';
import { cellOf, contourOf, fretsOf, planOf, settingsOf, shapeOf } from '../support/plan.ts';

const play = (plan: SectionPlan, level?: number): readonly BarScore[] =>
  realiseSection(plan, settingsOf(level === undefined ? {} : { level }), new RealiseCache()).bars;

const FINGERS = ['open', 'index', 'middle', 'ring', 'little'];

/** `ring 10 already there, index 8 flatten (ring lifted)`. */
function sung({ events }: BarScore): string {
  const told = ({ fret, finger, how }: NoteEvent): string => {
    const lifted = how && how.lifted.length > 0 ? ` (${how.lifted.map((each) => FINGERS[each]).join(' ')} lifted)` : '';
    const lost = how && how.lost.length > 0 ? ` (${how.lost.join(' ')} lost)` : '';
    return `${finger === undefined ? 'nobody' : FINGERS[finger]} ${fret} ${how?.way ?? 'never'}${lifted}${lost}`;
  };
  return events
    .filter(({ voice }) => voice === 'melody')
    .map(told)
    .join(', ');
}

describe('a melody in the hand', () => {
  const lamp = {
    rule: shapeOf('strings 4 2 1', 'tones 3 R 5', 'open 3', 'frets 1 to 12', 'reach 2'),
    cell: cellOf('each 1/8', 'p4 i3 m2 i3 m2 i3'),
    meter: '3/4',
  };

  it('of Harbour lamps: the index lies flat over G and D, the little finger lifts over Em and Am', () => {
    const bars = play(planOf('G | D | Em | Am', { ...lamp, contour: contourOf(1, '1/4', '5', '0 -1 0') }));
    assert.deepEqual(bars.map(sung), [
      'ring 10 already there, index 8 flatten (ring lifted), ring 10 already there',
      'ring 5 already there, index 3 flatten (ring lifted), ring 5 already there',
      'little 7 already there, ring 5 lift (little lifted), little 7 already there',
      'little 12 already there, ring 10 lift (little lifted), little 12 already there',
    ]);
    for (const { chords } of bars) assert.equal(chords[0].contour?.reach, undefined);
  });

  it('a step above over D lies at the edge of reach, from the index at 3 to the little finger at 7', () => {
    const bars = play(planOf('G | D | Em | Am', { ...lamp, contour: contourOf(1, '1/4', '5', '0 +1 -1') }));
    const { reach } = bars[1].chords[0].contour ?? {};
    assert.deepEqual(
      [reach?.zone, reach?.fret, reach?.pair?.fingers, reach?.pair?.frets],
      ['extreme', 7, [1, 4], [3, 7]],
    );
    assert.equal(Math.round(reach?.pair?.millimetres ?? 0), 114);
  });

  /** Over exact frets, eighths on the strings named. */
  const over = (chord: string, frets: string, cell: string, contour: Contour, key = 'C major'): BarScore =>
    play(planOf(`${chord} as ${frets}`, { cell: cellOf('each 1/8', cell), contour, key }))[0];

  it('takes fingers that leave room for it: A with the first finger free for B flat', () => {
    // The usual three fingers of an open A leave the little one for the step above C sharp, as D at fret 3.
    const bar = over('A', 'x02220', 'p5 i3 m2 i3', contourOf(2, '1/4', '3', '0 +1'), 'D major');
    assert.equal(sung(bar), 'ring 2 already there, little 3 free finger');
  });

  it('does not stop a string that is plucked again, and says which one it stops if none is', () => {
    // An open C7 takes all four fingers; G on the first string needs one of them, and the ring finger holds the fifth.
    const contour = contourOf(1, '1/1', '5', '0');
    const held = over('C7', 'x32310', 'p5 i4 m3 a2', contour, 'F major');
    assert.equal(sung(held), 'nobody 3 never');
    const free = over('C7', 'x32310', 'p4 i3 m2 i3', contour, 'F major');
    assert.match(sung(free), / 3 release .*\(5 lost\)$/);
  });

  it('goes on to the next start where the hand cannot keep it from the first, or only just', () => {
    const bar = over('C', 'x32010', 'p5 i3 m2 i3', contourOf(1, '1/4', '5 or 3', '0 +1'));
    assert.deepEqual([bar.chords[0].contour?.start, bar.chords[0].contour?.frets], [1, [0, 1]]);
  });

  it('names the first note that is out of reach, why, and a start that would do', () => {
    const bar = over('C', 'x32010', 'p5 i3 m2 i3', contourOf(1, '1/4', 'R', '0 +1'));
    const { missed } = bar.chords[0].contour ?? {};
    assert.deepEqual([missed?.note, missed?.string, missed?.fret, missed?.why.reason], [0, 1, 8, 'too-far']);
    assert.deepEqual(missed?.instead, { kind: 'start', tone: '3' });
    assert.equal(sung(bar), 'nobody 8 never, nobody 10 never');
  });

  it('chooses among voicings the one over which it lies well', () => {
    // C E G on the middle strings lies at frets 5 and 12 or so; the melody on string 1 wants the hand beside it.
    const rule = shapeOf('strings 4 3 2', 'spacing close', 'frets 1 to 15');
    const contour = contourOf(1, '1/4', '5', '0 +1 0 -1');
    const [bar] = play(planOf('C', { rule, contour, cell: cellOf('each 1/8', 'p4 i3 m2 i3'), key: 'C major' }));
    assert.equal(bar.chords[0].contour?.missed, undefined, fretsOf(bar));
    assert.ok(bar.events.every(({ finger }) => finger !== undefined));
  });
});

describe('a change in a section', () => {
  it('is told of every shape but the first, with what the tightest finger has', () => {
    const cell = cellOf('each 1/8', 'p(bass) i3 m2 i3 a1 i3 m2 i3');
    const bars = play(planOf('C as x32010 | C as x32010 | Am as x02210', { cell, key: 'C major' }));
    const changes = bars.map(({ chords }) => chords[0].change);
    assert.equal(changes[0], undefined);
    assert.deepEqual([changes[1]?.pace, changes[1]?.moved], ['easy', []]);
    // The ring finger is heard on the bass of C at the beginning of its bar and wanted on the third string an eighth into the next.
    const eighth = 60_000_000 / settingsOf().tempo.perMinute / 2;
    assert.deepEqual([changes[2]?.moved, changes[2]?.tightest?.finger], [[3], 3]);
    assert.equal(changes[2]?.tightest?.available, Math.round(9 * eighth));
  });

  it('is harder for a beginner', () => {
    const cell = cellOf('each 1/8', 'p(bass) i3 m2 i3 a1 i3 m2 i3');
    const need = (level: number): number =>
      play(planOf('C as x32010 | G as 320003', { cell, key: 'C major' }), level)[1].chords[0].change?.need ?? 0;
    assert.ok(need(1) > need(3) && need(3) > need(5));
  });
});
