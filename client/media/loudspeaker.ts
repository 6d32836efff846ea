/**
 * The browser's way to the loudspeaker: a thread that runs our own strings.
 *
 * The thread's program comes with the page's script as text and is loaded from a blob, so that nothing is fetched. What a page's
 * content security policy must allow for it is `blob:` in `script-src`, beside the nonce or the origin of the page's own script:
 * a module of an audio thread counts as a script, not as a worker, and takes no nonce.
 */
import { PROCESSOR, type FromSound, type ToSound } from './sound-messages.ts';

/** The bundled program of the thread; the build puts it here. */
declare const SOUND_PROCESSOR: string;

export interface Loudspeaker {
  /** In samples a second. */
  readonly rate: number;
  /** How much later than the thread says it is heard, in seconds. */
  readonly late: number;
  /** `given` goes over to the thread and is gone here. */
  say(message: ToSound, given?: readonly Transferable[]): void;
  listen(hear: (message: FromSound) => void): void;
  /** 0 is silent, 1 as loud as it can be; from what it was before without a click. */
  loud(volume: number): void;
  /** Must happen before anything is heard. */
  wake(): Promise<void>;
  /** Until it is woken again it costs nothing. */
  rest(): void;
  close(): void;
}

/** How quickly another volume is taken on, in seconds. */
const GLIDE_SECONDS = 0.02;

/** Only after the reader has done something to the page: no browser plays before, and neither do we. Else, and without sound, throws. */
export async function openLoudspeaker(): Promise<Loudspeaker> {
  if (navigator.userActivation?.hasBeenActive === false) throw new Error('The page was not touched yet.');
  const context = new AudioContext({ latencyHint: 'interactive' });
  try {
    const address = URL.createObjectURL(new Blob([SOUND_PROCESSOR], { type: 'text/javascript' }));
    try {
      await context.audioWorklet.addModule(address);
    } finally {
      URL.revokeObjectURL(address);
    }
    const node = new AudioWorkletNode(context, PROCESSOR, { numberOfInputs: 0, outputChannelCount: [2] });
    const gain = new GainNode(context);
    node.connect(gain).connect(context.destination);
    return {
      rate: context.sampleRate,
      get late() {
        return context.outputLatency || context.baseLatency || 0;
      },
      say: (message, given = []) => node.port.postMessage(message, [...given]),
      listen: (hear) => {
        node.port.onmessage = ({ data }: MessageEvent<FromSound>) => hear(data);
      },
      loud: (volume) => gain.gain.setTargetAtTime(volume, context.currentTime, GLIDE_SECONDS),
      wake: () => context.resume(),
      rest: () => void context.suspend(),
      close: () => void context.close(),
    };
  } catch (problem) {
    void context.close();
    throw problem;
  }
}
