/** `melody starts on 5 except bar 4`: where each melody begins, as a tone of the chord under it. */
import type { BarRange } from '../../lesson/claims.ts';
import type { Tone } from '../../lesson/lesson.ts';
import { toneFrom } from '../../lesson/tones.ts';
import { formatPitch } from '../../theory/note.ts';
import { counted } from '../words.ts';
import type { Predicate, Said, TrueClaim } from './judgement.ts';
import { melodyStarts, noMelody, type MelodyStart } from './melody.ts';
import { degreeNamed, isTone } from './sounding.ts';
import { chordNamed, judgedBy, type Stage } from './stage.ts';

/** Tones that a melody may be said to start on, the likeliest first. */
const TONES = ['R', '3', '5', '7', '9', '11', '13'].map((text) => toneFrom(text)!);

export const melodyStartsOn: Predicate<Said<'melody starts'>> = {
  judge: ({ tone, except }, stage) => {
    const { starts, missing } = melodyStarts(stage);
    if (starts.length === 0) return missing === undefined ? noMelody(stage) : { undecided: missing };
    const spokenOf = starts.filter(({ bar }) => !except || bar.number < except.first || bar.number > except.last);
    return judgedBy(
      stage,
      { shaped: spokenOf.length > 0 ? spokenOf : starts, missing },
      (start) => spokenOf.length > 0 && !isOn(stage, start, tone),
      (first, breaking) => {
        const truth = `over ${chordNamed(stage, first)} the melody starts on ${named(stage, first)}`;
        const repair = repairOf(stage, tone, except, starts, breaking);
        return repair ? { truth, repair } : { truth };
      },
    );
  },
  why: ({ tone }, stage) => {
    const on = melodyStarts(stage).starts.filter((start) => isOn(stage, start, tone));
    const pitches = [...new Set(on.map(({ note }) => formatPitch(note.shapePitch)))];
    return `${counted(on.length, 'start')} on ${tone.text}: ${pitches.join(' ')}.`;
  },
  truths: (stage) => {
    const { starts, missing } = melodyStarts(stage);
    if (starts.length === 0 || missing !== undefined) return [];
    return TONES.flatMap((tone): readonly TrueClaim[] => {
      const off = starts.filter((start) => !isOn(stage, start, tone));
      const detail = `${starts.length - off.length} of ${counted(starts.length, 'start')}`;
      if (off.length === 0) return [{ text: `melody starts on ${tone.text}`, detail }];
      const bars = exceptable(stage, starts, off);
      return bars ? [{ text: `melody starts on ${tone.text} ${exceptWords(bars)}`, detail }] : [];
    });
  },
};

const isOn = (stage: Stage, start: MelodyStart, tone: Tone): boolean =>
  isTone(stage, start, start.chord, tone, start.note.shapePitch);

/** `R, G4`. */
const named = (stage: Stage, start: MelodyStart): string =>
  `${degreeNamed(stage, start, start.chord, start.note.shapePitch)}, ${formatPitch(start.note.shapePitch)}`;

/** The few bars that are otherwise are excepted; where most are, the tone is another. */
function repairOf(
  stage: Stage,
  tone: Tone,
  except: BarRange | undefined,
  starts: readonly MelodyStart[],
  breaking: readonly MelodyStart[],
): Readonly<Record<string, string>> | undefined {
  const other = TONES.find((one) => starts.every((start) => isOn(stage, start, one)));
  if (other) return except ? { tone: other.text, except: '' } : { tone: other.text };
  const off = starts.filter((start) => !isOn(stage, start, tone));
  const bars = exceptable(stage, starts, except ? off : breaking);
  if (!bars) return undefined;
  return except ? { except: ` ${exceptWords(bars)}` } : { tone: `${tone.text} ${exceptWords(bars)}` };
}

/** The bars of `off`, where they lie in one row of one section and are the fewer ones. */
function exceptable(
  { sections }: Stage,
  starts: readonly MelodyStart[],
  off: readonly MelodyStart[],
): BarRange | undefined {
  if (sections.length !== 1 || off.length * 2 >= starts.length) return undefined;
  const first = off[0].bar.number;
  const last = off[off.length - 1].bar.number;
  const inRange = starts.filter(({ bar }) => bar.number >= first && bar.number <= last);
  return inRange.length === off.length ? { first, last } : undefined;
}

const exceptWords = ({ first, last }: BarRange): string =>
  first === last ? `except bar ${first}` : `except bars ${first} to ${last}`;
