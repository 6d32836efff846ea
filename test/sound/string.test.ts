/** What a plucked string does: partials, takeovers, damping, and what the fretting hand makes of it. */
import assert from 'node:assert/strict';
import { TOUCH_SECONDS } from '../../server/src/sound/string.ts';
import type { SoundNote } from '../../server/src/sound/timeline.ts';
import { cents, pitchOf, strengthAt } from './pitch-meter.ts';
import { heard, loudest, note, oneNote, RATE, steepest, timeline } from './plucked.ts';

const hertzOf = (midi: number): number => 440 * Math.pow(2, (midi - 69) / 12);
const at = (seconds: number): number => Math.round(seconds * RATE);

/** Decibels between two strengths. */
const decibels = (one: number, other: number): number => 20 * Math.log10(one / other);

/** String 1 alone, with what is played on it. */
const string1 = (notes: readonly (Partial<SoundNote> & Pick<SoundNote, 'at' | 'midi'>)[], seconds = 2): Float32Array =>
  heard(
    timeline(
      notes.map((one) => note({ string: 1, until: seconds, ...one })),
      seconds,
    ),
  ).left;

describe('the partials of a string', () => {
  it('die sooner the higher they are', () => {
    for (const midi of [40, 52, 64]) {
      const samples = oneNote(midi, 1.6, { place: 0.11, scrape: 0 });
      const lost = [1, 2, 4, 8].map((partial) => {
        const frequency = partial * hertzOf(midi);
        const early = strengthAt(samples, RATE, at(0.05), 0.4, frequency);
        return decibels(early, strengthAt(samples, RATE, at(1.05), 0.4, frequency));
      });
      for (let index = 1; index < lost.length; index++) assert.ok(lost[index] > lost[index - 1], lost.join(' '));
    }
  });

  it('die sooner on a high string than on a low one', () => {
    const lost = [40, 52, 64, 76].map((midi) => {
      const samples = oneNote(midi, 1.6);
      const early = strengthAt(samples, RATE, at(0.05), 0.4, hertzOf(midi));
      return decibels(early, strengthAt(samples, RATE, at(1.05), 0.4, hertzOf(midi)));
    });
    for (let index = 1; index < lost.length; index++) assert.ok(lost[index] > lost[index - 1], lost.join(' '));
  });

  // A string cannot move at a node of one of its modes: plucked at a fifth of its length, it lacks every fifth partial.
  for (const parts of [3, 4, 5]) {
    it(`lack the ${parts}th where it is plucked at a ${parts}th of its length`, () => {
      const samples = oneNote(45, 0.7, { place: 1 / parts, scrape: 0 });
      const strength = [-1, 0, 1].map((beside) =>
        strengthAt(samples, RATE, at(0.05), 0.5, (parts + beside) * hertzOf(45)),
      );
      assert.ok(decibels(strength[0], strength[1]) > 30 && decibels(strength[2], strength[1]) > 30, `${strength}`);
    });
  }

  it('are those of the touched node alone in a harmonic', () => {
    for (const partial of [2, 3, 4]) {
      const samples = oneNote(45, 0.7, { partial, scrape: 0, place: 0.13 });
      const own = strengthAt(samples, RATE, at(0.1), 0.5, partial * hertzOf(45));
      const others = [1, partial + 1].map((other) => strengthAt(samples, RATE, at(0.1), 0.5, other * hertzOf(45)));
      for (const other of others) assert.ok(decibels(own, other) > 40, `${partial}: ${own} ${others}`);
    }
  });
});

describe('a string that is taken over', () => {
  it('goes from one pluck to the next without a click', () => {
    // At moments that fall everywhere in the period.
    for (const moment of [0.4, 0.4013, 0.4027, 0.4039]) {
      const samples = string1([
        { at: 0, midi: 64 },
        { at: moment, midi: 67 },
      ]);
      const ringing = steepest(samples, at(moment - 0.05), at(moment));
      const fading = steepest(samples, at(moment), at(moment + TOUCH_SECONDS) - 2);
      assert.ok(fading <= ringing, `${fading} after ${ringing}`);
      const pluck = steepest(samples, 1, at(0.02));
      assert.ok(steepest(samples, at(moment), at(moment + 0.02)) <= pluck * 1.25);
      // For the blink of an eye the finger holds it: nothing of the old note is in the new one.
      assert.ok(loudest(samples, at(moment + TOUCH_SECONDS) - 4, at(moment + TOUCH_SECONDS) + 1) < 0.02);
    }
  });

  it('is damped without a click', () => {
    const samples = string1([{ at: 0, midi: 52, until: 0.5 }]);
    assert.ok(steepest(samples, at(0.5), at(0.7)) <= steepest(samples, at(0.4), at(0.5)));
    assert.ok(loudest(samples, at(0.75), at(0.8)) < 0.01);
  });

  it('has the pitch of the new note', () => {
    const samples = string1([
      { at: 0, midi: 64 },
      { at: 0.3, midi: 71 },
    ]);
    assert.ok(Math.abs(cents(pitchOf(samples, RATE, at(0.35), 1), hertzOf(71))) < 2);
  });

  it('plays the last of plucks that come faster than a finger lets go, and none of them clips', () => {
    const plucks = Array.from({ length: 200 }, (_, index) => ({ at: index / 2000, midi: 60 + (index % 12) }));
    const samples = string1(plucks);
    assert.ok(loudest(samples) < 1);
    assert.ok(Math.abs(cents(pitchOf(samples, RATE, at(0.2), 1), hertzOf(60 + (199 % 12)))) < 2);
  });
});

