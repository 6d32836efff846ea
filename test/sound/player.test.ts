/** The player: from any place, round and round, counted in, faster and slower, and stopped without a click. */
import assert from 'node:assert/strict';
import { createHash } from 'node:crypto';
import { renditionOf } from '../../server/src/sound/rendition.ts';
import { FADE_SECONDS, Player } from '../../server/src/sound/player.ts';
import type { SoundTimeline } from '../../server/src/sound/timeline.ts';
import { cents, pitchOf } from './pitch-meter.ts';
import { heard, loudest, note, RATE, steepest, timeline } from './plucked.ts';

const at = (seconds: number): number => Math.round(seconds * RATE);
const hertzOf = (midi: number): number => 440 * Math.pow(2, (midi - 69) / 12);

/** A bar of four quarters, half a second each: E4 F4 G4 A4 on string 1, over an open string 6. */
const BAR = timeline(
  [
    note({ string: 6, midi: 40, at: 0, until: 2, fretted: false }),
    ...[64, 65, 67, 69].map((midi, index) =>
      note({ string: 1, midi, at: index / 2, until: (index + 1) / 2, fretted: index > 0 }),
    ),
  ],
  2,
  { beats: [0, 0.5, 1, 1.5].map((moment) => ({ at: moment, first: moment === 0 })) },
);

class Listening {
  readonly player = new Player(RATE);
  private readonly heard: number[] = [];

  constructor(played: SoundTimeline, speed = 1) {
    this.player.load(renditionOf(played, speed));
  }

  /** In blocks as an audio thread asks for them. */
  listen(seconds: number): Float32Array {
    const left = new Float32Array(128);
    const right = new Float32Array(128);
    const before = this.heard.length;
    while (this.heard.length - before < at(seconds)) {
      this.player.render(left, right, 0, 128);
      this.heard.push(...left);
    }
    return Float32Array.from(this.heard.slice(before));
  }

  get all(): Float32Array {
    return Float32Array.from(this.heard);
  }
}

const isPitch = (samples: Float32Array, from: number, seconds: number, midi: number): void => {
  const off = cents(pitchOf(samples, RATE, at(from), seconds), hertzOf(midi));
  assert.ok(Math.abs(off) < 4, `${off} cents from ${midi}`);
};

const line = { ...BAR, notes: BAR.notes.filter(({ string }) => string === 1) };

