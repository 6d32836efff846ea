/** Runs in the thread that makes the sound: plays what the page sends, and says where it is. */
import { Player } from '../../server/src/sound/player.ts';
import { PROCESSOR, type FromSound, type ToSound } from './sound-messages.ts';

/** What such a thread has that no page has. */
declare const sampleRate: number;
declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}
declare function registerProcessor(name: string, processor: new () => AudioWorkletProcessor): void;

/** Samples from one word about the position to the next. */
const BETWEEN_WORDS = 1024;

class StringsProcessor extends AudioWorkletProcessor {
  private readonly player = new Player(sampleRate);
  /** One for all: it is copied as it is sent. */
  private readonly position = { kind: 'position' as const, run: 0, seconds: 0 };
  private run = 0;
  private unsaid = 0;
  private isHeard = false;

  constructor() {
    super();
    this.port.onmessage = ({ data }: MessageEvent<ToSound>) => this.hear(data);
  }

  private hear(message: ToSound): void {
    switch (message.kind) {
      case 'load':
        this.player.load(message.rendition);
        break;
      case 'start':
        this.run = message.run;
        this.unsaid = BETWEEN_WORDS;
        this.isHeard = true;
        this.player.start(message.start);
        break;
      case 'stop':
        this.player.stop();
        break;
      case 'loop':
        this.player.round(message.loop);
        break;
      case 'metronome':
        this.player.metronome = message.isHeard;
        break;
    }
  }

  /** True keeps the processor alive while it is silent. */
  process(_inputs: unknown, [output]: readonly (readonly Float32Array[])[]): boolean {
    const [left, right = left] = output;
    if (!left) return true;
    this.player.render(left, right, 0, left.length);
    if (!this.isHeard) return true;
    if (!this.player.isPlaying) {
      this.isHeard = false;
      this.say({ kind: 'ended', run: this.run });
      return true;
    }
    this.unsaid += left.length;
    if (this.unsaid < BETWEEN_WORDS || this.player.isLeaving) return true;
    this.unsaid = 0;
    this.position.run = this.run;
    this.position.seconds = this.player.position;
    this.say(this.position);
    return true;
  }

  private say(message: FromSound): void {
    this.port.postMessage(message);
  }
}

registerProcessor(PROCESSOR, StringsProcessor);
