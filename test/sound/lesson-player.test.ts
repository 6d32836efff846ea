/** The page's player, with a loudspeaker that is a player of our own and a clock that the test turns. */
import assert from 'node:assert/strict';
import type { Loudspeaker } from '../../client/media/loudspeaker.ts';
import { LessonPlayer, type HeardNow } from '../../client/media/player.ts';
import type { FromSound, ToSound } from '../../client/media/sound-messages.ts';
import { SoundingNow } from '../../client/media/sounding-now.ts';
import { Player } from '../../server/src/sound/player.ts';
import type { SoundBar, SoundTimeline } from '../../server/src/sound/timeline.ts';
import { loudest, note, RATE, steepest, timeline } from './plucked.ts';

const BLOCK = 441;

/** Does what the thread of the page does. */
class TestLoudspeaker implements Loudspeaker {
  readonly rate = RATE;
  readonly late = 0;
  readonly heard: number[] = [];
  volume = -1;
  isAwake = false;
  private readonly player = new Player(RATE);
  private run = 0;
  private wasPlaying = false;
  private tell: (message: FromSound) => void = () => {};

  say(message: ToSound): void {
    assert.ok(this.isAwake || message.kind === 'metronome', `${message.kind} is said to a loudspeaker at rest`);
    if (message.kind === 'load') this.player.load(message.rendition);
    else if (message.kind === 'loop') this.player.round(message.loop);
    else if (message.kind === 'metronome') this.player.metronome = message.isHeard;
    else if (message.kind === 'stop') this.player.stop();
    else {
      this.run = message.run;
      this.wasPlaying = true;
      this.player.start(message.start);
    }
  }

  listen(hear: (message: FromSound) => void): void {
    this.tell = hear;
  }

  loud(volume: number): void {
    this.volume = volume;
  }

  wake(): Promise<void> {
    this.isAwake = true;
    return Promise.resolve();
  }

  rest(): void {
    this.isAwake = false;
  }

  close(): void {
    this.rest();
  }

  /** Time goes on. */
  pass(seconds: number): void {
    const left = new Float32Array(BLOCK);
    for (let blocks = Math.round((seconds * RATE) / BLOCK); blocks > 0; blocks--) {
      this.player.render(left, new Float32Array(BLOCK), 0, BLOCK);
      this.heard.push(...left);
      if (this.player.isPlaying && !this.player.isLeaving)
        this.tell({ kind: 'position', run: this.run, seconds: this.player.position });
      else if (this.wasPlaying && !this.player.isPlaying) {
        this.wasPlaying = false;
        this.tell({ kind: 'ended', run: this.run });
      }
    }
  }
}

/** A bar of two seconds. */
const bar = (index: number, length = 2): SoundBar => ({
  at: index * length,
  seconds: length,
  section: 0,
  bar: index,
  number: index + 1,
  countIn: [0, 1].map((beat) => ({ at: index * length - length + (beat * length) / 2, first: beat === 0 })),
  start: 0,
  end: 0,
});

/** Four bars, each with two notes on string 1 and one that is held on string 6. */
const lesson = (length = 2): SoundTimeline =>
  timeline(
    [0, 1, 2, 3].flatMap((index) => {
      const at = index * length;
      return [
        note({ at, until: at + length, string: 6, midi: 40 + index }),
        note({ at, until: at + length / 2, string: 1, midi: 64 + index }),
        note({ at: at + length / 2, until: at + length * 0.75, string: 1, midi: 70 + index }),
      ];
    }),
    4 * length,
    {
      bars: [0, 1, 2, 3].map((index) => bar(index, length)),
      beats: [0, 1, 2, 3, 4, 5, 6, 7].map((beat) => ({ at: (beat * length) / 2, first: beat % 2 === 0 })),
    },
  );

const words = ({ notes }: HeardNow): string => notes.map(({ string, midi }) => `${string}:${midi}`).join(' ');

class Page {
  readonly speaker = new TestLoudspeaker();
  opened = 0;
  readonly told: string[] = [];
  readonly player = new LessonPlayer(
    () => {
      this.opened++;
      return Promise.resolve(this.speaker);
    },
    (now) => {
      const said = now.isPlaying ? (now.isCountedIn ? 'counted in' : `bar ${now.index}: ${words(now)}`) : 'silent';
      if (said !== this.told[this.told.length - 1]) this.told.push(said);
    },
  );

  constructor(played = lesson()) {
    this.player.load(played);
  }
}

