/** Plays a lesson in the page: from a bar, round some bars, counted in, at the tempo of the practice. Knows no buttons. */
import { renditionOf, startAt } from '../../server/src/sound/rendition.ts';
import type { Loop } from '../../server/src/sound/player.ts';
import type { SoundBar, SoundNote, SoundTimeline } from '../../server/src/sound/timeline.ts';
import type { Loudspeaker } from './loudspeaker.ts';
import type { FromSound } from './sound-messages.ts';
import { SoundingNow } from './sounding-now.ts';

/** What is heard at a moment. */
export interface HeardNow {
  readonly isPlaying: boolean;
  /** Before the first note: only the beats are heard. */
  readonly isCountedIn: boolean;
  /** In seconds of the timeline. */
  readonly seconds: number;
  /** Index in the timeline's bars, and the bar; −1 and undefined before the first. */
  readonly index: number;
  readonly bar: SoundBar | undefined;
  /** At most one a string. The same list for as long as nothing changes. */
  readonly notes: readonly SoundNote[];
}

/** Bars as they are played: indexes in the timeline's bars, both counted in. */
export interface BarsPlayed {
  readonly first: number;
  readonly last: number;
}

/** Seconds of the timeline in one second: what a finger can still play, and what an ear still hears as music. */
export const SLOWEST = 0.1;
export const FASTEST = 4;

/** A pass round the bars is over this long before its end, in seconds: time enough to begin the next one otherwise. */
const NEARLY_SECONDS = 0.035;

const EMPTY: SoundTimeline = { open: [], seconds: 0, notes: [], beats: [], bars: [] };

export class LessonPlayer {
  private timeline = EMPTY;
  private sounding = new SoundingNow(EMPTY);
  private speaker: Loudspeaker | undefined;
  private opening: Promise<Loudspeaker> | undefined;
  private run = 0;
  /** Only what begins from here on is heard: where it was started, or the loop. */
  private from = 0;
  private isCounting = false;
  /** As the thread said it last. */
  private said = 0;
  private speed = 1;
  private bars: BarsPlayed | undefined;
  private isClicked = false;
  private isCounted = false;
  private volume = 1;
  private isPassTold = false;
  /** The run in which something beside the lesson is heard: it moves no place and marks nothing. */
  private aside = 0;
  private now: HeardNow = silenceAt(0);

  /**
   * Nothing is opened before {@link play}, which a reader's gesture must lead to. `onSounding` is called when it begins and ends,
   * when other notes or another bar sound, and some forty times a second between; `onPass` at the end of each pass round the bars
   * of {@link loop}, when {@link again} and {@link stop} still come in time.
   */
  constructor(
    private readonly open: () => Promise<Loudspeaker>,
    private readonly onSounding: (now: HeardNow) => void,
    private readonly onPass: () => void = () => {},
  ) {}

  get heard(): HeardNow {
    return this.now;
  }

  /** The lesson as it is now. While it plays, it goes on in the same bar. */
  load(timeline: SoundTimeline): void {
    const before = this.timeline;
    this.timeline = timeline;
    this.sounding = new SoundingNow(timeline);
    if (this.bars && this.bars.last >= timeline.bars.length) this.bars = undefined;
    if (!this.now.isPlaying) {
      this.now = silenceAt(0);
      return;
    }
    if (timeline.notes.length === 0) this.stop();
    else if (isSameTime(before, timeline)) this.perform();
    else this.goOnIn(before);
  }

  /**
   * Opens the way to the loudspeaker, so that it can be called in the reader's gesture while what is to be played is still on its
   * way: some browsers let sound begin only then. False where there is no way to be heard.
   */
  async ready(): Promise<boolean> {
    try {
      this.speaker ??= await this.openOnce();
      await this.speaker.wake();
      return true;
    } catch {
      return false;
    }
  }

  /**
   * From this moment of the timeline on, or where it was stopped; round the bars of {@link loop} where they are set. False where
   * there is nothing to hear, or no way to be heard.
   */
  async play(seconds?: number): Promise<boolean> {
    if (this.timeline.notes.length === 0) return false;
    const wanted = ++this.run;
    if (!(await this.ready())) return false;
    // Somebody stopped it, or began again, before it was there.
    if (wanted !== this.run) {
      if (!this.now.isPlaying) this.speaker?.rest();
      return false;
    }
    this.perform();
    this.begin(this.within(seconds ?? this.now.seconds), this.isCounted);
    return true;
  }

