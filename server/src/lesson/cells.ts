/** Reads `cell` and `contour`: plucks, steps and their lengths. */
import { minus, plus, ZERO, type Fraction } from '../util/fraction.ts';
import type { Span } from '../util/span.ts';
import { leaf, leaves, type Leaf } from '../syntax/tree.ts';
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
import { readEach, timedWords, USUAL_LENGTH } from './timed-words.ts';
import { readTone, toneFrom } from './tones.ts';

export function readCell(source: Source, instrument: Instrument): CellDefinition | undefined {
  const name = leaf(source.tree.head, 'name');
  if (!name) return undefined;
  const definition = source.definition('cell', name);
  const each = readEach(source);
  const words = timedWords(source, source.lines('picks'), { ...each, length: each.length ?? USUAL_LENGTH });
  const notes: CellNote[] = [];
  const noteSpans: Span[] = [];
  const unread: (Span & { readonly found: string; readonly bar: number })[] = [];
  const barLengths: Fraction[] = [];
  let start = ZERO;
  let barStart = ZERO;
  words.forEach(({ word, length = USUAL_LENGTH, triplet, bar }, i) => {
    if (i > 0 && words[i - 1].bar !== bar) {
      barLengths.push(minus(start, barStart));
      barStart = start;
    }
    const picks = readPicks(word, source, stringCount(instrument));
    if (picks === 'unread') {
      const last = unread[unread.length - 1];
      // Words of another notation come in rows: one finding is enough for each.
      const joined = last?.bar === bar && source.tree.text.slice(last.end, word.start).trim() === '';
      if (joined) unread[unread.length - 1] = { ...last, end: word.end, found: `${last.found} ${word.text}` };
      else unread.push({ start: word.start, end: word.end, found: word.text, bar });
    }
    notes.push({ start, length, triplet, ...(picks === 'unread' ? SILENT : picks) });
    noteSpans.push(source.at(word));
    start = plus(start, length);
  });
  for (const one of unread) source.report('unknown-pluck', source.at(one), { found: one.found });
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
    unread: unread.length > 0,
  };
}

type Picks = Pick<CellNote, 'plucks' | 'stroke' | 'rest' | 'accent'>;

const SILENT: Picks = { plucks: [], rest: false, accent: false };

/** `p6`, `p6+a1>`, `p(bass)`, `down(4 to 1)`, `r`, `-`. */
function readPicks(word: Leaf, source: Source, count: number): Picks | 'unread' {
  const accent = word.text.endsWith('>');
  const text = accent ? word.text.slice(0, -1) : word.text;
  if (text === '-') return SILENT;
  if (text === 'r') return { ...SILENT, rest: true };
  const stroke = /^(down|up|roll|mute)(?:\(\s*(\d+)\s+to\s+(\d+)\s*\))?$/.exec(text);
  if (stroke) {
    const [from, to] = stroke
      .slice(2)
      .map((one) => (one === undefined ? undefined : source.string({ ...word, text: one }, count)));
    return { ...SILENT, accent, stroke: { kind: stroke[1] as Stroke['kind'], ...(from && to && { from, to }) } };
  }
  const plucks: Pluck[] = [];
  for (const one of text.split('+')) {
    const pluck = /^([pimac])(?:(\d{1,2})|\((bass|alt|top)\))$/.exec(one);
    if (!pluck) return 'unread';
    const target = pluck[2] ? source.string({ ...word, text: pluck[2] }, count) : (pluck[3] as Pluck['target']);
    if (target === undefined) return SILENT;
    plucks.push({ finger: pluck[1] as PluckingFinger, target });
  }
  return { ...SILENT, accent, plucks };
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
