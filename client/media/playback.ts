/** Playback in the page: what the reader asks for, in which order it happens, and what is shown of what is heard. */
import type { FromPage, LessonSound, Listening, PreviewUpdate } from '../../server/src/protocol.ts';
import type { SoundBar } from '../../server/src/sound/timeline.ts';
import type { Sight } from './bars.ts';
import { Ladder } from './ladder.ts';
import { openLoudspeaker } from './loudspeaker.ts';
import { PlaybackControls, type RepeatKind } from './playback-controls.ts';
import { Gestures } from './playback-gestures.ts';
import { PlaybackMarks } from './playback-marks.ts';
import { barsPlayed, idOf, sectionOf, startOfBar, startOfSection } from './played-bars.ts';
import type { PlayedLesson, Repeat } from './played-bars.ts';
import { isSameTime, LessonPlayer, type HeardNow } from './player.ts';
import { strumFrom } from './strum.ts';

type Spans = Extract<FromPage, { kind: 'sounding' }>['spans'];

export interface PlaybackTells {
  readonly said: (message: Extract<FromPage, { kind: 'sound' | 'sounding' | 'untouched' }>) => void;
  /** For those who hear the page. */
  readonly heard: (words: string) => void;
  /** Something that is to be kept has changed. */
  readonly changed: () => void;
  /** The id of the bar at the cursor, if it is at one. */
  readonly barHere: () => string | undefined;
  readonly sight: Sight;
}

/** What somebody wants to hear. */
interface Wanted {
  readonly variant?: string;
  /** Where to begin; the place where it was paused, or the bar at the cursor, where nothing is said. */
  readonly bar?: string;
  readonly section?: string;
  /** Index of a step of the practice. */
  readonly step?: number;
}

const PLAIN_LISTENING: Listening = { speed: 1, volume: 0.8, isCountedIn: false, isMetronomeHeard: false };

export class Playback {
  listening = PLAIN_LISTENING;
  private readonly controls: PlaybackControls;
  private readonly marks = new PlaybackMarks(document);
  private readonly gestures: Gestures;
  private readonly player: LessonPlayer;
  private lesson: PlayedLesson | undefined;
  /** A newer one, whose bars come at other times: it is taken at the next bar line. */
  private next: PlayedLesson | undefined;
  private wanted: Wanted | undefined;
  private shownVersion = 0;
  private perMinute = 60;
  private askedFor = 0;
  private repeat: Repeat = { kind: 'nothing' };
  private ladder: Ladder | undefined;
  /** Index of the step that the ladder is. */
  private practised: number | undefined;
  /** What could not begin yet, because the page had not been touched. */
  private waiting: Wanted | undefined;
  private isPaused = false;
  private told = '';

  constructor(
    place: HTMLElement,
    private readonly tells: PlaybackTells,
  ) {
    this.controls = new PlaybackControls(place, {
      toggled: () => this.toggle(),
      stopped: () => this.stop(),
      tempo: (speed) => {
        this.leaveLadder();
        this.setTempo(speed);
      },
      repeat: (kind) => this.chooseRepeat(kind),
      changed: (part) => this.change(part),
    });
    this.gestures = new Gestures(document, {
      toggled: () => this.toggle(),
      stopped: () => this.player.heard.isPlaying && this.stop(),
      playedFrom: (bar) => void this.play({ bar }),
      barChosen: (bar) => this.chooseBar(bar),
      barsChosen: (from, to) => this.setRepeat({ kind: 'bars', from, to }),
      practised: (step) => this.practise(step),
      variantPlayed: (variant) => void this.play({ ...(variant !== '' && { variant }) }),
      voicingChosen: (open, sounds) => void this.player.pluck(strumFrom(open, sounds)),
    });
    this.player = new LessonPlayer(
      openLoudspeaker,
      (now) => this.show(now),
      () => this.pass(),
    );
    this.adopt(PLAIN_LISTENING);
    // Whoever leaves the page leaves the sound behind too.
    window.addEventListener('pagehide', () => this.player.close());
  }

