/** Writes what is heard of a lesson as a WAV file: sixteen bits, two channels, the same bytes on every machine. */
import { renditionOf, samplesOf, startAt } from '../sound/rendition.ts';
import type { SoundTimeline } from '../sound/timeline.ts';

export const WAV_RATE = 44_100;
/** Longer files are not written: some hundred megabytes that nobody asked for. In seconds. */
export const LONGEST_WAV = 900;
/** What the count-in and the strings that ring on may add to that, in seconds. */
const BESIDE = 30;

const CHANNELS = 2;
const BYTES = 2;
const HEAD = 44;
const LARGEST = 32_767;

export interface WavOptions {
  /** Whether a bar is counted before it begins. */
  readonly countIn: boolean;
  /** Whether the beats are heard. */
  readonly click: boolean;
}

/** `timeline` may last {@link LONGEST_WAV} seconds; what is longer is cut there. */
export function wavOf(timeline: SoundTimeline, options: WavOptions): Uint8Array {
  const blocks = [...wavBlocks(timeline, options)];
  const size = blocks.reduce((sum, { length }) => sum + length, 0);
  const file = new Uint8Array(HEAD + size);
  file.set(wavHead(size));
  let at = HEAD;
  for (const block of blocks) {
    file.set(block, at);
    at += block.length;
  }
  return file;
}

/** What stands behind the head, a block at a time, for those who have other things to do meanwhile. */
export function* wavBlocks(timeline: SoundTimeline, { countIn, click }: WavOptions): Generator<Uint8Array, void, void> {
  const start = startAt(timeline.bars[0], countIn);
  const most = (LONGEST_WAV + BESIDE) * WAV_RATE;
  for (const { left, right, count } of samplesOf(renditionOf(timeline), start, {
    rate: WAV_RATE,
    metronome: click,
    most,
  })) {
    const bytes = new Uint8Array(count * CHANNELS * BYTES);
    const view = new DataView(bytes.buffer);
    for (let index = 0; index < count; index++) {
      view.setInt16(index * 4, Math.round(left[index] * LARGEST), true);
      view.setInt16(index * 4 + 2, Math.round(right[index] * LARGEST), true);
    }
    yield bytes;
  }
}

/**
 * The head of a RIFF file with plain samples, `size` bytes of them; see "Multimedia Programming Interface and Data Specifications
 * 1.0", 1991.
 */
export function wavHead(size: number): Uint8Array {
  const head = new Uint8Array(HEAD);
  writeHead(new DataView(head.buffer), size);
  return head;
}

function writeHead(view: DataView, size: number): void {
  const word = (at: number, text: string): void =>
    [...text].forEach((sign, index) => view.setUint8(at + index, sign.charCodeAt(0)));
  word(0, 'RIFF');
  view.setUint32(4, HEAD - 8 + size, true);
  word(8, 'WAVE');
  word(12, 'fmt ');
  view.setUint32(16, 16, true);
  view.setUint16(20, 1, true);
  view.setUint16(22, CHANNELS, true);
  view.setUint32(24, WAV_RATE, true);
  view.setUint32(28, WAV_RATE * CHANNELS * BYTES, true);
  view.setUint16(32, CHANNELS * BYTES, true);
  view.setUint16(34, BYTES * 8, true);
  word(36, 'data');
  view.setUint32(40, size, true);
}