  /** What is heard beside the lesson, a chord say, once and from its start. Not while the lesson plays. */
  async pluck(timeline: SoundTimeline): Promise<boolean> {
    if (this.now.isPlaying) return false;
    const wanted = ++this.run;
    if (!(await this.ready()) || wanted !== this.run || !this.speaker) return false;
    this.aside = wanted;
    const rendition = renditionOf(timeline);
    this.speaker.say({ kind: 'load', rendition }, [rendition.actions.buffer, rendition.beats.buffer]);
    this.speaker.say({ kind: 'metronome', isHeard: false });
    this.speaker.say({ kind: 'loop', loop: undefined });
    this.speaker.say({ kind: 'start', run: wanted, start: { at: 0, countIn: [] } });
    return true;
  }

  /** The bars of {@link loop} from their start, at this tempo and counted in where that is wanted. */
  again(speed: number): void {
    const loop = this.loopSeconds();
    if (!this.now.isPlaying || !loop) return;
    this.speed = drawnIn(speed);
    this.run++;
    this.perform();
    this.begin(loop.from, this.isCounted);
  }

  /** How long a pass round the bars of {@link loop} lasts at this tempo, in seconds; 0 where there are none. */
  get passSeconds(): number {
    const loop = this.loopSeconds();
    return loop ? (loop.to - loop.from) / this.speed : 0;
  }

  /** With a short fade. The place is kept. */
  stop(): void {
    this.run++;
    if (!this.now.isPlaying) return;
    this.speaker?.say({ kind: 'stop' });
    this.tell({ ...silenceAt(this.now.seconds) });
  }

  /** Goes on from there if it plays, else begins there when it is played. */
  seek(seconds: number): void {
    const there = Math.min(Math.max(0, seconds), this.timeline.seconds);
    if (!this.now.isPlaying) this.tell(silenceAt(there));
    else {
      this.run++;
      this.begin(this.within(there), false);
    }
  }

  /** Round these bars from now on; undefined: on to the end. */
  loop(bars: BarsPlayed | undefined): void {
    const { length } = this.timeline.bars;
    this.bars = bars && bars.first >= 0 && bars.first <= bars.last && bars.last < length ? bars : undefined;
    if (!this.now.isPlaying) return;
    const loop = this.loopSeconds();
    const { seconds } = this.now;
    if (loop && (seconds < loop.from || seconds >= loop.to)) this.seek(loop.from);
    else this.speaker?.say({ kind: 'loop', loop });
  }

  /** Seconds of the timeline in one second: 0.5 is half the tempo. Drawn in to {@link SLOWEST} and {@link FASTEST}. */
  tempo(speed: number): void {
    const wanted = drawnIn(speed);
    if (wanted === this.speed) return;
    this.speed = wanted;
    if (this.now.isPlaying) this.perform();
  }

  /** Whether a bar is counted before it begins, the next time it does. */
  countIn(isCounted: boolean): void {
    this.isCounted = isCounted;
  }

  /** Whether a metronome is heard beside it. */
  click(isHeard: boolean): void {
    this.isClicked = isHeard;
    this.speaker?.say({ kind: 'metronome', isHeard });
  }

  /** 0 to 1. */
  loud(volume: number): void {
    this.volume = Math.min(1, Math.max(0, volume));
    this.speaker?.loud(this.volume);
  }

  /** For good. */
  close(): void {
    this.stop();
    this.speaker?.close();
    this.speaker = undefined;
  }

  private async openOnce(): Promise<Loudspeaker> {
    this.opening ??= this.open();
    try {
      const speaker = await this.opening;
      speaker.listen((message) => this.hear(message));
      speaker.loud(this.volume);
      return speaker;
    } finally {
      this.opening = undefined;
    }
  }

  private perform(): void {
    const rendition = renditionOf(this.timeline, this.speed);
    this.speaker?.say({ kind: 'load', rendition }, [rendition.actions.buffer, rendition.beats.buffer]);
    this.speaker?.say({ kind: 'metronome', isHeard: this.isClicked });
  }