describe('the player', () => {
  it('is silent until it is started', () => {
    const listening = new Listening(BAR);
    assert.equal(loudest(listening.listen(0.2)), 0);
  });

  it('plays each note at its time, and then ends', () => {
    const listening = new Listening(line);
    listening.player.start({ at: 0, countIn: [] });
    const samples = listening.listen(9);
    for (const [index, midi] of [64, 65, 67, 69].entries()) isPitch(samples, index / 2 + 0.05, 0.4, midi);
    assert.ok(!listening.player.isPlaying);
    assert.equal(loudest(samples, at(8.5)), 0);
  });

  it('begins where it is told to, without what came before', () => {
    const listening = new Listening(line);
    listening.player.start({ at: 1, countIn: [] });
    isPitch(listening.listen(0.6), 0.05, 0.4, 67);
  });

  it('plays slower without playing lower', () => {
    const listening = new Listening(line, 0.5);
    listening.player.start({ at: 0, countIn: [] });
    const samples = listening.listen(4);
    for (const [index, midi] of [64, 65, 67, 69].entries()) isPitch(samples, index + 0.05, 0.9, midi);
  });

  it('takes another tempo while it plays, and goes on from where it is', () => {
    const listening = new Listening(line);
    listening.player.start({ at: 0, countIn: [] });
    const before = listening.listen(0.75);
    listening.player.load(renditionOf(line, 0.5));
    // The second note has a quarter of a second of the timeline left: half a second now.
    const after = listening.listen(2);
    isPitch(after, 0.6, 0.8, 67);
    assert.ok(steepest(listening.all, before.length - 2, before.length + 200) < 0.1);
  });

  it('counts in before it begins', () => {
    const countIn = [-2, -1.5, -1, -0.5].map((moment) => ({ at: moment, first: moment === -2 }));
    const listening = new Listening(line);
    listening.player.start({ at: 0, countIn });
    const samples = listening.listen(2.6);
    for (const click of [0, 0.5, 1, 1.5]) {
      assert.ok(loudest(samples, at(click), at(click + 0.02)) > 0.05, `${click}`);
      assert.ok(loudest(samples, at(click + 0.2), at(click + 0.49)) < 1e-4, `${click}`);
    }
    isPitch(samples, 2.05, 0.4, 64);
  });

  it('clicks on the beats where that is wanted', () => {
    const bare = { ...BAR, notes: [] };
    const listening = new Listening(bare);
    listening.player.metronome = true;
    listening.player.start({ at: 0, countIn: [] });
    const samples = listening.listen(2);
    for (const beat of [0, 0.5, 1, 1.5]) assert.ok(loudest(samples, at(beat), at(beat + 0.02)) > 0.05);
    assert.ok(loudest(samples, at(0.2), at(0.49)) < 1e-4);
  });

  it('goes round without a click and without piling up', () => {
    const listening = new Listening(BAR);
    listening.player.round({ from: 1, to: 2 });
    listening.player.start({ at: 1, countIn: [] });
    const samples = listening.listen(6);
    const first = steepest(samples, 1, at(1));
    // Round by round; the moments around each seam by themselves.
    for (let round = 1; round < 6; round++) {
      assert.ok(steepest(samples, at(round - 0.003), at(round + 0.002)) <= first, `seam ${round}`);
      assert.ok(steepest(samples, at(round), at(round + 1)) <= first * 1.05, `round ${round}`);
      isPitch(samples.slice(at(round)), 0.06, 0.4, 67);
    }
  });

  it('stops within a few hundredths of a second, without a click', () => {
    for (const moment of [0.3, 0.3007, 0.7, 1.501]) {
      const listening = new Listening(BAR);
      listening.player.start({ at: 0, countIn: [] });
      const before = listening.listen(moment).length;
      listening.player.stop();
      listening.listen(0.1);
      const { all } = listening;
      assert.ok(steepest(all, before, all.length) <= steepest(all, before - at(0.05), before) * 1.1);
      assert.equal(loudest(all, before + at(FADE_SECONDS) + 128), 0);
      assert.ok(!listening.player.isPlaying);
    }
  });

  it('goes elsewhere after what sounds has faded', () => {
    const listening = new Listening(line);
    listening.player.start({ at: 0, countIn: [] });
    listening.listen(0.3);
    listening.player.start({ at: 1.5, countIn: [] });
    isPitch(listening.listen(0.6), 0.08, 0.4, 69);
  });

  it('plays nothing of an empty timeline, and ends', () => {
    const listening = new Listening(timeline([], 0));
    listening.player.start({ at: 0, countIn: [] });
    assert.equal(loudest(listening.listen(0.1)), 0);
    assert.ok(!listening.player.isPlaying);
  });

  it('gives the same samples however they are asked for', () => {
    const inBlocks = (size: number): string => {
      const player = new Player(RATE);
      player.load(renditionOf(BAR));
      player.start({ at: 0, countIn: [] });
      const hash = createHash('sha256');
      for (let done = 0; done < 2 * 44_032; done += size) {
        const left = new Float32Array(size);
        player.render(left, new Float32Array(size), 0, size);
        hash.update(left);
      }
      return hash.digest('hex');
    };
    assert.equal(inBlocks(128), inBlocks(44_032));
  });
});

describe('a rendition', () => {
  /** Struck, bent, damped, joined and touched: if one of these changes on purpose, this is renewed; it must be the same on every machine. */
  it('is the same to the last bit on every machine', () => {
    const everything = timeline(
      [
        ...BAR.notes,
        note({ string: 2, midi: 61, at: 0.2, bend: { semitones: 2, before: false, release: true } }),
        note({ string: 3, midi: 57, at: 0.3, vibrato: true }),
        note({ string: 4, midi: 52, at: 0.4, damping: 'palm' }),
        note({ string: 4, midi: 54, at: 1, touch: 'hammer' }),
        note({ string: 5, midi: 45, at: 0.5, partial: 3, rings: true }),
        note({ string: 3, midi: 59, at: 1.2, touch: 'slide', from: 57 }),
      ],
      2,
    );
    const { left, right } = heard(everything);
    const bytes = (samples: Float32Array): Int16Array =>
      Int16Array.from(samples, (value) => Math.round(value * 32_767));
    const hash = createHash('sha256').update(bytes(left)).update(bytes(right)).digest('hex').slice(0, 16);
    assert.equal(hash, '969093e82d7e65e8');
  });
});
