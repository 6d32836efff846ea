/** Reads the settings: instrument, hand, key, meter and tempo, with what holds where nothing is said. */
import type { Report } from './reader.ts';
import type { Meter, Settings, Tempo } from './lesson.ts';
import type { Source } from './reader.ts';
import { fraction, parseFraction, type Fraction } from '../util/fraction.ts';
import { nearest } from '../util/nearest.ts';
import type { Span } from '../util/span.ts';
import { leaf, leaves, type Line } from '../syntax/tree.ts';
import { formatKey, keyOf, modeNames, parseKey, type Key } from '../theory/key.ts';
import { parseNoteName, parsePitch, type Pitch } from '../theory/note.ts';
import { instrumentWith, stringCount, type Capo, type Instrument } from '../fretboard/instrument.ts';
import { FEWEST_STRINGS, MOST_STRINGS, tuningNamed, tuningNames, tuningOf, type Tuning } from '../fretboard/tuning.ts';
import { HIGHEST_FRET } from '../fretboard/fret-positions.ts';

/** The statements that set something for the whole lesson; a variant may have each as a line. */
export const SETTINGS: readonly string[] = [
  'tuning',
  'capo',
  'no',
  'frets',
  'scale-length',
  'hand',
  'key',
  'meter',
  'tempo',
  'swing',
];
const FEWEST_FRETS = 5;
const SHORTEST_SCALE = 200;
const LONGEST_SCALE = 1200;
/** Beats a minute. */
export const SLOWEST = 20;
export const FASTEST = 400;
const MOST_BEATS = 32;
const SWUNG = ['1/4', '1/8', '1/16'];
const BEAT_UNITS = [1, 2, 4, 8, 16, 32];

const C_MAJOR: Key = keyOf({ letter: 0, accidental: 0 }, 'major')!;

/** Reads a line `key …`, a `scale …` or the `in …` of a progression or chord: all leave `tonic` and `mode` words. */
export function readKey(node: Parameters<typeof leaf>[0], at: (span: Span) => Span, report: Report): Key | undefined {
  const tonic = leaf(node, 'tonic');
  if (!tonic) return undefined;
  const modes = leaves(node, 'mode');
  const written = [tonic, ...modes].map((word) => word.text).join(' ');
  const span = at({ start: tonic.start, end: (modes[modes.length - 1] ?? tonic).end });
  const key = parseKey(written);
  if (key && (modes.length > 0 || tonic.text.length > 1)) return key;
  const note = parseNoteName(tonic.text[0].toUpperCase() + tonic.text.slice(1));
  const mode = nearest(modes.map((word) => word.text).join(' '), modeNames()) ?? 'major';
  report('unknown-key', span, { found: written, right: note ? formatKey(keyOf(note, mode)!) : '' });
  return key;
}

/** `6/8` counts dotted quarters, `3/4` quarters, as players do. */
export function readMeter(text: string): Meter | undefined {
  const [beats, unit] = text.split('/').map(Number);
  if (!(beats >= 1 && beats <= MOST_BEATS) || !BEAT_UNITS.includes(unit)) return undefined;
  const compound = unit >= 8 && beats > 3 && beats % 3 === 0;
  return { beats, unit, bar: fraction(beats, unit), beat: compound ? fraction(3, unit) : fraction(1, unit) };
}

export function meterOf(line: Line, source: Source): Meter | undefined {
  const written = leaf(line, 'meter');
  const meter = written && readMeter(written.text);
  if (written && !meter) source.report('bad-meter', source.at(written), { found: written.text });
  return meter;
}

/** `tempo 84` counts the meter's beat; `tempo 3/8 = 60` its own. */
export function tempoOf(line: Line, source: Source, meter: Meter): Tempo | undefined {
  const perMinute = source.number(leaf(line, 'tempo'), 'the tempo', SLOWEST, FASTEST);
  const beat = leaf(line, 'beat');
  const counted = beat ? parseFraction(beat.text) : meter.beat;
  return perMinute === undefined || !counted ? undefined : { perMinute, beat: counted };
}

/** Settings before anything is said. */
function plainSettings(): Settings {
  const meter = readMeter('4/4')!;
  return {
    instrument: instrumentWith(tuningNamed('standard')!),
    hand: 'medium',
    key: C_MAJOR,
    meter,
    tempo: { perMinute: 90, beat: meter.beat },
  };
}

/** All settings of a lesson, from its own statements, and where each of them stands. */
export function readSettings(
  sources: readonly Source[],
  level: number | undefined,
): { settings: Settings; spans: Record<string, Span> } {
  const spans: Record<string, Span> = {};
  const lines = new Map<string, { line: Line; source: Source }>();
  for (const source of sources) {
    const { keyword, head } = source.tree;
    const name = keyword === 'no' ? 'capo' : keyword!;
    if (lines.has(name)) source.report('said-twice', source.at(head.keyword), { word: keyword!, statement: 'lesson' });
    else {
      lines.set(name, { line: head, source });
      spans[name] = source.at(head);
    }
  }
  const read = <T>(name: string, reader: (line: Line, source: Source) => T | undefined): T | undefined => {
    const found = lines.get(name);
    return found && !found.line.broken ? reader(found.line, found.source) : undefined;
  };
  const plain = plainSettings();
  const meter = read('meter', meterOf) ?? plain.meter;
  const tuning = read('tuning', readTuning) ?? plain.instrument.tuning;
  const frets = read('frets', (line, source) =>
    source.number(leaf(line, 'fret'), 'the number of frets', FEWEST_FRETS, HIGHEST_FRET),
  );
  const scaleLength = read('scale-length', readScaleLength);
  const bare = instrumentWith(tuning, { ...(frets && { frets }), ...(scaleLength && { scaleLength }) });
  const capo = read('capo', (line, source) => readCapo(line, source, bare));
  const settings: Settings = {
    instrument: capo ? { ...bare, capo } : bare,
    hand: (read('hand', (line) => leaf(line, 'hand')?.text) as Settings['hand'] | undefined) ?? plain.hand,
    key: read('key', (line, source) => readKey(line, (span) => source.at(span), source.report)) ?? plain.key,
    meter,
    tempo: read('tempo', (line, source) => tempoOf(line, source, meter)) ?? { ...plain.tempo, beat: meter.beat },
    swing: read('swing', readSwing),
    level,
  };
  return { settings, spans };
}

