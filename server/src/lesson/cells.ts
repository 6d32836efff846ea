/** Reads `cell` and `contour`: plucks, steps and their lengths. */
import { compare, fraction, minus, parseFraction, plus, times, ZERO, type Fraction } from '../util/fraction.ts';
import type { Span } from '../util/span.ts';
import { isGroup, leaf, leaves, type Group, type Leaf, type Line } from '../syntax/tree.ts';
import { stringCount, type Instrument } from '../fretboard/instrument.ts';
import type {
  CellDefinition,
  CellNote,
  ContourDefinition,
  ContourNote,
  Meter,
  Pluck,
  PluckingFinger,
  Stroke,
  Tone,
} from './lesson.ts';
import type { Source } from './reader.ts';
import { readKey, readMeter } from './settings.ts';
import { readTone, toneFrom } from './tones.ts';

const USUAL_LENGTH = fraction(1, 8);
/** Three in the time of two. */
const TRIPLET = fraction(2, 3);
/** The shortest note there is a sign for; shorter ones are slips, and by the thousand a bar nothing keeps up with them. */
const SHORTEST_NOTE = fraction(1, 128);
/** More notes than any picking cell or melody over one chord has. */
const MOST_NOTES = 512;

/** A word of music with its length, before anyone asks what it means. */
interface TimedWord {
  readonly word: Leaf;
  /** Undefined where neither the line nor the note says a length. */
  readonly length?: Fraction;
  readonly triplet: boolean;
  /** How many bar lines stand before it. */
  readonly bar: number;
}

/** The words of the music lines in order, with the lengths that `each`, fractions and triplets give them. */
function timedWords(
  source: Source,
  lines: readonly Line[],
  each: { length?: Fraction; triplet: boolean },
): readonly TimedWord[] {
  const words: TimedWord[] = [];
  let bar = 0;
  const add = (note: Group, triplet: boolean, whole?: Fraction): void => {
    const word = leaf(note, 'sign');
    if (!word) return;
    const own = leaf(note, 'length');
    let length = own ? readLength(own, source) : each.length;
    if (length && (triplet || (each.triplet && !own))) length = times(length, TRIPLET);
    words.push({ word, length: whole ?? length, triplet: triplet || each.triplet, bar });
  };
  lines.forEach((line, i) => {
    if (i > 0 && words.length > 0 && words[words.length - 1].bar === bar) bar++;
    for (const part of line.parts) {
      if (!isGroup(part)) {
        if (part.label === 'bar-line' && words.length > 0 && words[words.length - 1].bar === bar) bar++;
      } else if (part.label === 'note') {
        add(part, false);
      } else if (part.label === 'triplet') {
        const notes = part.parts.filter((one): one is Group => isGroup(one));
        const written = leaf(part, 'length');
        const total = written && readLength(written, source, fraction(notes.length));
        for (const note of notes) add(note, true, total && times(total, fraction(1, notes.length)));
      }
    }
  });
  if (words.length > MOST_NOTES) {
    source.report('too-much', source.at(words[MOST_NOTES].word), { what: 'notes', limit: `${MOST_NOTES}` });
    words.length = MOST_NOTES;
  }
  return words;
}

/** A written length, or undefined and a problem; `shares` is how many notes have it together. */
function readLength(word: Leaf, source: Source, shares = fraction(1)): Fraction | undefined {
  const length = parseFraction(word.text);
  if (length && compare(length, times(SHORTEST_NOTE, shares)) >= 0) return length;
  source.report('bad-length', source.at(word), { found: word.text });
  return undefined;
}

function readEach(source: Source): { length?: Fraction; triplet: boolean } {
  const line = source.line('each');
  const word = leaf(line, 'length');
  const length = word && readLength(word, source);
  return { length, triplet: leaf(line, 'triplet') !== undefined };
}

export function readCell(source: Source, instrument: Instrument): CellDefinition | undefined {
  const name = leaf(source.tree.head, 'name');
  if (!name) return undefined;
  const definition = source.definition('cell', name);
  const each = readEach(source);
  const words = timedWords(source, source.lines('picks'), { ...each, length: each.length ?? USUAL_LENGTH });
  const notes: CellNote[] = [];
  const noteSpans: Span[] = [];
  const barLengths: Fraction[] = [];
  let start = ZERO;
  let barStart = ZERO;
  words.forEach(({ word, length = USUAL_LENGTH, triplet, bar }, i) => {
    if (i > 0 && words[i - 1].bar !== bar) {
      barLengths.push(minus(start, barStart));
      barStart = start;
    }
    notes.push({ start, length, triplet, ...readPicks(word, source, stringCount(instrument)) });
    noteSpans.push(source.at(word));
    start = plus(start, length);
  });
  if (words.length > 0) barLengths.push(minus(start, barStart));
  else if (!definition.broken) source.report('empty-part', definition.span, { kind: 'cell', name: definition.name });
  const written = leaf(source.tree.head, 'meter');
  const meter: Meter | undefined = written && readMeter(written.text);
  if (written && !meter) source.report('bad-meter', source.at(written), { found: written.text });
  const broken = definition.broken || words.length === 0;
  return {
    ...definition,
    kind: 'cell',
    broken,
    cell: { name: name.text, length: start, notes },
    noteSpans,
    meter,
    barLengths,
  };
}