  /** As it was listened to before. */
  adopt(listening: Listening | undefined): void {
    if (!listening) return;
    this.listening = listening;
    this.player.tempo(listening.speed);
    this.player.loud(listening.volume);
    this.player.countIn(listening.isCountedIn);
    this.player.click(listening.isMetronomeHeard);
    this.controls.show(listening, this.written);
  }

  /** The page shows another version, or the same anew. */
  renew({ version, tempo }: PreviewUpdate): void {
    this.shownVersion = version;
    this.perMinute = tempo;
    this.gestures.renew();
    this.gestures.showPractised(this.practised);
    this.marks.renew();
    this.controls.show(this.listening, this.written);
    this.mark(this.player.heard);
    if (this.wanted && this.askedFor !== version) this.ask(this.wanted.variant);
  }

  /** What was asked for has come: null where it cannot be told, because the text has just changed for one. */
  take(sound: LessonSound | null): void {
    // Of this page's own server, which promises a timeline.
    const lesson = sound as PlayedLesson | null;
    if (!lesson) return;
    const { wanted } = this;
    if (wanted) {
      if (wanted.variant !== lesson.variant) return;
      this.load(lesson);
      void this.begin(wanted);
    } else if (lesson.variant === this.lesson?.variant) {
      const isLater = this.player.heard.isPlaying && this.lesson && !isSameTime(this.lesson.timeline, lesson.timeline);
      if (isLater) this.next = lesson;
      else this.load(lesson);
    }
  }

  /** Asked for in the editor: it begins as soon as the page may be heard. */
  async command(section: string | undefined): Promise<void> {
    await this.play({ ...(section !== undefined && { section }) });
    if (this.waiting) this.tells.said({ kind: 'untouched' });
  }

  stop(): void {
    this.wanted = undefined;
    this.isPaused = false;
    this.leaveLadder();
    const { isPlaying } = this.player.heard;
    this.player.stop();
    this.controls.showPlaying(false, '');
    if (isPlaying) this.tells.heard('Stopped');
  }

  private toggle(): void {
    if (this.player.heard.isPlaying) {
      this.isPaused = true;
      this.player.stop();
    } else void this.play(this.waiting ?? {});
  }

  private async play(wanted: Wanted): Promise<void> {
    const { variant } = this.isPaused && isAnything(wanted) ? (this.lesson ?? wanted) : wanted;
    this.wanted = { ...wanted, ...(variant !== undefined && { variant }) };
    this.waiting = undefined;
    // In the gesture itself, or some browsers refuse.
    if (!(await this.player.ready())) {
      this.wanted = undefined;
      const isTouched = navigator.userActivation?.hasBeenActive !== false;
      this.controls.say(isTouched ? 'No sound can be made here.' : 'Press Play, or the space bar, to hear it.');
      if (!isTouched) this.waiting = wanted;
      return;
    }
    // Meanwhile it was stopped, or something else is wanted.
    if (!this.wanted) return;
    if (this.lesson?.version === this.shownVersion && this.lesson.variant === variant) void this.begin(this.wanted);
    else this.ask(variant);
  }

  private ask(variant: string | undefined): void {
    this.askedFor = this.shownVersion;
    // Before the first drawing there is no lesson to ask about.
    if (this.shownVersion > 0) this.tells.said({ kind: 'sound', ...(variant !== undefined && { variant }) });
  }

  private load(lesson: PlayedLesson): void {
    const place = this.lesson && this.isPaused ? placeOf(this.lesson, this.player.heard) : undefined;
    this.lesson = lesson;
    this.next = undefined;
    this.player.load(lesson.timeline);
    if (place !== undefined) this.player.seek(startOfBar(lesson, place) ?? 0);
    this.applyRepeat();
    this.controls.show(this.listening, this.written);
  }

  private async begin(wanted: Wanted): Promise<void> {
    const { lesson } = this;
    this.wanted = undefined;
    if (!lesson) return;
    if (wanted.step !== undefined) this.climb(lesson, wanted.step);
    else if (!isAnything(wanted)) this.leaveLadder();
    const at = this.isPaused && isAnything(wanted) ? this.player.heard.seconds : this.startFor(wanted, lesson);
    this.isPaused = false;
    if (lesson.timeline.notes.length === 0) this.controls.say('There is nothing to hear: no note of it is played.');
    else if (at === undefined) this.controls.say('The form does not play these bars.');
    else await this.player.play(at);
  }

