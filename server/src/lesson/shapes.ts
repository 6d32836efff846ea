/** Reads `shape` and `grip`. */
import { parseChord } from '../theory/chord.ts';
import { parseFretList, type FretList } from '../fretboard/frets.ts';
import { stringCount, type Instrument } from '../fretboard/instrument.ts';
import { leaf, leaves, type Leaf, type Line } from '../syntax/tree.ts';
import type { GripDefinition, ShapeDefinition, Tone } from './lesson.ts';
import type { Source } from './reader.ts';
import { readTone } from './tones.ts';

/** Where no line says how far a shape may go, it may lie anywhere up to here. */
const USUAL_HIGHEST_FRET = 12;

export function readShape(source: Source, instrument: Instrument): ShapeDefinition | undefined {
  const name = leaf(source.tree.head, 'name');
  if (!name) return undefined;
  const definition = source.definition('shape', name);
  const count = stringCount(instrument);
  const seen = new Set<number>();
  const readStrings = (words: readonly Leaf[]): readonly { string: number; word: Leaf }[] =>
    words.flatMap((word) => {
      const string = source.string(word, count);
      if (string === undefined) return [];
      if (seen.has(string)) {
        source.report('string-said-twice', source.at(word), { string: word.text });
        return [];
      }
      seen.add(string);
      return [{ string, word }];
    });

  const stringWords = leaves(source.line('strings'), 'string');
  const strings = readStrings(stringWords);
  const openLine = source.line('open');
  const open = readStrings(leaves(openLine, 'string'));
  const tonesLine = source.line('tones');
  const tones =
    tonesLine && leaves(tonesLine, 'tone').map((word) => (word.text === 'any' ? 'any' : readTone(word, source)));
  const spacing = leaf(source.line('spacing'), 'spacing')?.text as 'close' | 'spread' | undefined;
  const frets = source.line('frets');
  const from = source.number(leaf(frets, 'from'), 'the lowest fret', 0, instrument.frets) ?? 1;
  const highestFret = source.number(leaf(frets, 'to'), 'the highest fret', from, instrument.frets);
  // A range that runs backwards says nothing of either end: with one of them no chord would have a voicing.
  const lowestFret = leaf(frets, 'to') && highestFret === undefined ? 1 : from;
  let broken = definition.broken || strings.length !== stringWords.length || (tones?.includes(undefined) ?? false);

  if (stringWords.length === 0 && !source.tree.body.some((line) => line.form === 'strings')) {
    source.report('shape-incomplete', definition.span, { name: definition.name, missing: 'strings' });
    broken = true;
  }
  if (tonesLine && tones && !broken && tones.length !== strings.length) {
    const data = { tones: `${tones.length}`, strings: `${strings.length}` };
    source.report('tones-miscounted', source.at(tonesLine), data);
    broken = true;
  }
  if (tonesLine && spacing) source.report('tones-and-spacing', definition.lines.spacing, {});
  return {
    ...definition,
    kind: 'shape',
    broken,
    rule: {
      name: definition.name,
      strings: strings.map((one) => one.string),
      ...(tones && !broken && { tones: tones as (Tone | 'any')[] }),
      ...(spacing && !tonesLine && { spacing }),
      bass: readFirstTone(source, 'bass'),
      top: readFirstTone(source, 'top'),
      open: leaf(openLine, 'any') ? 'any' : open.map((one) => one.string),
      colour: source.line('colour') && readTones(source, 'colour'),
      avoid: readTones(source, 'avoid'),
      lowestFret,
      highestFret: highestFret ?? Math.max(lowestFret, Math.min(USUAL_HIGHEST_FRET, instrument.frets)),
      reach: source.number(leaf(source.line('reach'), 'fret'), 'the reach', 0, instrument.frets),
      barre: source.line('barre') === undefined,
    },
    stringSpans: strings.map((one) => source.at(one.word)),
    openSpans: open.map((one) => source.at(one.word)),
  };
}

const readTones = (source: Source, form: string): readonly Tone[] =>
  leaves(source.line(form), 'tone').flatMap((word) => readTone(word, source) ?? []);

const readFirstTone = (source: Source, form: string): Tone | undefined => readTones(source, form)[0];

export function readGrip(source: Source, instrument: Instrument): GripDefinition | undefined {
  const symbol = leaf(source.tree.head, 'chord');
  const fretsWord = leaf(source.tree.head, 'frets');
  if (!symbol || !fretsWord) return undefined;
  const count = stringCount(instrument);
  const chord = parseChord(symbol.text);
  if (!chord) source.report('unknown-chord', source.at(symbol), { found: symbol.text });
  const whole = source.tree.body.map((line) => line.end);
  const lines = Object.fromEntries(source.tree.body.map((line) => [line.form, source.at(line)]));
  const fingers = readFingers(source, source.line('fingers'), count);
  const bassStrings = leaves(source.line('bass'), 'string').flatMap((word) => source.string(word, count) ?? []);
  return {
    kind: 'grip',
    // A grip goes by the chord's name, so that `Amin` and `Am` are one.
    name: chord?.symbol ?? symbol.text,
    span: source.at(symbol),
    whole: source.at({ start: source.tree.head.start, end: Math.max(source.tree.head.end, ...whole) }),
    lines,
    broken: !chord,
    chord,
    frets: readFrets(source, fretsWord, count, instrument),
    fretsSpan: source.at(fretsWord),
    fingers,
    ...(bassStrings.length > 0 && { bassStrings }),
  };
}

/** A fret list of as many strings as there are, on the neck; or undefined and a problem. */
export function readFrets(source: Source, word: Leaf, count: number, instrument: Instrument): FretList | undefined {
  const frets = parseFretList(word.text, 0);
  if (!frets || frets.length !== count) {
    source.report('frets-miscounted', source.at(word), {
      found: word.text,
      count: `${frets?.length ?? 0}`,
      strings: `${count}`,
    });
    return undefined;
  }
  const highest = Math.max(0, ...frets.map((fret) => fret ?? 0));
  if (highest > instrument.frets) {
    const data = { what: 'a fret', found: `${highest}`, least: '0', most: `${instrument.frets}` };
    source.report('number-out-of-range', source.at(word), data);
    return undefined;
  }
  return frets;
}

function readFingers(source: Source, line: Line | undefined, count: number): FretList | undefined {
  const word = leaf(line, 'fingers');
  if (!word) return undefined;
  const fingers = parseFretList(word.text, 0);
  if (fingers?.length === count && fingers.every((finger) => finger === null || finger <= 4)) return fingers;
  source.report('fingers-miscounted', source.at(word), { found: word.text, strings: `${count}` });
  return undefined;
}
