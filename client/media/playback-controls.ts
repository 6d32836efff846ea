/** The row of controls below the music: play and stop, tempo, repeat, count-in, metronome, volume. Knows no sound. */
import type { Listening } from '../../server/src/protocol.ts';
import { append, button } from './element.ts';
import type { Repeat } from './played-bars.ts';

export type RepeatKind = Repeat['kind'];

export interface ControlsTell {
  readonly toggled: () => void;
  readonly stopped: () => void;
  /** 1 is the tempo that is written. */
  readonly tempo: (speed: number) => void;
  readonly repeat: (kind: RepeatKind) => void;
  readonly changed: (part: Partial<Listening>) => void;
}

/** Of the slider, in percent of what is written; the number beside it goes farther. */
const LEAST_PERCENT = 25;
const MOST_PERCENT = 150;
const FEWEST_BEATS = 10;
const MOST_BEATS = 600;

const REPEATS: Readonly<Record<RepeatKind, string>> = {
  nothing: 'nothing',
  bar: 'this bar',
  section: 'this section',
  bars: 'chosen bars',
  lesson: 'the whole',
};

export class PlaybackControls {
  readonly element: HTMLElement;
  private readonly play: HTMLButtonElement;
  private readonly stop: HTMLButtonElement;
  private readonly place: HTMLElement;
  private readonly percent: HTMLInputElement;
  private readonly beats: HTMLInputElement;
  private readonly asWritten: HTMLButtonElement;
  private readonly repeats: HTMLSelectElement;
  private readonly countIn: HTMLButtonElement;
  private readonly metronome: HTMLButtonElement;
  private readonly volume: HTMLInputElement;
  private readonly hint: HTMLElement;
  private perMinute = 60;
  private listening: Listening | undefined;

  constructor(
    place: HTMLElement,
    private readonly tell: ControlsTell,
  ) {
    this.element = append(place, 'div', 'player');
    this.element.setAttribute('role', 'group');
    this.element.setAttribute('aria-label', 'Playback');
    const buttons = append(this.element, 'div', 'player-part');
    this.play = button(buttons, 'plain play', 'Play', tell.toggled);
    this.play.title = 'From the bar at the cursor (Space)';
    this.play.setAttribute('aria-keyshortcuts', 'Space');
    this.stop = button(buttons, 'plain', 'Stop', tell.stopped);
    this.stop.setAttribute('aria-keyshortcuts', 'Escape');
    this.place = append(buttons, 'span', 'playing-place');
    const tempo = append(this.element, 'div', 'player-part');
    append(tempo, 'span', 'player-word', 'tempo').ariaHidden = 'true';
    this.percent = this.slider(tempo, 'Tempo, in percent of what is written', LEAST_PERCENT, MOST_PERCENT);
    this.percent.addEventListener('input', () => tell.tempo(Number(this.percent.value) / 100));
    this.beats = input(tempo, 'number', 'Beats a minute');
    this.beats.min = `${FEWEST_BEATS}`;
    this.beats.max = `${MOST_BEATS}`;
    this.beats.addEventListener('change', () => this.takeBeats());
    this.asWritten = button(tempo, 'switch', 'as written', () => {
      // Once it is as written the button is gone, and the focus must not be.
      this.beats.focus();
      tell.tempo(1);
    });
    const repeat = append(this.element, 'label', 'player-part');
    append(repeat, 'span', 'player-word', 'repeat');
    this.repeats = append(repeat, 'select', 'repeats') as HTMLSelectElement;
    this.repeats.title = 'Hold Shift and choose another bar to repeat from here to there';
    for (const [kind, words] of Object.entries(REPEATS)) {
      const option = append(this.repeats, 'option', '', words) as HTMLOptionElement;
      option.value = kind;
    }
    this.repeats.addEventListener('change', () => tell.repeat(this.repeats.value as RepeatKind));
    const switches = append(this.element, 'div', 'player-part');
    this.countIn = button(switches, 'switch', 'count in', () =>
      tell.changed({ isCountedIn: !this.listening?.isCountedIn }),
    );
    this.metronome = button(switches, 'switch', 'metronome', () =>
      tell.changed({ isMetronomeHeard: !this.listening?.isMetronomeHeard }),
    );
    const loud = append(this.element, 'div', 'player-part');
    append(loud, 'span', 'player-word', 'volume').ariaHidden = 'true';
    this.volume = this.slider(loud, 'Volume, in percent', 0, 100);
    this.volume.addEventListener('input', () => tell.changed({ volume: Number(this.volume.value) / 100 }));
    this.hint = append(this.element, 'p', 'player-hint');
    this.hint.setAttribute('role', 'status');
    this.showPlaying(false, '');
  }

  /** `perMinute` is the tempo that is written, in beats a minute. */
  show(listening: Listening, perMinute: number): void {
    this.listening = listening;
    this.perMinute = perMinute;
    const { speed, volume, isCountedIn, isMetronomeHeard } = listening;
    const percent = Math.round(speed * 100);
    const beats = Math.round(speed * perMinute);
    this.percent.value = `${percent}`;
    this.percent.setAttribute('aria-valuetext', `${percent} percent, ${beats} beats a minute`);
    this.beats.value = `${beats}`;
    this.asWritten.hidden = speed === 1;
    this.volume.value = `${Math.round(volume * 100)}`;
    this.countIn.setAttribute('aria-pressed', `${isCountedIn}`);
    this.metronome.setAttribute('aria-pressed', `${isMetronomeHeard}`);
  }

  /** `place` is the bar in words. */
  showPlaying(isPlaying: boolean, place: string): void {
    const words = isPlaying ? 'Pause' : 'Play';
    if (this.play.textContent !== words) this.play.textContent = words;
    if (this.place.textContent !== place) this.place.textContent = place;
    this.stop.disabled = !isPlaying && place === '';
    if (isPlaying) this.say('');
  }

  showRepeat(kind: RepeatKind, words?: string): void {
    this.repeats.value = kind;
    const chosen = this.repeats.querySelector('option[value="bars"]');
    if (chosen) chosen.textContent = (kind === 'bars' ? words : undefined) ?? REPEATS.bars;
  }

  /** One line beside the controls, read aloud when it changes. */
  say(words: string): void {
    if (this.hint.textContent !== words) this.hint.textContent = words;
  }

  private takeBeats(): void {
    const wanted = Number(this.beats.value);
    if (wanted >= FEWEST_BEATS && wanted <= MOST_BEATS) this.tell.tempo(wanted / this.perMinute);
    else if (this.listening) this.show(this.listening, this.perMinute);
  }

  private slider(place: HTMLElement, name: string, least: number, most: number): HTMLInputElement {
    const made = input(place, 'range', name);
    made.min = `${least}`;
    made.max = `${most}`;
    return made;
  }
}

function input(place: HTMLElement, type: string, name: string): HTMLInputElement {
  const made = append(place, 'input', `player-${type}`) as HTMLInputElement;
  made.type = type;
  made.setAttribute('aria-label', name);
  return made;
}
