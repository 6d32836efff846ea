/** `stringcourse shape`: names, notes, fingering and difficulty of shapes given by their frets. */
import { parseArgs } from 'node:util';
import { difficultyWord } from '../draw/facts.ts';
import { textDiagram } from '../draw/text-diagram.ts';
import { printable } from '../draw/text-tab.ts';
import { formatFretList, parseFretList } from '../fretboard/frets.ts';
import type { FretList } from '../fretboard/frets.ts';
import { instrumentWith, midiAt, stringCount } from '../fretboard/instrument.ts';
import type { Instrument } from '../fretboard/instrument.ts';
import { tuningNamed, tuningOf } from '../fretboard/tuning.ts';
import type { Tuning } from '../fretboard/tuning.ts';
import { judgeShape } from '../hand/fingering.ts';
import { degreeOver, parseChord } from '../theory/chord.ts';
import { formatDegree } from '../theory/interval.ts';
import { parseKey } from '../theory/key.ts';
import type { Key } from '../theory/key.ts';
import { nameVoicing } from '../theory/name-voicing.ts';
import { formatPitch, parsePitch, pitchFromMidi, usualName } from '../theory/note.ts';
import type { Pitch } from '../theory/note.ts';
import { readText, STANDARD_INPUT } from './files.ts';
import { complain, say } from './terminal.ts';
import { oneOf, wholeNumber, WrongUse } from './wrong-use.ts';

export const SHAPE_HELP = `stringcourse shape FRETS… [--tuning T] [--capo N] [--key K] [--format text|json]

What shapes sound and how they are held. Frets go from the lowest string to the highest: x-7-9-9-0-0 or x79900.
FRETS may be -, which reads one list a line from standard input.

  --tuning     a tuning's name (drop-d) or its notes from low to high ("D2 A2 D3 G3 A3 D4")
  --capo       the fret it lies at; frets count from it
  --key        decides between names that are equally right, and spells them ("E minor")
  --format json   one line a shape: {"frets","names","bass","notes","intervals"}
`;

/** A neck may have this many; the engine's table of frets goes on. */
const HIGHEST_CAPO = 12;
/** Fret lists of one run. */
const MOST_SHAPES = 1_000_000;

interface Named {
  readonly frets: string;
  readonly names: readonly string[];
  readonly bass: string;
  readonly notes: readonly string[];
  readonly intervals: readonly string[];
}

/** The exit status. */
export function shape(args: readonly string[]): number {
  const { values, positionals } = parseArgs({
    args: [...args],
    allowPositionals: true,
    options: {
      tuning: { type: 'string', default: 'standard' },
      capo: { type: 'string' },
      key: { type: 'string' },
      format: { type: 'string', default: 'text' },
    },
  });
  const format = oneOf(values.format, '--format', ['text', 'json']);
  if (positionals.length === 0) throw new WrongUse('shape takes fret lists: stringcourse shape x-7-9-9-0-0');
  const tuning = readTuning(values.tuning);
  const fret = values.capo === undefined ? 0 : wholeNumber(values.capo, '--capo', 0, HIGHEST_CAPO);
  const instrument = instrumentWith(tuning, fret > 0 ? { capo: { fret } } : {});
  const key = values.key === undefined ? undefined : parseKey(values.key);
  if (values.key !== undefined && !key) throw new WrongUse(`--key takes a key such as "E minor", not "${values.key}".`);
  let failed = false;
  for (const written of writtenLists(positionals)) {
    const frets = parseFretList(written, stringCount(instrument));
    if (frets?.some((each) => each !== null)) {
      const named = nameShape(frets, instrument, key);
      say(format === 'json' ? `${JSON.stringify(named)}\n` : described(named, frets, instrument));
    } else {
      failed = true;
      complain(`"${written}" is no fret list for ${stringCount(instrument)} strings, such as ${example(instrument)}.`);
    }
  }
  return failed ? 2 : 0;
}

const example = (instrument: Instrument): string =>
  formatFretList(Array.from({ length: stringCount(instrument) }, (_, index) => (index === 0 ? null : 0)));

function writtenLists(positionals: readonly string[]): readonly string[] {
  const lists = positionals.flatMap((each) =>
    each === STANDARD_INPUT
      ? readText(STANDARD_INPUT)
          .split(/\r?\n/)
          .map((line) => line.trim())
          .filter((line) => line !== '')
      : [each],
  );
  if (lists.length > MOST_SHAPES) throw new WrongUse(`More than ${MOST_SHAPES} shapes are too many for one run.`);
  return lists;
}

function readTuning(text: string): Tuning {
  const named = tuningNamed(text.trim().toLowerCase());
  if (named) return named;
  const notes = text
    .trim()
    .split(/[\s,]+/)
    .map(parsePitch);
  const tuning = notes.every((note): note is Pitch => note !== undefined) ? tuningOf(notes) : undefined;
  if (tuning) return tuning;
  throw new WrongUse(
    `--tuning takes a name such as drop-d or 3 to 12 notes such as "D2 A2 D3 G3 A3 D4", not "${text}".`,
  );
}

function nameShape(frets: FretList, instrument: Instrument, key: Key | undefined): Named {
  const sounding = frets.flatMap((fret, index) =>
    fret === null ? [] : [midiAt(instrument, frets.length - index, fret)],
  );
  const names = nameVoicing(sounding, { key, reentrant: instrument.tuning.reentrant }).map((each) => each.name);
  const chord = names.length > 0 ? parseChord(names[0]) : undefined;
  const tones = sounding.map((midi) => chord && degreeOver(chord, midi % 12, key));
  const pitches = sounding.map((midi, index) => pitchFromMidi(midi, tones[index]?.name ?? usualName(midi % 12)));
  const lowest = sounding.indexOf(Math.min(...sounding));
  return {
    frets: formatFretList(frets),
    names,
    bass: formatPitch(pitches[lowest]),
    notes: pitches.map(formatPitch),
    intervals: tones.flatMap((tone) => (tone ? [formatDegree(tone.degree, '1')] : [])),
  };
}

function described(named: Named, frets: FretList, instrument: Instrument): string {
  const verdict = judgeShape(instrument, frets, 'medium');
  const [first, ...others] = named.names;
  const lines = [
    `${named.frets}  ${first ?? 'no chord that has a name'}${others.length > 0 ? `  (also ${others.join(', ')})` : ''}`,
    `notes      ${named.notes.join(' ')}`,
    ...(named.intervals.length > 0 ? [`intervals  ${named.intervals.join(' ')}`] : []),
    verdict.playable
      ? `difficulty ${verdict.difficulty.toFixed(1)} of 10, ${difficultyWord(verdict.difficulty)}; reach: ${verdict.zone}`
      : 'no hand of medium size can hold it',
    textDiagram(frets, verdict.fingerings[0]?.fingers, instrument),
  ];
  return `${lines.map((line) => line.split('\n').map(printable).join('\n')).join('\n')}\n\n`;
}
