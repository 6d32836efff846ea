/** Section plans out of a few words, for tests of what becomes of them: no parser stands between the test and the score. */
import { parseChord } from '../../server/src/theory/chord.ts';
import { parseDegree } from '../../server/src/theory/interval.ts';
import { parseKey, scaleOver } from '../../server/src/theory/key.ts';
import { parsePitch } from '../../server/src/theory/note.ts';
import { parseFretList, formatFretList } from '../../server/src/fretboard/frets.ts';
import { instrumentWith, type Capo, type Instrument } from '../../server/src/fretboard/instrument.ts';
import { tuningNamed, tuningOf } from '../../server/src/fretboard/tuning.ts';
import type {
  BarPlan,
  Cell,
  CellNote,
  ChordPlan,
  Contour,
  ContourNote,
  Meter,
  Pluck,
  PluckingFinger,
  SectionPlan,
  Settings,
  ShapeRule,
  Tone,
} from '../../server/src/lesson/lesson.ts';
import type { BarScore, NoteEvent } from '../../server/src/realise/score.ts';
import {
  equal,
  formatFraction,
  fraction,
  parseFraction,
  plus,
  times,
  ZERO,
  type Fraction,
} from '../../server/src/util/fraction.ts';

const needed = <T>(value: T | undefined, what: string): T => {
  if (value === undefined) throw new Error(`The test says ${what}, which is nothing`);
  return value;
};

export const chord = (symbol: string) => needed(parseChord(symbol), symbol);
export const key = (name: string) => needed(parseKey(name), name);
const length = (text: string): Fraction => needed(parseFraction(text), text);