describe('the player of the page', () => {
  it('opens nothing and makes no sound before it is asked to play', () => {
    const page = new Page();
    page.player.click(true);
    page.player.tempo(0.5);
    page.player.loop({ first: 0, last: 1 });
    page.player.seek(3);
    page.player.stop();
    assert.equal(page.opened, 0);
  });

  it('tells what sounds, bar by bar, and that it ended', async () => {
    const page = new Page();
    assert.ok(await page.player.play());
    page.speaker.pass(14);
    assert.deepEqual(page.told.slice(0, 6), [
      'bar 0: 1:64 6:40',
      'bar 0: 1:70 6:40',
      'bar 0: 6:40',
      'bar 1: 1:65 6:41',
      'bar 1: 1:71 6:41',
      'bar 1: 6:41',
    ]);
    assert.equal(page.told[page.told.length - 1], 'silent');
    assert.ok(!page.speaker.isAwake && !page.player.heard.isPlaying);
  });

  it('stops with the place kept, and goes on from there', async () => {
    const page = new Page();
    await page.player.play();
    page.speaker.pass(3);
    page.player.stop();
    page.speaker.pass(0.2);
    assert.equal(page.told[page.told.length - 1], 'silent');
    assert.equal(loudest(Float32Array.from(page.speaker.heard.slice(-2000))), 0);
    assert.ok(!page.speaker.isAwake);
    await page.player.play();
    page.speaker.pass(0.2);
    assert.ok(page.player.heard.seconds > 3 && page.player.heard.seconds < 3.4, `${page.player.heard.seconds}`);
  });

  it('goes where it is sent while it plays', async () => {
    const page = new Page();
    await page.player.play();
    page.speaker.pass(0.5);
    page.player.seek(6.1);
    page.speaker.pass(0.3);
    assert.equal(page.player.heard.index, 3);
    // Nothing that began before is marked.
    assert.equal(words(page.player.heard), '');
    page.speaker.pass(1);
    assert.equal(words(page.player.heard), '1:73');
  });

  it('goes round the bars that are chosen, and on when they are not any more', async () => {
    const page = new Page();
    page.player.loop({ first: 1, last: 1 });
    await page.player.play();
    page.speaker.pass(5);
    assert.ok(page.told.every((said) => said.startsWith('bar 1')));
    assert.ok(page.told.filter((said) => said === 'bar 1: 1:65 6:41').length >= 3);
    page.player.loop(undefined);
    page.speaker.pass(2);
    assert.equal(page.player.heard.index, 2);
  });

  it('counts in, in the time of its bar', async () => {
    const page = new Page();
    page.player.countIn(true);
    await page.player.play(4.5);
    page.speaker.pass(1.9);
    assert.deepEqual(page.told, ['counted in']);
    page.speaker.pass(0.2);
    assert.equal(page.told[1], 'bar 2: 1:66 6:42');
  });

  it('changes the tempo while it plays, and stays where it is', async () => {
    const page = new Page();
    await page.player.play();
    page.speaker.pass(1);
    page.player.tempo(0.5);
    page.speaker.pass(1);
    const { seconds } = page.player.heard;
    assert.ok(Math.abs(seconds - 1.5) < 0.05, `${seconds}`);
  });

  it('goes on in the same bar when the lesson changes under it', async () => {
    const page = new Page();
    await page.player.play();
    page.speaker.pass(2.5);
    const edited = lesson();
    page.player.load({ ...edited, notes: edited.notes.map((one) => ({ ...one, midi: one.midi + 1 })) });
    page.speaker.pass(0.7);
    assert.equal(page.player.heard.index, 1);
    assert.equal(words(page.player.heard), '1:72 6:42');
    page.player.load(lesson(3));
    page.speaker.pass(0.2);
    assert.equal(page.player.heard.index, 1);
    assert.equal(words(page.player.heard), '1:65 6:41');
    page.player.load(timeline([], 0));
    page.speaker.pass(0.2);
    assert.ok(!page.player.heard.isPlaying);
  });

  it('does not click when the strings are tuned anew under it', async () => {
    const page = new Page();
    await page.player.play();
    page.speaker.pass(1.3);
    const before = page.speaker.heard.length;
    page.player.load({ ...lesson(), open: [62, 59, 55, 50, 45, 38] });
    page.speaker.pass(0.012);
    const samples = Float32Array.from(page.speaker.heard);
    assert.ok(steepest(samples, before) <= steepest(samples, before - 4410, before));
    page.speaker.pass(0.5);
    assert.ok(page.player.heard.isPlaying);
  });

  it('says so where there is nothing to hear, or no way to be heard', async () => {
    const empty = new Page(timeline([], 0));
    assert.equal(await empty.player.play(), false);
    assert.equal(empty.opened, 0);
    const deaf = new LessonPlayer(
      () => Promise.reject(new Error('no sound here')),
      () => assert.fail('nothing sounds'),
    );
    deaf.load(lesson());
    assert.equal(await deaf.play(), false);
  });

  it('does not begin after all when it was stopped before the loudspeaker was there', async () => {
    const page = new Page();
    const begun = page.player.play();
    page.player.stop();
    assert.equal(await begun, false);
    page.speaker.pass(0.1);
    assert.equal(loudest(Float32Array.from(page.speaker.heard)), 0);
  });
});