  /** In seconds; undefined where what is named is not played. Where bars are repeated, the player begins in them anyway. */
  private startFor({ bar, section, step }: Wanted, lesson: PlayedLesson): number | undefined {
    if (bar !== undefined) return startOfBar(lesson, bar);
    if (section !== undefined) return startOfSection(lesson, section);
    const here = step === undefined ? this.tells.barHere() : undefined;
    return (here === undefined ? undefined : startOfBar(lesson, here)) ?? 0;
  }

  // ---- practice -----------------------------------------------------------------------------------------------------

  private practise(step: number): void {
    if (this.practised === step && this.player.heard.isPlaying) this.stop();
    else void this.play({ step });
  }

  /** What the step says is set: its bars, its tempo, and that it goes round. */
  private climb(lesson: PlayedLesson, index: number): void {
    const step = lesson.practice[index];
    if (!step) return;
    const section = step.section === undefined ? undefined : lesson.sections[step.section]?.id;
    if (section === undefined) this.setRepeat({ kind: 'lesson' });
    else if (step.first === undefined) this.setRepeat({ kind: 'section', section });
    else this.setRepeat({ kind: 'bars', from: `${section}.${step.first}`, to: `${section}.${step.last}` });
    this.ladder = new Ladder(step);
    this.practised = index;
    this.setTempo(this.ladder.speed);
    this.gestures.showPractised(index);
    this.tells.heard(`${step.title}, ${step.tempi[0]} a minute`);
  }

  private leaveLadder(): void {
    this.ladder = undefined;
    this.practised = undefined;
    this.gestures.showPractised(undefined);
  }

  /** Once round the bars. */
  private pass(): void {
    const { ladder } = this;
    const what = ladder?.passed(this.player.passSeconds);
    if (!ladder || what === 'again') return;
    if (what === 'over') {
      this.stop();
      this.controls.say(`${ladder.step.title}: the time is over.`);
      return;
    }
    this.player.again(ladder.speed);
    this.setTempo(ladder.speed);
    this.tells.heard(`${ladder.tempo} a minute`);
  }

  // ---- tempo and repeat ---------------------------------------------------------------------------------------------

  /** Of what is played; before that of the lesson. */
  private get written(): number {
    return this.ladder?.step.perMinute ?? this.lesson?.perMinute ?? this.perMinute;
  }

  private setTempo(speed: number): void {
    this.change({ speed });
  }

  private change(part: Partial<Listening>): void {
    this.adopt({ ...this.listening, ...part });
    this.tells.changed();
  }

  private chooseRepeat(kind: RepeatKind): void {
    this.leaveLadder();
    const here = this.tells.barHere() ?? (this.lesson && placeOf(this.lesson, this.player.heard)) ?? this.firstBar;
    if (kind === 'nothing' || kind === 'lesson') this.setRepeat({ kind });
    else if (here === undefined) this.setRepeat({ kind: 'lesson' });
    else if (kind === 'section') this.setRepeat({ kind, section: sectionOf(here) });
    else this.setRepeat({ kind, from: here, to: here });
    if (kind === 'bars') this.controls.say('Hold Shift and choose the last bar.');
  }

  private get firstBar(): string | undefined {
    return document.querySelector<SVGElement>('g[data-bar]')?.dataset.bar;
  }

  /** A bar of the page was chosen: what is repeated by bar or by section goes there. */
  private chooseBar(bar: string): void {
    const at = this.isPaused && this.lesson ? startOfBar(this.lesson, bar) : undefined;
    if (at !== undefined) this.player.seek(at);
    if (this.ladder) return;
    if (this.repeat.kind === 'bar') this.setRepeat({ kind: 'bar', from: bar, to: bar });
    else if (this.repeat.kind === 'section') this.setRepeat({ kind: 'section', section: sectionOf(bar) });
  }

