/** Contours over chords: the fret of every note, as found on a fretboard chart by hand. */
import assert from 'node:assert/strict';
import type { Contour } from '../../server/src/lesson/lesson.ts';
import { RealiseCache, realiseSection } from '../../server/src/realise/realise.ts';
import type { ContourOutcome } from '../../server/src/realise/score.ts';
import { formatPitch } from '../../server/src/theory/note.ts';
import { contourOf, instrument, key, planOf, settingsOf } from '../support/plan.ts';

function sing(chord: string, frets: string, contour: Contour, inKey = 'C major'): ContourOutcome {
  const plan = planOf(`${chord} as ${frets}`, { contour, key: inKey });
  return realiseSection(plan, settingsOf(), new RealiseCache()).bars[0].chords[0].contour!;
}

const on = (voice: Contour['voice'], starts: string, notes: string, more: Partial<Contour> = {}): Contour =>
  contourOf(voice, '1/16', starts, notes, more);

describe('a contour', () => {
  it('counts its steps from the start', () => {
    assert.deepEqual(sing('C', 'x32010', on(2, 'R', '0 +1 +2 -1')).frets, [1, 3, 5, 0]);
  });

  it('bends a step by a semitone', () => {
    assert.deepEqual(sing('C', 'x32010', on(2, 'R', '+1b +1 +1#')).frets, [2, 3, 4]);
  });

  it('goes to the nearest bare tone', () => {
    // From C at 1 on the second string E lies at 5, and from there G at 8.
    assert.deepEqual(sing('C', 'x32010', on(2, 'R', '0 3 5')).frets, [1, 5, 8]);
  });

  it('replaces the scale’s note by the chord’s own', () => {
    // Over E7 in A minor the third is G#: a step below A at 5 on the first string is G# at 4, not G at 3.
    assert.deepEqual(sing('E7', '020100', on(1, '3', '0 +1'), 'A minor').frets, [4, 5]);
  });

  it('follows a scale of its own', () => {
    // In G major the step above E is F#, at 2; the lesson's own key would have F, at 1.
    assert.deepEqual(sing('C', 'x32010', on(1, '3', '0 +1')).frets, [0, 1]);
    assert.deepEqual(sing('C', 'x32010', on(1, '3', '0 +1', { scale: key('G major') })).frets, [0, 2]);
  });

  it('takes the octave nearest to the shape', () => {
    assert.deepEqual(sing('Am', '577555', on(1, 'R', '0')).frets, [5]);
    assert.deepEqual(sing('Am', '577555', on(1, '5', '0')).frets, [0]);
    assert.deepEqual(sing('Am', 'x-x-10-9-10-x', on(1, 'R', '0')).frets, [5]);
  });

  it('takes the open string where it is the tone, as long as the hand has the other notes too', () => {
    // E is the open first string, and at 12 a fret above the hand.
    assert.deepEqual(sing('Am', 'x-x-10-9-10-x', on(1, '5', '0 0')).frets, [0, 0]);
    assert.deepEqual(sing('Am', 'x-x-10-9-10-x', on(1, '5', '0 +1')).frets, [12, 13]);
  });

  it('takes another octave where a step would leave the neck', () => {
    // E is the open first string; a step below it there is none, so the contour lies at fret 12.
    assert.deepEqual(sing('Em', '022000', on(1, 'R', '0 -1'), 'E minor').frets, [12, 10]);
  });

  it('takes the next start where the chord has no such tone', () => {
    const outcome = sing('C', 'x32010', on(1, '7 or 3', '0'));
    assert.deepEqual([outcome.start, outcome.frets], [1, [0]]);
  });

  it('takes a tone of the key where the chord has none of its starts', () => {
    const outcome = sing('C', 'x32010', on(2, '9', '0'));
    assert.deepEqual([outcome.start, outcome.frets], [0, [3]]);
  });

  it('says which note lies nowhere on the string', () => {
    const outcome = sing('C', 'x32010', on(1, 'R', '0 +20'));
    assert.equal(outcome.unreachable, 1);
  });

  it('follows the top and the bass of the voicing', () => {
    assert.deepEqual(sing('D', 'xx0232', on('top', '3', '0 +1'), 'D major').string, 1);
    assert.deepEqual(sing('D', 'xx0232', on('bass', 'R', '0 +1'), 'D major'), {
      start: 0,
      string: 4,
      frets: [0, 2],
      cut: 0,
    });
  });

  it('keeps its shape in the names of the capo, and sounds higher', () => {
    const plan = planOf('G as 320003', { contour: on(1, 'R', '0 -1') });
    const capo = settingsOf({ instrument: instrument('standard', { fret: 3 }) });
    const bar = realiseSection(plan, capo, new RealiseCache()).bars[0];
    assert.deepEqual(bar.chords[0].contour?.frets, [3, 2]);
    const melody = bar.events.filter(({ voice }) => voice === 'melody');
    assert.deepEqual(
      melody.map(({ shapePitch, pitch }) => `${formatPitch(shapePitch)} sounds ${formatPitch(pitch)}`),
      ['G4 sounds Bb4', 'F#4 sounds A4'],
    );
  });
});
