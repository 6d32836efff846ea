/** Capos, pitches and millimetres. Expected places come from the rule of the monochord: half a string sounds the octave. */
import assert from 'node:assert/strict';
import { fingertipPart, HIGHEST_FRET, wirePart } from '../../server/src/fretboard/fret-positions.ts';
import {
  instrumentWith,
  midiAt,
  millimetresAt,
  neckFret,
  nutFret,
  openMidi,
  stringCount,
  stringSpacingAt,
  topFret,
} from '../../server/src/fretboard/instrument.ts';
import type { Capo, Instrument } from '../../server/src/fretboard/instrument.ts';
import { tuningNamed } from '../../server/src/fretboard/tuning.ts';

const guitar = (capo?: Capo, tuning = 'standard'): Instrument =>
  instrumentWith(tuningNamed(tuning) ?? assert.fail(tuning), { capo });
const close = (actual: number, expected: number): void =>
  assert.ok(Math.abs(actual - expected) < 1e-9, `${actual} is not ${expected}`);

describe('fret positions', () => {
  it('lie where equal temperament puts them', () => {
    for (let fret = 0; fret <= HIGHEST_FRET; fret++) close(wirePart(fret), 1 - Math.pow(2, -fret / 12));
  });

  it('halve the string at fret 12 and quarter it at fret 24', () => {
    assert.deepEqual([wirePart(0), wirePart(12), wirePart(24), wirePart(36)], [0, 0.5, 0.75, 0.875]);
  });

  it('put the fingertip a quarter of the fret behind its wire', () => {
    for (let fret = 1; fret <= HIGHEST_FRET; fret++) {
      close(fingertipPart(fret), wirePart(fret) - (wirePart(fret) - wirePart(fret - 1)) / 4);
    }
    assert.equal(fingertipPart(0), 0);
  });

  it('answer whatever they are asked', () => {
    for (const fret of [-1, NaN, Infinity, 99, 1.5]) assert.ok(Number.isFinite(wirePart(fret)));
  });
});

describe('an instrument', () => {
  it('counts strings from the highest', () => {
    assert.deepEqual([openMidi(guitar(), 1), openMidi(guitar(), 6)], [64, 40]);
    assert.equal(stringCount(guitar()), 6);
    assert.equal(midiAt(guitar(), 2, 1), 60, 'C4 on the second string');
    assert.ok(Number.isNaN(midiAt(guitar(), 7, 0)), 'a string it lacks');
  });

  it('has a usual neck for its kind', () => {
    assert.deepEqual(
      ['standard', 'bass', 'ukulele', 'baritone-ukulele'].map((name) => guitar(undefined, name).frets),
      [20, 20, 15, 15],
    );
    assert.equal(instrumentWith(tuningNamed('standard') ?? assert.fail(), { frets: 24, scaleLength: 628 }).frets, 24);
  });

  it('sounds higher behind a full capo and loses frets by it', () => {
    const raised = guitar({ fret: 3 });
    assert.equal(openMidi(raised, 6), 43);
    assert.equal(midiAt(raised, 6, 2), 45);
    assert.equal(topFret(raised, 1), 17);
    assert.equal(nutFret(raised), 3);
  });

  it('counts frets from the nut on strings that a partial capo leaves free', () => {
    const partial = guitar({ fret: 2, strings: [5, 4, 3] });
    assert.deepEqual(
      [6, 5, 4, 3, 2, 1].map((string) => openMidi(partial, string)),
      [40, 47, 52, 57, 59, 64],
    );
    assert.deepEqual([topFret(partial, 6), topFret(partial, 5)], [20, 18]);
    assert.deepEqual([neckFret(partial, 6, 4), neckFret(partial, 5, 2)], [4, 4]);
    assert.equal(nutFret(partial), 0);
    assert.equal(nutFret(guitar({ fret: 2, strings: [6, 5, 4, 3, 2, 1] })), 2, 'all strings named one by one');
  });

  it('keeps a capo at the end of the neck within it', () => {
    assert.equal(topFret(guitar({ fret: 25 }), 1), 0);
  });

  it('measures in mm from the nut', () => {
    assert.equal(millimetresAt(guitar(), 1, 0), 0);
    close(millimetresAt(guitar(), 1, 12), 324 - (324 - 648 * wirePart(11)) / 4);
    assert.equal(millimetresAt(guitar({ fret: 12 }), 1, 0), 324, 'a capo at the twelfth fret lies at half the string');
    close(millimetresAt(guitar({ fret: 5 }), 1, 7), millimetresAt(guitar(), 1, 12));
  });

  it('spreads its strings from 7.2 mm at the nut to 10.4 mm at the bridge', () => {
    assert.equal(stringSpacingAt(guitar(), 0), 7.2);
    close(stringSpacingAt(guitar(), 324), 8.8);
    close(stringSpacingAt(guitar(), 648), 10.4);
  });
});