  private setRepeat(repeat: Repeat): void {
    this.repeat = repeat;
    const number = (bar: string): string => bar.slice(bar.lastIndexOf('.') + 1);
    const words = (from: string, to: string): string => (from === to ? `bar ${from}` : `bars ${from} to ${to}`);
    const said = repeat.kind === 'bars' ? words(number(repeat.from), number(repeat.to)) : undefined;
    this.controls.showRepeat(repeat.kind, said);
    this.applyRepeat();
  }

  private applyRepeat(): void {
    const { lesson, repeat } = this;
    const bars = lesson && barsPlayed(lesson, repeat);
    this.player.loop(bars);
    const ids = bars && repeat.kind !== 'lesson' ? lesson.timeline.bars.slice(bars.first, bars.last + 1) : [];
    this.marks.repeat(
      lesson,
      ids.flatMap((bar) => (lesson && idOf(lesson, bar)) ?? []),
    );
  }

  // ---- what is heard ------------------------------------------------------------------------------------------------

  private show(now: HeardNow): void {
    const isOtherBar = this.mark(now);
    if (!now.isPlaying || !isOtherBar) return;
    const { next } = this;
    if (next) this.load(next);
    // An edit is heard from the next bar line on; asked for once a bar, however fast somebody writes.
    else if (this.lesson && this.lesson.version !== this.shownVersion && this.askedFor !== this.shownVersion)
      this.ask(this.lesson.variant);
  }

  /** True where another bar is played than before. */
  private mark(now: HeardNow): boolean {
    const { lesson } = this;
    const before = blocksOf(this.marks.playing);
    const isOther = this.marks.show(lesson, now);
    if (isOther) this.follow(before, blocksOf(this.marks.playing));
    const place = now.isPlaying || this.isPaused ? wordsFor(now, lesson) : '';
    this.controls.showPlaying(now.isPlaying, place);
    this.tellSpans(now);
    return isOther;
  }

  /** What is played comes into view, unless the reader has gone to look at something else meanwhile. */
  private follow(before: readonly Element[], now: readonly Element[]): void {
    const { top, bottom } = this.tells.sight();
    const isAway = before.length > 0 && before.map(boxOf).every((box) => box.bottom < top || box.top > bottom);
    const isIn = now.map(boxOf).some((box) => box.top >= top && box.bottom <= bottom);
    if (!isAway && !isIn) now[0]?.scrollIntoView({ block: 'nearest' });
  }

  private tellSpans(now: HeardNow): void {
    const places = now.isPlaying ? now.notes.map(({ place }) => place) : [];
    const spans: Spans = places
      .map(({ start, end }) => ({ start, end }))
      .filter(({ start, end }, index, all) => all.findIndex((one) => one.start === start && one.end === end) === index);
    const { isPlaying } = now;
    const told = JSON.stringify([isPlaying, spans]);
    if (!this.lesson || told === this.told) return;
    this.told = told;
    this.tells.said({ kind: 'sounding', version: this.lesson.version, isPlaying, spans });
  }
}

const isAnything = ({ bar, section, step, variant }: Wanted): boolean =>
  bar === undefined && section === undefined && step === undefined && variant === undefined;

/** The bar at which the player stands. */
function barAt({ timeline: { bars } }: PlayedLesson, { seconds }: HeardNow): SoundBar | undefined {
  return bars.find(({ at, seconds: length }) => seconds < at + length) ?? bars[bars.length - 1];
}

/** Its id. */
function placeOf(lesson: PlayedLesson, now: HeardNow): string | undefined {
  const bar = barAt(lesson, now);
  return bar && idOf(lesson, bar);
}

function wordsFor(now: HeardNow, lesson: PlayedLesson | undefined): string {
  if (now.isCountedIn) return 'counting in';
  const number = (now.bar ?? (lesson && barAt(lesson, now)))?.number;
  return number === undefined ? '' : number === 0 ? 'pick-up' : `bar ${number}`;
}

const blocksOf = (bars: readonly Element[]): readonly Element[] => bars.flatMap((bar) => bar.closest('.block') ?? []);

const boxOf = (element: Element): DOMRect => element.getBoundingClientRect();