describe('the player of the page, round and round', () => {
  /** Round bar 1, two seconds long; what happens at the end of each pass. */
  async function rounds(onPass: (player: LessonPlayer, pass: number) => void): Promise<{
    readonly speaker: TestLoudspeaker;
    readonly player: LessonPlayer;
    readonly passes: () => number;
  }> {
    const speaker = new TestLoudspeaker();
    let passes = 0;
    const player: LessonPlayer = new LessonPlayer(
      () => Promise.resolve(speaker),
      () => {},
      () => onPass(player, ++passes),
    );
    player.load(lesson());
    player.loop({ first: 1, last: 1 });
    await player.play();
    return { speaker, player, passes: () => passes };
  }

  it('tells each pass once, a little before it is over', async () => {
    const { speaker, passes } = await rounds(() => {});
    speaker.pass(1.9);
    assert.equal(passes(), 0);
    speaker.pass(0.09);
    assert.equal(passes(), 1);
    speaker.pass(1.5);
    assert.equal(passes(), 1);
    speaker.pass(0.6);
    assert.equal(passes(), 2);
  });

  it('begins the next pass at another tempo, counted in where that is wanted', async () => {
    const { speaker, player } = await rounds((one, pass) => pass === 1 && one.again(2));
    player.countIn(true);
    assert.equal(player.passSeconds, 2);
    speaker.pass(2.1);
    assert.equal(player.passSeconds, 1);
    assert.ok(player.heard.isCountedIn);
    // A bar of beats at twice the tempo is a second.
    speaker.pass(1);
    assert.ok(!player.heard.isCountedIn);
    assert.equal(words(player.heard), '1:65 6:41');
  });

  it('ends with a pass where it is stopped there', async () => {
    const { speaker, player } = await rounds((one, pass) => pass === 2 && one.stop());
    speaker.pass(6);
    assert.ok(!player.heard.isPlaying);
    assert.equal(loudest(Float32Array.from(speaker.heard.slice(4.1 * RATE))), 0);
  });

  it('neither clicks nor clips where it goes round, climbs or ends', async () => {
    const { speaker } = await rounds((one, pass) => (pass === 3 ? one.stop() : one.again(1 + pass / 4)));
    speaker.pass(6);
    const samples = Float32Array.from(speaker.heard);
    // The hardest step between two samples is that of a pluck; no seam may be harder.
    const plucked = steepest(samples, 0, RATE / 2);
    assert.ok(plucked > 0);
    assert.ok(steepest(samples) <= 1.05 * plucked, `${steepest(samples)} beside ${plucked}`);
    assert.ok(loudest(samples) < 1);
  });
});

describe('something beside the lesson', () => {
  const chord = timeline([note({ at: 0, string: 1, midi: 64 }), note({ at: 0, string: 2, midi: 60 })], 1);

  it('is heard, and neither marks anything nor moves the place', async () => {
    const page = new Page();
    page.player.seek(3);
    const before = page.told.length;
    assert.ok(await page.player.pluck(chord));
    page.speaker.pass(0.5);
    assert.ok(loudest(Float32Array.from(page.speaker.heard)) > 0.01);
    assert.deepEqual(page.told.slice(before), []);
    assert.equal(page.player.heard.seconds, 3);
    page.speaker.pass(9);
    assert.ok(!page.speaker.isAwake, 'it costs nothing once it has died away');
    await page.player.play();
    page.speaker.pass(0.2);
    assert.equal(page.player.heard.index, 1);
  });

  it('is not heard while the lesson plays', async () => {
    const page = new Page();
    await page.player.play();
    assert.equal(await page.player.pluck(chord), false);
  });
});

describe('the loudspeaker', () => {
  it('is opened once, at the gesture, and told how loud it is to be', async () => {
    const page = new Page();
    page.player.loud(0.3);
    assert.ok(await page.player.ready());
    assert.equal(page.speaker.volume, 0.3);
    await page.player.play();
    assert.equal(page.opened, 1);
    page.player.loud(7);
    assert.equal(page.speaker.volume, 1);
  });
});

describe('what sounds at a moment', () => {
  it('is the last note of each string that was not ended', () => {
    const sounding = new SoundingNow(lesson());
    const at = (seconds: number): string =>
      sounding
        .notesAt(seconds)
        .map(({ string, midi }) => `${string}:${midi}`)
        .join(' ');
    assert.deepEqual([-1, 0, 0.99, 1, 1.6, 2, 7.9, 8].map(at), [
      '',
      '1:64 6:40',
      '1:64 6:40',
      '1:70 6:40',
      '6:40',
      '1:65 6:41',
      '6:43',
      '',
    ]);
    assert.deepEqual(
      [-0.1, 0, 1.9, 2, 99].map((seconds) => sounding.barAt(seconds)),
      [-1, 0, 0, 1, 3],
    );
  });
});
