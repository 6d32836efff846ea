/** `stringcourse shape`: names, notes, fingering and difficulty of shapes given by their frets. */
import { parseArgs } from 'node:util';
import { difficultyWord } from '../draw/facts.ts';
import { textDiagram } from '../draw/text-diagram.ts';
import { printable } from '../draw/printable.ts';
import { formatFretList, parseFretList } from '../fretboard/frets.ts';
import type { FretList } from '../fretboard/frets.ts';
import { midiAt, stringCount } from '../fretboard/instrument.ts';
import type { Instrument } from '../fretboard/instrument.ts';
import { judgeShape } from '../hand/fingering.ts';
import type { HandSize, ShapeVerdict } from '../hand/fingering.ts';
import { degreeOver, parseChord, transposeChord } from '../theory/chord.ts';
import { formatDegree } from '../theory/interval.ts';
import type { Key } from '../theory/key.ts';
import { nameVoicing } from '../theory/name-voicing.ts';
import { formatPitch, pitchFromMidi, usualName } from '../theory/note.ts';
import { readText, STANDARD_INPUT } from './files.ts';
import { complain, say } from './terminal.ts';
import { INSTRUMENT_HELP, instrumentOptions, readHand, readInstrument, readKey } from './instrument-options.ts';
import { oneOf, WrongUse } from './wrong-use.ts';

export const SHAPE_HELP = `stringcourse shape FRETS… [--tuning T] [--capo N] [--hand H] [--key K] [--format text|json]

What shapes sound and how they are held. Frets go from the lowest string to the highest: x-7-9-9-0-0 or x79900.
FRETS may be -, which reads one list a line from standard input.

${INSTRUMENT_HELP}
  --format json   one line a shape: {"frets","names","bass","notes","intervals","playable","zone","difficulty","fingerings"};
               fingerings best first, each from the lowest string up: 0 open, null silent
`;

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
    options: { ...instrumentOptions, format: { type: 'string', default: 'text' } },
  });
  const format = oneOf(values.format, '--format', ['text', 'json']);
  if (positionals.length === 0) throw new WrongUse('shape takes fret lists: stringcourse shape x-7-9-9-0-0');
  const instrument = readInstrument(values.tuning, values.capo);
  const hand = readHand(values.hand);
  const key = readKey(values.key);
  let failed = false;
  for (const written of writtenLists(positionals)) {
    const frets = parseFretList(written, stringCount(instrument));
    if (frets?.some((each) => each !== null)) {
      const named = nameShape(frets, instrument, key);
      const verdict = judgeShape(instrument, frets, hand);
      say(
        format === 'json'
          ? `${JSON.stringify({ ...named, ...held(verdict) })}\n`
          : described(named, verdict, frets, instrument, hand),
      );
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

function nameShape(frets: FretList, instrument: Instrument, key: Key | undefined): Named {
  const sounding = frets.flatMap((fret, index) =>
    fret === null ? [] : [midiAt(instrument, frets.length - index, fret)],
  );
  const { tuning } = instrument;
  const flats = tuning.strings.some(({ accidental }) => accidental < 0);
  const found = nameVoicing(sounding, { key, reentrant: tuning.reentrant, flats }).map((each) => each.name);
  const names = key ? found : [...found, ...respelled(found[0])];
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

/** Without a key `Eb7` is as right as `D#7`: the first name once more, from the other side of a black key. */
function respelled(name: string | undefined): readonly string[] {
  const chord = name === undefined ? undefined : parseChord(name);
  if (!chord || chord.root.accidental === 0) return [];
  const twin = transposeChord(chord, chord.root.accidental > 0 ? 1 : -1, 0);
  return Math.abs(twin.root.accidental) === 1 ? [twin.symbol] : [];
}

/** Most fingerings of a shape that are told. */
const MOST_FINGERINGS = 6;

const held = ({ playable, zone, difficulty, fingerings }: ShapeVerdict) => ({
  playable,
  zone,
  difficulty,
  fingerings: fingerings.slice(0, MOST_FINGERINGS).map((each) => each.fingers),
});

function described(
  named: Named,
  verdict: ShapeVerdict,
  frets: FretList,
  instrument: Instrument,
  hand: HandSize,
): string {
  const [first, ...others] = named.names;
  const [best, ...next] = verdict.fingerings.slice(0, MOST_FINGERINGS).map(({ fingers }) => formatFretList(fingers));
  const lines = [
    `${named.frets}  ${first ?? 'no chord that has a name'}${others.length > 0 ? `  (also ${others.join(', ')})` : ''}`,
    `notes      ${named.notes.join(' ')}`,
    ...(named.intervals.length > 0 ? [`intervals  ${named.intervals.join(' ')}`] : []),
    verdict.playable
      ? `difficulty ${verdict.difficulty.toFixed(1)} of 10, ${difficultyWord(verdict.difficulty)}; reach: ${verdict.zone} for a ${hand} hand`
      : `no ${hand} hand can hold it`,
    ...(best === undefined ? [] : [`fingers    ${best}${next.length > 0 ? `  (or ${next.join(', ')})` : ''}`]),
    textDiagram(frets, verdict.fingerings[0]?.fingers, instrument),
  ];
  return `${lines.map((line) => line.split('\n').map(printable).join('\n')).join('\n')}\n\n`;
}
