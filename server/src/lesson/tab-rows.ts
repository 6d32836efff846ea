/** Sorts the lines of a tab into systems and bars: which words stand over and under each other, before anyone asks what they mean. */
import { leaf, type Leaf, type Line } from '../syntax/tree.ts';
import type { Source } from './reader.ts';
import { meantSign, readSign, signsApart } from './signs.ts';

/** A line of a tab, cut at its bar lines. */
export interface Row {
  /** A string's number as written, or the keyword of a row of marks. */
  readonly label: string;
  readonly line: Line;
  readonly bars: readonly RowBar[];
}

export interface RowBar {
  readonly steps: readonly Leaf[];
  /** Its own words, or what repeats the bar before. */
  readonly words: readonly Leaf[];
  readonly repeats: boolean;
  readonly broken: boolean;
}

export interface System {
  /** From the lowest string up. */
  readonly strings: readonly (Row & { readonly string: number })[];
  readonly pluck?: Row;
  readonly fingers?: Row;
  readonly palm?: Row;
  readonly chords?: Line;
  /** How many bars its strings have. */
  readonly bars: number;
}

/** What repeats the bar before, in a row of strings or of marks. */
const REPEATS = ['...', '\u2026'];
/** The shortest notes there are, two bars' worth. */
const MOST_STEPS = 256;
const MARKS = ['chords', 'pluck', 'fingers', 'palm'];

/** `count` strings there are; a row of one that does not exist is left out, and said. */
export function readSystems(source: Source, count: number): readonly System[] {
  const lines = source.tree.body.filter((line) => line.form === 'row' || MARKS.includes(line.form));
  const before = new Map<string, RowBar>();
  return cutSystems(lines, source.tree.text).map((system) => systemOf(system, source, count, before));
}

const labelOf = (line: Line): string => (line.form === 'row' ? (leaf(line, 'string')?.text ?? '') : line.form);

/** A string that comes again begins the next system, with the rows of marks that stand above it there. */
function cutSystems(lines: readonly Line[], text: string): readonly (readonly Line[])[] {
  const systems: Line[][] = [];
  let labels = new Set<string>();
  lines.forEach((line, i) => {
    if (i === 0 || labels.has(labelOf(line)) || standsAbove(lines, i, labels, text)) {
      systems.push([]);
      labels = new Set();
    }
    systems[systems.length - 1].push(line);
    labels.add(labelOf(line));
  });
  return systems;
}

/** Whether a row of marks belongs to the string below it that begins the next system. */
function standsAbove(lines: readonly Line[], i: number, labels: ReadonlySet<string>, text: string): boolean {
  const line = lines[i];
  if (line.form === 'row' || ![...labels].some((label) => !MARKS.includes(label))) return false;
  const next = lines.slice(i + 1, i + 1 + MARKS.length).find((one) => one.form === 'row');
  if (!next || !labels.has(labelOf(next))) return false;
  const apart = hasBlankLine(text.slice(lines[i - 1].end, line.start));
  const joined = !hasBlankLine(text.slice(line.end, next.start));
  return line.form === 'chords' ? apart || joined : apart && joined;
}

const hasBlankLine = (between: string): boolean => /(?:\r\n|\n|\r)[^\S\r\n]*(?:\r\n|\n|\r)/.test(between);

function systemOf(lines: readonly Line[], source: Source, count: number, before: Map<string, RowBar>): System {
  const rows = lines.filter((line) => line.form !== 'chords').map((line) => rowOf(line, source, before));
  const strings = rows
    .filter(({ line }) => line.form === 'row')
    .flatMap((row) => {
      const word = leaf(row.line, 'string');
      const string = word && source.string(word, count);
      return string === undefined ? [] : [{ ...row, string }];
    })
    .sort((a, b) => b.string - a.string);
  const chords = lines.find((line) => line.form === 'chords');
  const marked = (label: string): Row | undefined => rows.find((row) => row.label === label);
  return {
    strings,
    pluck: marked('pluck'),
    fingers: marked('fingers'),
    palm: marked('palm'),
    ...(chords && { chords }),
    bars: Math.max(0, ...strings.map((row) => row.bars.length)),
  };
}

/** Outer bar lines leave nothing before or behind them. `before` has the last bar of each row so far. */
function rowOf(line: Line, source: Source, before: Map<string, RowBar>): Row {
  const label = labelOf(line);
  const cut: Leaf[][] = [[]];
  for (const part of line.parts) {
    if (part.label === 'bar-line') cut.push([]);
    else if (part.label !== 'string') cut[cut.length - 1].push(part as Leaf);
  }
  if (cut.length > 1 && cut[0].length === 0) cut.shift();
  if (cut.length > 1 && cut[cut.length - 1].length === 0) cut.pop();
  const bars = cut.map((words): RowBar => {
    const repeats = words.length === 1 && REPEATS.includes(words[0].text);
    const last = before.get(label);
    if (repeats && !last) source.report('nothing-to-repeat', source.at(words[0]), { what: 'row' });
    const read = words.filter((word) => word.label !== 'broken');
    const all = line.form === 'row' ? read.flatMap((word) => takenApart(word, source)) : read;
    const steps = all.slice(0, MOST_STEPS);
    if (all.length > MOST_STEPS)
      source.report('too-much', source.at(all[MOST_STEPS]), { what: 'steps in a bar', limit: `${MOST_STEPS}` });
    const bar = repeats
      ? { steps: last?.steps ?? [], words, repeats, broken: last?.broken ?? true }
      : { steps, words, repeats, broken: read.length < words.length };
    before.set(label, bar);
    return bar;
  });
  return { label, line, bars };
}

/** A row that is written without blanks is read sign by sign, and said. */
function takenApart(word: Leaf, source: Source): readonly Leaf[] {
  const signs = readSign(word.text) || meantSign(word.text)?.includes(' ') !== true ? undefined : signsApart(word.text);
  if (!signs) return [word];
  source.report('unknown-sign', source.at(word), { found: word.text, right: signs.join(' ') });
  let start = word.start;
  return signs.map((text): Leaf => {
    const sign = { ...word, text, start, end: start + text.length };
    start = sign.end;
    return sign;
  });
}

/** How many steps most of the rows have; of two as frequent the one that fills the bar, or else the larger. */
export function usualCount(counts: readonly number[], full: number): number {
  const times = (count: number): number => counts.filter((one) => one === count).length;
  return counts.reduce((best, count) => {
    const more = times(count) - times(best);
    if (more !== 0) return more > 0 ? count : best;
    return best === full ? best : count === full ? count : Math.max(best, count);
  }, counts[0] ?? 0);
}
