/** What stands at the head of a lesson, in words: key, meter, tempo, swing, tuning, capo, level, hand, difficulty, findings. */
import { stringCount } from '../fretboard/instrument.ts';
import type { Instrument } from '../fretboard/instrument.ts';
import type { Lesson, Meter, SectionPlan, Settings, Tempo } from '../lesson/lesson.ts';
import type { Score, Voicing } from '../realise/score.ts';
import { soundingKey } from '../realise/sounding.ts';
import { formatKey } from '../theory/key.ts';
import type { Key } from '../theory/key.ts';
import { formatNoteName } from '../theory/note.ts';
import type { Finding } from '../util/finding.ts';
import { beatWords } from './rhythm.ts';
import { counted } from './spoken.ts';

export interface Fact {
  readonly kind: 'key' | 'meter' | 'tempo' | 'swing' | 'tuning' | 'capo' | 'level' | 'hand' | 'difficulty' | 'findings';
  readonly text: string;
}

/** The most difficulty, in tenths, of which each word is said. 3.5 is a beginner's limit, 6.5 the least of an extreme reach. */
const DIFFICULTY_WORDS: readonly (readonly [number, string])[] = [
  [19, 'easy'],
  [35, 'moderate'],
  [64, 'hard'],
  [Infinity, 'very hard'],
];

/** `easy` … `very hard`, for a difficulty from 0 to 10. */
export const difficultyWord = (difficulty: number): string =>
  DIFFICULTY_WORDS.find(([most]) => Math.round(difficulty * 10) <= most)![1];

export const voicingDifficulty = (voicing: Voicing): string =>
  voicing.verdict.playable ? difficultyWord(voicing.verdict.difficulty) : 'not playable';

export function factsOf(lesson: Lesson, score: Score, findings: readonly Finding[]): readonly Fact[] {
  const { settings } = lesson;
  const { instrument } = settings;
  const facts: Fact[] = [
    { kind: 'key', text: keyWords(settings.key, instrument) },
    { kind: 'meter', text: meterWords(settings.meter) },
    { kind: 'tempo', text: tempoWords(settings.tempo) },
  ];
  if (settings.swing) facts.push({ kind: 'swing', text: `swung ${beatWords(settings.swing)}s` });
  facts.push({ kind: 'tuning', text: tuningWords(instrument) });
  if (instrument.capo) facts.push({ kind: 'capo', text: capoWords(instrument) });
  if (settings.level !== undefined) facts.push({ kind: 'level', text: `level ${settings.level}` });
  facts.push({ kind: 'hand', text: `${settings.hand} hand` });
  const difficulty = difficultyOf(score);
  if (difficulty !== undefined)
    facts.push({ kind: 'difficulty', text: `difficulty ${difficulty.toFixed(1)}, ${difficultyWord(difficulty)}` });
  facts.push({ kind: 'findings', text: findingsWords(findings) });
  return facts;
}

/** `G major`; with a capo, or in a tuning lowered as a whole, also what it sounds: `G major, sounding Bb major`. */
export function keyWords(key: Key, instrument: Instrument): string {
  const [written, sounding] = [formatKey(key), formatKey(soundingKey(key, instrument))];
  return written === sounding ? written : `${written}, sounding ${sounding}`;
}

export const meterWords = (meter: Meter): string => `${meter.beats}/${meter.unit}`;

/** `quarter = 84`, `dotted quarter = 60`. */
export const tempoWords = (tempo: Tempo): string => `${beatWords(tempo.beat)} = ${tempo.perMinute}`;

/** `standard tuning, E A D G B E`; a tuning given by its notes has no name of its own. */
function tuningWords({ tuning }: Instrument): string {
  const notes = tuning.strings.map(formatNoteName).join(' ');
  return /^[a-z]/.test(tuning.name) ? `${tuning.name} tuning, ${notes}` : `tuning ${notes}`;
}

function capoWords(instrument: Instrument): string {
  const { fret, strings } = instrument.capo!;
  if (!strings || strings.length >= stringCount(instrument)) return `capo ${fret}`;
  return `capo ${fret} on string${strings.length === 1 ? '' : 's'} ${strings.join(' ')}`;
}

/** What a section does differently from its lesson: its own key, meter and tempo, and how often it is played. */
export function sectionFacts(plan: SectionPlan, settings: Settings): readonly string[] {
  const words = (one: Pick<Settings, 'key' | 'meter' | 'tempo'>): readonly string[] => [
    keyWords(one.key, settings.instrument),
    meterWords(one.meter),
    tempoWords(one.tempo),
  ];
  const usual = words(settings);
  const own = words(plan).filter((word, index) => word !== usual[index]);
  return plan.times === 1 ? own : [...own, plan.times === 2 ? 'twice' : counted(plan.times, 'time')];
}

/** The mean of the sections' difficulties by their bars; undefined where no bar is played. */
export function difficultyOf(score: Score): number | undefined {
  let sum = 0;
  let bars = 0;
  for (const section of score.sections) {
    // Bars without a shape are neither easy nor hard.
    const held = section.bars.filter((bar) => bar.chords.some((chord) => chord.voicing)).length;
    sum += section.difficulty * held;
    bars += held;
  }
  return bars === 0 ? undefined : sum / bars;
}

/** `two errors and one hint`; `no findings`. */
export function findingsWords(findings: readonly Finding[]): string {
  const words = (
    [
      ['error', 'error'],
      ['warning', 'warning'],
      ['hint', 'hint'],
      ['information', 'remark'],
    ] as const
  ).flatMap(([severity, word]) => {
    const count = findings.filter((finding) => finding.severity === severity).length;
    return count === 0 ? [] : [counted(count, word)];
  });
  if (words.length === 0) return 'no findings';
  return words.length === 1 ? words[0] : `${words.slice(0, -1).join(', ')} and ${words[words.length - 1]}`;
}