export function tone(text: string): Tone {
  return { degree: needed(parseDegree(text), text), absolute: /^[#b]/.test(text), text };
}

/** A tuning's name or its notes. */
export function instrument(tuning = 'standard', capo?: Capo): Instrument {
  const named = tuningNamed(tuning) ?? tuningOf(tuning.split(' ').map((note) => needed(parsePitch(note), note)));
  return instrumentWith(needed(named, tuning), capo ? { capo } : {});
}

export function meter(text: string): Meter {
  const [beats, unit] = text.split('/').map(Number);
  const compound = unit === 8 && beats % 3 === 0;
  return { beats, unit, bar: fraction(beats, unit), beat: compound ? fraction(3, 8) : fraction(1, unit) };
}

export function settingsOf(said: Partial<Settings> = {}): Settings {
  const usual = { instrument: instrument(), hand: 'medium' as const, key: key('G major'), meter: meter('4/4') };
  return { ...usual, tempo: { perMinute: 84, beat: fraction(1, 4) }, ...said };
}

/** A shape by its lines as an author writes them. */
export function shapeOf(...lines: readonly string[]): ShapeRule {
  const words = new Map(lines.map((line) => [line.split(' ')[0], line.split(' ').slice(1)]));
  const frets = words.get('frets');
  const open = words.get('open') ?? [];
  const tones = words.get('tones')?.map((word) => (word === 'any' ? ('any' as const) : tone(word)));
  const one = (line: string): Tone | undefined => words.get(line)?.map(tone)[0];
  return {
    name: 'shape',
    strings: needed(words.get('strings'), 'strings').map(Number),
    ...(tones && { tones }),
    ...(words.has('spacing') && { spacing: words.get('spacing')![0] as 'close' | 'spread' }),
    bass: one('bass'),
    top: one('top'),
    open: open[0] === 'any' ? 'any' : open.map(Number),
    colour: words.get('colour')?.map(tone),
    avoid: words.get('avoid')?.map(tone) ?? [],
    lowestFret: Number(frets?.[0] ?? 1),
    highestFret: Number(frets?.[2] ?? 12),
    ...(words.has('reach') && { reach: Number(words.get('reach')![0]) }),
    barre: !words.has('barre'),
  };
}

/** `each 1/8`, then the cell's notes: `p4 i3+m2> - r down p(bass)`, a length after any of them. */
export function cellOf(each: string, notes: string): Cell {
  const usual = length(each.split(' ')[1]);
  const triplet = each.endsWith('triplet');
  const list: CellNote[] = [];
  let at = ZERO;
  const words = notes.split(/\s+/);
  words.forEach((word, index) => {
    if (/^\d+\/\d+$/.test(word)) return;
    const own = /^\d+\/\d+$/.test(words[index + 1] ?? '') ? length(words[index + 1]) : usual;
    const real = triplet ? times(own, fraction(2, 3)) : own;
    list.push({ start: at, length: real, ...cellNote(word), accent: word.endsWith('>'), triplet });
    at = plus(at, real);
  });
  return { name: 'cell', length: at, notes: list };
}

function cellNote(word: string): Pick<CellNote, 'plucks' | 'stroke' | 'rest'> {
  const bare = word.replace(/>$/, '');
  if (bare === 'r') return { plucks: [], rest: true };
  if (bare === '-') return { plucks: [], rest: false };
  const stroke = /^(down|up|roll|mute)(?:\((\d+)to(\d+)\))?$/.exec(bare);
  if (stroke) {
    const range = stroke[2] ? { from: Number(stroke[2]), to: Number(stroke[3]) } : {};
    return { plucks: [], rest: false, stroke: { kind: stroke[1] as 'down', ...range } };
  }
  const plucks = bare.split('+').map((each): Pluck => {
    const [, finger, string, named] = needed(/^([pimac])(?:(\d+)|\((\w+)\))$/.exec(each) ?? undefined, each);
    return { finger: finger as PluckingFinger, target: string ? Number(string) : (named as 'bass') };
  });
  return { plucks, rest: false };
}

/** `each` undefined: it rides the cell. Starts as `5 or R`, notes as `0 +1 -1# - r 3`. */
export function contourOf(
  voice: Contour['voice'],
  each: string | undefined,
  starts: string,
  notes: string,
  more: Partial<Contour> = {},
): Contour {
  const list = notes.split(' ').map((word): ContourNote => {
    const timed = { triplet: false, ...(each && { length: length(each) }) };
    if (word === '-') return { ...timed, kind: 'hold' };
    if (word === 'r') return { ...timed, kind: 'rest' };
    const step = /^(0|[+-]\d+)([#b]?)$/.exec(word);
    if (!step) return { ...timed, kind: 'tone', tone: tone(word) };
    const bend = step[2] === '#' ? 1 : step[2] === 'b' ? -1 : 0;
    return { ...timed, kind: 'step', steps: Number(step[1]), bend };
  });
  return { name: 'contour', voice, starts: starts.split(' or ').map(tone), notes: list, ...more };
}

export interface Parts {
  readonly rule?: ShapeRule;
  readonly cell?: Cell;
  /** `with own` in a chord. */
  readonly own?: Cell;
  readonly contour?: Contour;
  readonly key?: string;
  readonly meter?: string;
  readonly grips?: Readonly<Record<string, string>>;
}

/** A progression as an author writes it: `G | D at 3 | Em Am | G held`. */
export function planOf(progression: string, parts: Parts): SectionPlan {
  const sectionKey = key(parts.key ?? 'G major');
  const sectionMeter = meter(parts.meter ?? '4/4');
  const bars = progression.split('|').map((text, index): BarPlan => {
    const words = text.trim().split(/\s+/);
    const chords: string[][] = [];
    for (let at = 0; at < words.length; at++) {
      const word = words[at];
      if (/^[A-GN]/.test(word)) chords.push([word]);
      else if (['at', 'as', 'with'].includes(word)) chords.at(-1)!.push(`${word} ${words[++at]}`);
      else chords.at(-1)!.push(word);
    }
    const share = times(sectionMeter.bar, fraction(1, chords.length));
    return {
      number: index + 1,
      length: sectionMeter.bar,
      broken: false,
      cellFrom: 1,
      ...(parts.cell && { cell: 0 }),
      ...(parts.contour && { contour: 0 }),
      chords: chords.map(([symbol, ...said], place): ChordPlan => {
        const parsed = parseChord(symbol);
        const as = said.find((each) => each.startsWith('as '))?.slice(3) ?? parts.grips?.[symbol];
        const at = said.find((each) => each.startsWith('at '));
        return {
          written: symbol,
          ...(parsed && { chord: parsed }),
          silent: symbol === 'N.C.',
          start: times(share, fraction(place)),
          length: share,
          ...(as ? { frets: needed(parseFretList(as, 0), as) } : { rule: 0 }),
          ...(at && { lowestFret: Number(at.slice(3)) }),
          scale: parsed ? scaleOver(sectionKey, parsed) : sectionKey.scale,
          ...(said.includes('with own') && { cell: 1 }),
          held: said.includes('held'),
          pushed: said.includes('pushed'),
        };
      }),
    };
  });
  return {
    key: sectionKey,
    meter: sectionMeter,
    times: 1,
    tempo: { perMinute: 84, beat: sectionMeter.beat },
    rules: parts.rule ? [parts.rule] : [],
    cells: [...(parts.cell ? [parts.cell] : []), ...(parts.own ? [parts.own] : [])],
    contours: parts.contour ? [parts.contour] : [],
    bars,
  };
}

/** `0 p4:9  1/8 i3:0`: each event's start, its plucking finger or stroke (`~` for a melody), string and fret. */
export function played(bar: BarScore): string {
  const words: string[] = [];
  let last: Fraction | undefined;
  for (const event of bar.events) {
    const how = howPlayed(event);
    const note = `${how}${event.string}:${event.fret}${event.accent ? '>' : ''}`;
    if (last && equal(last, event.start)) words[words.length - 1] += ` ${note}`;
    else words.push(`${formatFraction(event.start)} ${note}`);
    last = event.start;
  }
  return words.join('  ');
}

function howPlayed({ voice, pluck, stroke }: NoteEvent): string {
  return (voice === 'melody' ? '~' : '') + (stroke ?? pluck ?? '');
}

export const fretsOf = (bar: BarScore): string =>
  bar.chords.map((each) => (each.voicing ? formatFretList(each.voicing.frets) : '?')).join(' ');