describe('damping', () => {
  const left = (damping: SoundNote['damping']): number => {
    const samples = string1([{ at: 0, midi: 52, damping }]);
    return decibels(loudest(samples, at(0.3), at(0.35)), loudest(samples, 0, at(0.1)));
  };

  it('by the palm leaves a short dark note, by a finger laid across it hardly any', () => {
    const [none, palm, dead] = [left('none'), left('palm'), left('dead')];
    assert.ok(none > -15 && palm < none - 15 && palm > -60 && dead < -60, `${none} ${palm} ${dead}`);
  });

  it('by the palm keeps the pitch', () => {
    const samples = string1([{ at: 0, midi: 52, damping: 'palm' }]);
    assert.ok(Math.abs(cents(pitchOf(samples, RATE, at(0.02), 0.25), hertzOf(52))) < 2);
  });
});

describe('the fretting hand', () => {
  it('hammers on more softly than the plectrum plucks, and to the right pitch', () => {
    const hammered = string1([
      { at: 0, midi: 64 },
      { at: 0.4, midi: 66, touch: 'hammer' },
    ]);
    const plucked = string1([
      { at: 0, midi: 64 },
      { at: 0.4, midi: 66 },
    ]);
    assert.ok(steepest(hammered, at(0.4), at(0.45)) < 0.6 * steepest(plucked, at(0.4), at(0.45)));
    assert.ok(Math.abs(cents(pitchOf(hammered, RATE, at(0.45), 1), hertzOf(66))) < 2);
  });

  it('pulls off to a string that goes on sounding', () => {
    const samples = string1([
      { at: 0, midi: 67 },
      { at: 0.4, midi: 64, touch: 'pull' },
    ]);
    assert.ok(Math.abs(cents(pitchOf(samples, RATE, at(0.45), 1), hertzOf(64))) < 2);
  });

  it('slides through what lies between, and arrives in time', () => {
    const samples = string1([
      { at: 0, midi: 64 },
      { at: 0.6, midi: 69, touch: 'slide', from: 64 },
    ]);
    const heardAt = (from: number): number => pitchOf(samples, RATE, at(from), 0.12);
    assert.ok(Math.abs(cents(heardAt(0.3), hertzOf(64))) < 5);
    assert.ok(Math.abs(cents(heardAt(0.62), hertzOf(69))) < 5);
    const between = pitchOf(samples, RATE, at(0.515), 0.04);
    assert.ok(between > hertzOf(64.5) && between < hertzOf(68.5), `${between}`);
    assert.ok(steepest(samples, at(0.45), at(0.65)) < 0.7 * steepest(samples, 1, at(0.02)));
  });

  it('bends up a whole tone and lets it down again', () => {
    const bend = { semitones: 2, before: false, release: true };
    const samples = string1([{ at: 0, midi: 62, bend }]);
    const heardAt = (from: number, seconds: number): number => pitchOf(samples, RATE, at(from), seconds);
    assert.ok(Math.abs(cents(heardAt(0.35, 0.5), hertzOf(64))) < 2);
    assert.ok(Math.abs(cents(heardAt(1.4, 0.5), hertzOf(62))) < 2);
  });

  it('plucks a string that is bent before', () => {
    const bend = { semitones: 1, before: true, release: false };
    const samples = string1([{ at: 0, midi: 62, bend }]);
    assert.ok(Math.abs(cents(pitchOf(samples, RATE, at(0.05), 1), hertzOf(63))) < 2);
  });

  it('shakes a note upwards by less than a quarter tone', () => {
    const samples = string1([{ at: 0, midi: 62, vibrato: true }]);
    const off = cents(pitchOf(samples, RATE, at(0.5), 1), hertzOf(62));
    assert.ok(off > 5 && off < 35, `${off}`);
  });
});

describe('a chord of six strings at full force', () => {
  const frets = [0, 0, 1, 2, 2, 0];
  const chord = [64, 59, 55, 50, 45, 40].map((open, index) =>
    note({ string: index + 1, at: 0, midi: open + frets[index], force: 1, rings: true }),
  );

  it('is nowhere beyond what a loudspeaker takes, however often it is struck', () => {
    const again = Array.from({ length: 16 }, (_, index) => chord.map((one) => ({ ...one, at: index / 8 }))).flat();
    for (const { left, right } of [heard(timeline(chord, 1)), heard(timeline(again, 3))]) {
      assert.ok(loudest(left) < 1 && loudest(right) < 1);
      assert.ok(loudest(left) > 0.4, 'it is loud');
    }
  });

  it('has no steady part, rings on for some seconds, and ends in silence', () => {
    const { left } = heard(timeline(chord, 1));
    const mean = left.reduce((sum, value) => sum + value, 0) / left.length;
    assert.ok(Math.abs(mean) < 1e-4, `${mean}`);
    assert.ok(loudest(left, at(3), at(3.1)) > 0.02);
    assert.ok(left.length < at(8));
    assert.ok(loudest(left, left.length - at(0.05)) < 1 / 32_768);
  });

  it('is a little to the left for low strings and to the right for high ones', () => {
    const side = (string: number): number => {
      const { left, right } = heard(timeline([note({ string, at: 0, midi: 64 })], 1));
      return decibels(loudest(right), loudest(left));
    };
    assert.ok(side(1) > 1 && side(1) < 6, `${side(1)}`);
    assert.ok(side(6) < -1 && side(6) > -6, `${side(6)}`);
  });
});