  private begin(at: number, isCounted: boolean): void {
    const bar = this.sounding.bar(Math.max(0, this.sounding.barAt(at)));
    const counted = isCounted && bar ? startAt(bar, true) : { at, countIn: [] };
    this.from = counted.at;
    this.isCounting = counted.countIn.length > 0;
    this.isPassTold = false;
    this.said = counted.countIn[0]?.at ?? counted.at;
    this.speaker?.say({ kind: 'loop', loop: this.loopSeconds() });
    this.speaker?.say({ kind: 'start', run: this.run, start: counted });
    this.tell(this.soundingAt(this.said));
  }

  /** In a lesson that has other times now: from the start of the bar that was playing. */
  private goOnIn(before: SoundTimeline): void {
    const index = new SoundingNow(before).barAt(this.now.seconds);
    const bar = this.timeline.bars[Math.min(Math.max(0, index), this.timeline.bars.length - 1)];
    this.perform();
    this.run++;
    this.begin(this.within(bar?.at ?? 0), false);
  }

  private hear(message: FromSound): void {
    if (message.run !== this.run) {
      if (message.kind === 'ended' && !this.now.isPlaying) this.speaker?.rest();
      return;
    }
    if (message.run === this.aside) {
      if (message.kind === 'ended') this.speaker?.rest();
      return;
    }
    if (message.kind === 'position') {
      this.pass(message.seconds);
      // At the end of a pass it may have been stopped, or begun again.
      if (message.run !== this.run) return;
      this.tell(this.soundingAt(message.seconds - (this.speaker?.late ?? 0) * this.speed));
      return;
    }
    this.speaker?.rest();
    this.tell(silenceAt(0));
  }

  private pass(seconds: number): void {
    const loop = this.loopSeconds();
    const isBack = seconds < this.said;
    this.said = seconds;
    if (!loop) return;
    if (isBack) this.from = loop.from;
    const isOver = isBack || seconds >= loop.to - NEARLY_SECONDS * this.speed;
    const isNew = isOver && !this.isPassTold;
    this.isPassTold = isOver && !isBack;
    if (isNew) this.onPass();
  }

  private soundingAt(seconds: number): HeardNow {
    if (seconds >= this.from) this.isCounting = false;
    const isCountedIn = this.isCounting;
    const here = Math.max(this.from, seconds);
    const index = this.sounding.barAt(here);
    const notes = isCountedIn ? [] : this.sounding.notesAt(here).filter(({ at }) => at >= this.from);
    const isAsBefore = notes.length === this.now.notes.length && notes.every((one, at) => one === this.now.notes[at]);
    return {
      isPlaying: true,
      isCountedIn,
      seconds: here,
      index,
      bar: this.sounding.bar(index),
      notes: isAsBefore ? this.now.notes : notes,
    };
  }

  private tell(now: HeardNow): void {
    this.now = now;
    this.onSounding(now);
  }

  private loopSeconds(): Loop | undefined {
    if (!this.bars) return undefined;
    const first = this.timeline.bars[this.bars.first];
    const last = this.timeline.bars[this.bars.last];
    return { from: first.at, to: last.at + last.seconds };
  }

  /** In the loop, where there is one, and not at the very end, where nothing would be heard. */
  private within(seconds: number): number {
    const loop = this.loopSeconds();
    if (loop) return seconds >= loop.from && seconds < loop.to ? seconds : loop.from;
    return seconds >= 0 && seconds < this.timeline.seconds ? seconds : 0;
  }
}

const drawnIn = (speed: number): number => (Number.isFinite(speed) ? Math.min(FASTEST, Math.max(SLOWEST, speed)) : 1);

const silenceAt = (seconds: number): HeardNow => ({
  isPlaying: false,
  isCountedIn: false,
  seconds,
  index: -1,
  bar: undefined,
  notes: [],
});

/** Whether each bar comes when it came before, on the same strings, so that it can go on without a gap. */
export const isSameTime = (one: SoundTimeline, other: SoundTimeline): boolean =>
  one.open.join() === other.open.join() &&
  one.bars.length === other.bars.length &&
  one.bars.every(({ at }, index) => at === other.bars[index].at);