function readScaleLength(line: Line, source: Source): number | undefined {
  const measure = leaf(line, 'measure');
  return (
    measure &&
    source.number(
      { ...measure, text: measure.text.replace('mm', '') },
      'the scale length',
      SHORTEST_SCALE,
      LONGEST_SCALE,
    )
  );
}

/** A tuning by name, forgiving blanks and capitals (`dropped D`), or by its notes. */
function readTuning(line: Line, source: Source): Tuning | undefined {
  const words = leaves(line, 'tuning');
  const span = source.at({ start: words[0].start, end: words[words.length - 1].end });
  const joined = words.map((word) => word.text.toLowerCase()).join('-');
  const named = tuningNamed(joined) ?? tuningNamed(joined.replace(/^dropped-/, 'drop-'));
  if (named) return named;
  const spoken = tuningSpoken(words.map((word) => word.text));
  if (spoken) {
    source.report('unknown-tuning', span, { found: words.map((word) => word.text).join(' '), right: spoken.name });
    return spoken;
  }
  const pitches = words.map((word) => parsePitch(word.text));
  if (words.length === 1 && !pitches[0]) {
    const { text } = words[0];
    // `DADGBE` spells a tuning, and must not be taken for another one's name.
    const spelt = text === text.toUpperCase() && /^(?:[A-G][#b]?){3,12}$/i.test(text);
    const names = tuningNames.map((one) => one.name);
    const right = (spelt ? tuningSpelt(text) : nearest(joined, names)) ?? '';
    source.report('unknown-tuning', span, { found: words[0].text, right });
    return undefined;
  }
  const wrong = pitches.findIndex((pitch) => !pitch);
  const letters = words.map((word) => word.text).join('');
  const meant = wrong >= 0 && tuningSpelt(letters);
  if (meant) {
    source.report('unknown-tuning', span, { found: words.map((word) => word.text).join(' '), right: meant });
    return tuningNamed(meant);
  }
  if (wrong >= 0) {
    source.report('unknown-note', source.at(words[wrong]), { found: words[wrong].text });
    return undefined;
  }
  const tuning = tuningOf(pitches as Pitch[]);
  if (!tuning) {
    const data = { count: `${words.length}`, least: `${FEWEST_STRINGS}`, most: `${MOST_STRINGS}` };
    source.report('tuning-string-count', span, data);
  }
  return tuning;
}

/** `E standard` and the like: the note that the lowest string has in a tuning that is standard but for its height. */
const STANDARDS: Readonly<Record<string, string>> = {
  e: 'standard',
  eb: 'half-step-down',
  'd#': 'half-step-down',
  d: 'whole-step-down',
};

/** A name with more said of it: `standard E`, `D standard`, `dadgad D A D G A D`. Undefined for what is no name of ours. */
function tuningSpoken(words: readonly string[]): Tuning | undefined {
  const lower = words.map((word) => word.toLowerCase());
  const note = lower.length === 2 && lower.includes('standard') ? lower.find((word) => word !== 'standard') : undefined;
  if (note !== undefined) return tuningNamed(STANDARDS[note] ?? '');
  const isLetters = (word: string): boolean => /^(?:[a-g][#b]?\d?)+$/.test(word);
  for (let count = lower.length - 1; count > 0; count--) {
    const named = tuningNamed(lower.slice(0, count).join('-'));
    if (named && lower.slice(count).every(isLetters)) return named;
  }
  return undefined;
}

/** The first tuning in our list that has these notes, in whatever octaves: `DADGBE` is drop-d. */
const tuningSpelt = (letters: string): string | undefined =>
  tuningNames.find(({ notes }) => notes.replaceAll(/[\d ]/g, '').toLowerCase() === letters.toLowerCase())?.name;

/** Pairs of quarters, eighths or sixteenths can swing; nothing else comes in pairs that a beat holds. */
function readSwing(line: Line, source: Source): Fraction | undefined {
  const length = leaf(line, 'length');
  if (!length) return undefined;
  if (SWUNG.includes(length.text)) return parseFraction(length.text);
  source.report('bad-swing', source.at(length), { found: length.text });
  return undefined;
}

function readCapo(line: Line, source: Source, instrument: Instrument): Capo | undefined {
  if (leaf(line, 'fret') === undefined) return undefined;
  const fret = source.number(leaf(line, 'fret'), 'the capo’s fret', 1, instrument.frets - 1);
  const strings: number[] = [];
  for (const word of leaves(line, 'string')) {
    const string = source.string(word, stringCount(instrument));
    if (string === undefined) continue;
    if (strings.includes(string))
      source.report('string-said-twice', source.at(word), { string: word.text, of: 'capo' });
    else strings.push(string);
  }
  if (fret === undefined) return undefined;
  return strings.length > 0 ? { fret, strings } : { fret };
}
