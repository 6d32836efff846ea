/** Every string and fret lies within two cents of its pitch, measured on the samples by a meter that is tried on sines first. */
import assert from 'node:assert/strict';
import type { Strike } from '../../server/src/sound/excitation.ts';
import { BASS, GUITAR, oneNote, RATE, UKULELE } from './plucked.ts';
import { cents, pitchOf } from './pitch-meter.ts';

/** Equal temperament from A4 at 440 Hz, by the library's own power. */
const hertzOf = (midi: number): number => 440 * Math.pow(2, (midi - 69) / 12);

const ALLOWED = 2;
/** Each string has a third of its frets in the quick suite, others than its neighbours have, and all of them in the slow one. */
const FRET_STEP = process.env.FUZZ_RUNS === undefined ? 3 : 1;
const HIGHEST_FRET = 20;
/** The first moments are the pluck's. */
const FROM = Math.round(0.03 * RATE);

const measured = (midi: number, strike: Partial<Strike> = {}, rate = RATE): number =>
  Math.abs(cents(pitchOf(oneNote(midi, 1.2, strike, rate), rate, FROM, 1.1), hertzOf(midi)));

function sines(frequency: number, partials: number, decay: number): Float32Array {
  const samples = new Float32Array(Math.round(1.3 * RATE));
  for (let index = 0; index < samples.length; index++) {
    const time = index / RATE;
    for (let partial = 1; partial <= partials; partial++) {
      const level = Math.exp(-decay * partial * time) / partial;
      samples[index] += 0.3 * level * Math.sin(2 * Math.PI * partial * frequency * time + partial);
    }
  }
  return samples;
}

describe('the pitch meter', () => {
  it('reads sines, and sums of dying sines, to a fiftieth of a cent', () => {
    for (const midi of [28, 33, 40, 52, 61.3, 69, 76.51, 89]) {
      for (const [partials, decay] of [
        [1, 0],
        [8, 0.5],
        [12, 3],
      ]) {
        const off = cents(pitchOf(sines(hertzOf(midi), partials, decay), RATE, FROM, 1.1), hertzOf(midi));
        assert.ok(Math.abs(off) < 0.02, `${midi}, ${partials} partials: ${off} cents`);
      }
    }
  });

  it('tells a string that is three cents off', () => {
    const off = cents(pitchOf(sines(hertzOf(40.03), 8, 1), RATE, FROM, 1.1), hertzOf(40));
    assert.ok(off > 2.95 && off < 3.05, `${off}`);
  });
});

describe('every string and fret', () => {
  for (const [name, strings] of Object.entries({ guitar: GUITAR, bass: BASS, ukulele: UKULELE })) {
    it(`of a ${name} lies within two cents`, function () {
      this.timeout(60_000);
      let worst = 0;
      for (const [index, open] of strings.entries()) {
        // Where it is plucked moves along what sounds as the string grows shorter.
        for (let fret = index % FRET_STEP; fret <= HIGHEST_FRET; fret += FRET_STEP) {
          const place = Math.min(0.5, 0.16 * Math.pow(2, fret / 12));
          worst = Math.max(worst, measured(open + fret, { place }));
        }
      }
      assert.ok(worst <= ALLOWED, `${worst} cents`);
    });
  }

  it('does so at 48 kHz too', () => {
    for (const midi of [28, 40, 64, 89]) assert.ok(measured(midi, {}, 48_000) <= ALLOWED);
  });

  it('keeps its pitch from the first tenths of a second to the last', () => {
    for (const midi of [28, 45, 64, 84]) {
      const samples = oneNote(midi, 1.3);
      for (const start of [0.03, 0.3, 0.75]) {
        const off = cents(pitchOf(samples, RATE, Math.round(start * RATE), 0.5), hertzOf(midi));
        assert.ok(Math.abs(off) <= ALLOWED, `${midi} at ${start}: ${off}`);
      }
    }
  });
});
