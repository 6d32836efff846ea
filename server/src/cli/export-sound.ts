/** What `stringcourse export --to wav` is told: which bars, at what tempo, with what beside them. */
import type { Analysis } from '../analyze.ts';
import { soundingOf, type SoundingOptions } from '../export/sounding.ts';
import { LONGEST_WAV, wavOf } from '../export/wav.ts';
import { wholeNumber, WrongUse } from './wrong-use.ts';

export const SOUND_HELP = `  --tempo N    beats a minute of what is played first; the rest keeps its proportion
  --section S  one section alone, with its repeats
  --bars 1-4   these bars of the section, each once
  --count-in   a bar of beats before it begins
  --click      a metronome beside it
`;

export const SOUND_OPTIONS = {
  tempo: { type: 'string' },
  section: { type: 'string' },
  bars: { type: 'string' },
  'count-in': { type: 'boolean', default: false },
  click: { type: 'boolean', default: false },
} as const;

export interface SoundValues {
  readonly tempo?: string;
  readonly section?: string;
  readonly bars?: string;
  readonly 'count-in': boolean;
  readonly click: boolean;
}

const SLOWEST = 10;
const FASTEST = 600;
const MOST_BARS = 9999;

/** Told where they are given for what makes no sound. */
export function refuseSoundOptions(values: SoundValues): void {
  const given = Object.keys(SOUND_OPTIONS).find((name) => {
    const value = values[name as keyof SoundValues];
    return value !== undefined && value !== false;
  });
  if (given !== undefined) throw new WrongUse(`--${given} is for what is heard: --to wav.`);
}

export function lessonWav(analysis: Analysis, values: SoundValues): Uint8Array {
  const options = optionsOf(analysis, values);
  const timeline = soundingOf(analysis, options);
  if (timeline.notes.length === 0) throw new WrongUse('There is nothing to hear: no note of it is played.');
  if (timeline.isCut || timeline.seconds > LONGEST_WAV) {
    const long = `The file would be longer than ${LONGEST_WAV / 60} minutes`;
    throw new WrongUse(`${long}: choose a part of it with --section, and --bars.`);
  }
  return wavOf(timeline, { countIn: values['count-in'], click: values.click });
}

function optionsOf({ lesson }: Analysis, values: SoundValues): SoundingOptions {
  const perMinute = values.tempo === undefined ? undefined : wholeNumber(values.tempo, '--tempo', SLOWEST, FASTEST);
  const section = sectionOf(lesson, values);
  const bars = values.bars === undefined ? undefined : barsOf(values.bars);
  if (bars && section !== undefined) {
    const numbers = lesson.sections[section].plan.bars.map(({ number }) => number);
    const last = Math.max(...numbers);
    if (bars.first > last) throw new WrongUse(`--bars ${values.bars} is behind the end: the last bar is ${last}.`);
  }
  return {
    ...(perMinute !== undefined && { perMinute }),
    ...(section !== undefined && { section }),
    ...(bars && { bars }),
  };
}

/** Undefined for the whole form. Bars are of a section; where there is one alone it need not be named. */
function sectionOf({ sections }: Analysis['lesson'], { section, bars }: SoundValues): number | undefined {
  const names = sections.map(({ name }) => name);
  const there = names.length === 0 ? 'the lesson has no sections' : `there is ${[...new Set(names)].join(', ')}`;
  if (section === undefined) {
    if (bars === undefined) return undefined;
    if (names.length === 1) return 0;
    throw new WrongUse(`--bars must know of which --section: ${there}.`);
  }
  const index = names.indexOf(section);
  if (index < 0) throw new WrongUse(`No section is called "${section}": ${there}.`);
  return index;
}

function barsOf(text: string): NonNullable<SoundingOptions['bars']> {
  const [first, last = first, ...more] = text.split('-');
  if (more.length > 0) throw new WrongUse(`--bars takes two numbers, as 1-4, not "${text}".`);
  const from = wholeNumber(first, '--bars', 0, MOST_BARS);
  const to = wholeNumber(last, '--bars', 0, MOST_BARS);
  if (to < from) throw new WrongUse(`--bars ${text} ends before it begins.`);
  return { first: from, last: to };
}