type Picks = Pick<CellNote, 'plucks' | 'stroke' | 'rest' | 'accent'>;

/** `p6`, `p6+a1>`, `p(bass)`, `down(4 to 1)`, `r`, `-`. */
function readPicks(word: Leaf, source: Source, count: number): Picks {
  const silent: Picks = { plucks: [], rest: false, accent: false };
  const accent = word.text.endsWith('>');
  const text = accent ? word.text.slice(0, -1) : word.text;
  if (text === '-') return silent;
  if (text === 'r') return { ...silent, rest: true };
  const stroke = /^(down|up|roll|mute)(?:\(\s*(\d+)\s+to\s+(\d+)\s*\))?$/.exec(text);
  if (stroke) {
    const [from, to] = stroke
      .slice(2)
      .map((one) => (one === undefined ? undefined : source.string({ ...word, text: one }, count)));
    return { ...silent, accent, stroke: { kind: stroke[1] as Stroke['kind'], ...(from && to && { from, to }) } };
  }
  const plucks: Pluck[] = [];
  for (const one of text.split('+')) {
    const pluck = /^([pimac])(?:(\d{1,2})|\((bass|alt|top)\))$/.exec(one);
    if (!pluck) {
      source.report('unknown-pluck', source.at(word), { found: word.text });
      return silent;
    }
    const target = pluck[2] ? source.string({ ...word, text: pluck[2] }, count) : (pluck[3] as Pluck['target']);
    if (target === undefined) return silent;
    plucks.push({ finger: pluck[1] as PluckingFinger, target });
  }
  return { ...silent, accent, plucks };
}

export function readContour(source: Source, instrument: Instrument): ContourDefinition | undefined {
  const name = leaf(source.tree.head, 'name');
  if (!name) return undefined;
  const definition = source.definition('contour', name);
  const onString = leaf(source.tree.head, 'string');
  const voice = onString
    ? source.string(onString, stringCount(instrument))
    : (leaf(source.tree.head, 'voice')?.text as 'top' | 'bass' | undefined);
  const steps = source.tree.body.find((line) => line.form === 'steps');
  const startWords = leaves(steps, 'start');
  const starts = startWords.map((word) => readTone(word, source));
  const words = timedWords(source, steps ? [steps] : [], readEach(source));
  const notes = words.map(({ word, length, triplet }): ContourNote => ({ length, triplet, ...readStep(word, source) }));
  const scaleLine = source.line('scale');
  const scale = scaleLine && readKey(scaleLine, (span) => source.at(span), source.report);
  let broken = definition.broken || voice === undefined || starts.includes(undefined);
  if (!steps || (notes.length === 0 && !definition.broken)) {
    source.report('empty-part', definition.span, { kind: 'contour', name: definition.name });
    broken = true;
  }
  return {
    ...definition,
    kind: 'contour',
    broken,
    contour: {
      name: definition.name,
      voice: voice ?? 'top',
      starts: starts.flatMap((tone) => tone ?? []),
      notes,
      ...(scale && { scale }),
      finger: leaf(source.line('with'), 'finger')?.text as PluckingFinger | undefined,
    },
    noteSpans: words.map(({ word }) => source.at(word)),
    startSpans: startWords.map((word) => source.at(word)),
  };
}

type StepMeaning =
  | { readonly kind: 'step'; readonly steps: number; readonly bend: -1 | 0 | 1 }
  | { readonly kind: 'tone'; readonly tone: Tone }
  | { readonly kind: 'hold' }
  | { readonly kind: 'rest' };

/** `0`, `+1`, `-2`, `+1#` count from the start; `3`, `b3`, `R` are tones of the chord. */
function readStep(word: Leaf, source: Source): StepMeaning {
  const { text } = word;
  if (text === '-') return { kind: 'hold' };
  if (text === 'r') return { kind: 'rest' };
  const step = /^(0|[+-]\d{1,2})([#b♯♭])?$/.exec(text);
  if (step) {
    const bend = step[2] === undefined ? 0 : step[2] === '#' || step[2] === '♯' ? 1 : -1;
    return { kind: 'step', steps: Number(step[1]), bend };
  }
  // Who writes a bare 1 means a step up; the root is `R`.
  const tone = text === '1' ? undefined : toneFrom(text);
  if (tone) return { kind: 'tone', tone };
  source.report('unknown-step', source.at(word), { found: text });
  return { kind: 'hold' };
}
