/** Draws the rhythm of a bar below its strings: stems, flags, beams, dots, triplets, ties and rests. */
import { compare, minus, toNumber } from '../util/fraction.ts';
import type { Shape } from './drawing.ts';
import { box, circle, label, path } from './drawing.ts';
import type { PlacedBar } from './layout.ts';
import type { Mark, Rhythm } from './rhythm.ts';
import { beamCount } from './rhythm.ts';
import { endOf } from './moments.ts';

/** Heights from the lowest string down. */
export const RHYTHM = { top: 10, foot: 28, triplet: 40, height: 28, heightWithTriplets: 40 } as const;
const HEAD = 3.4;
const BEAM = 3;
const BEAM_STEP = 5;
const STUB = 7;
const HALF_STROKE = 0.5;

/** `base` is the height of the lowest string. */
export function drawRhythm(placed: PlacedBar, base: number): readonly Shape[] {
  const { rhythm } = placed.measure;
  const xs = marksX(placed);
  const top = base + RHYTHM.top;
  const foot = base + RHYTHM.foot;
  const stems: (string | number)[] = [];
  const shapes: Shape[] = [];
  rhythm.marks.forEach((mark, index) => {
    const x = xs[index];
    if (mark.rest) shapes.push(...restSign(mark, x, top));
    else {
      const { base: value } = mark.value;
      if (value <= 2) shapes.push(circle('stem', x, top + HEAD, HEAD, true));
      if (value >= 2) stems.push('M', x, top + (value === 2 ? 2 * HEAD : 0), 'V', foot);
      if (mark.tied && index > 0) shapes.push(tie(xs[index - 1], x, top));
    }
    for (let dot = 0; dot < mark.value.dots; dot++)
      shapes.push(circle('beam', x + (mark.value.base <= 2 || mark.rest ? 7 : 4) + dot * 4, top + HEAD, 1.3));
  });
  for (const [first, last] of rhythm.beams) shapes.push(...beams(rhythm, xs, first, last, foot));
  rhythm.marks.forEach((mark, index) => {
    const beamed = rhythm.beams.some(([first, last]) => first <= index && index <= last);
    if (!mark.rest && !beamed) stems.push(...flags(beamCount(mark.value), xs[index], foot));
  });
  if (stems.length > 0) shapes.push(path('stem', ...stems));
  for (const [first, last] of rhythm.triplets) shapes.push(...triplet(rhythm, xs, first, last, base));
  return shapes;
}

/** The middle of each mark, from the bar's left edge. */
export function marksX(placed: PlacedBar): readonly number[] {
  const { marks } = placed.measure.rhythm;
  // A rest that fills the bar stands in its middle.
  if (marks.length === 1 && marks[0].rest) return [placed.width / 2];
  return marks.map((mark) => xOf(placed, mark));
}

/** A mark that is tied starts between two moments: its place is as far along as its time. */
function xOf(placed: PlacedBar, mark: Mark): number {
  const { moments, leasts } = placed.measure;
  let index = moments.length - 1;
  while (index > 0 && compare(moments[index].start, mark.start) > 0) index--;
  const from = placed.middles[index];
  const gone = toNumber(minus(mark.start, moments[index].start));
  if (gone <= 0) return from;
  const to = placed.middles[index + 1] ?? placed.width - Math.min(leasts[index], 8);
  return from + (to - from) * (gone / toNumber(minus(endOf(moments[index]), moments[index].start)));
}

function beams(rhythm: Rhythm, xs: readonly number[], first: number, last: number, foot: number): readonly Shape[] {
  const shapes: Shape[] = [];
  const has = (index: number, level: number): boolean =>
    index >= first && index <= last && beamCount(rhythm.marks[index].value) >= level;
  for (let level = 1; level <= 4; level++) {
    const y = foot - BEAM - (level - 1) * BEAM_STEP;
    for (let from = first; from <= last; from++) {
      if (!has(from, level)) continue;
      let to = from;
      while (has(to + 1, level)) to++;
      // A shorter note alone among longer ones has half a beam, towards its neighbour.
      const alone = to === from;
      const left = alone && from === last ? xs[from] - STUB : xs[from];
      const right = alone && from < last ? xs[from] + STUB : xs[to];
      shapes.push(box('beam', left - HALF_STROKE, y, right - left + 2 * HALF_STROKE, BEAM));
      from = to;
    }
  }
  return shapes;
}

function flags(count: number, x: number, foot: number): readonly (string | number)[] {
  const steps: (string | number)[] = [];
  for (let flag = 0; flag < count; flag++) {
    const y = foot - flag * BEAM_STEP;
    steps.push('M', x, y, 'Q', x + 2, y - 4, x + 7, y - 5);
  }
  return steps;
}

const tie = (from: number, to: number, top: number): Shape =>
  path('stem', 'M', from + 4, top - 2, 'Q', (from + to) / 2, top - 7, to - 4, top - 2);

function triplet(rhythm: Rhythm, xs: readonly number[], first: number, last: number, base: number): readonly Shape[] {
  const middle = (xs[first] + xs[last]) / 2;
  const y = base + RHYTHM.triplet;
  const three = label('small', middle, y, '3', 'middle');
  const joined = rhythm.beams.some(([from, to]) => from === first && to === last);
  if (joined || last === first) return [three];
  const above = y - 3.5;
  const bracket = path(
    'stem',
    'M',
    xs[first] - 3,
    above - 4,
    'V',
    above,
    'H',
    middle - 6,
    'M',
    middle + 6,
    above,
    'H',
    xs[last] + 3,
    'V',
    above - 4,
  );
  return [bracket, three];
}

/** Our own plain drawings of the usual signs, in the height of the stems. */
function restSign(mark: Mark, x: number, top: number): readonly Shape[] {
  const { base } = mark.value;
  const middle = top + 9;
  if (base <= 2) {
    const y = base === 1 ? middle : middle - 4;
    return [path('stem', 'M', x - 7, middle, 'H', x + 7), box('beam', x - 4, y, 8, 4)];
  }
  if (base === 4)
    return [
      path(
        'stem',
        'M',
        x - 2,
        top,
        'L',
        x + 3,
        top + 6,
        'L',
        x - 2,
        top + 10,
        'L',
        x + 3,
        top + 16,
        'Q',
        x - 4,
        top + 13,
        x,
        top + 19,
      ),
    ];
  const shapes: Shape[] = [];
  const count = beamCount(mark.value);
  const height = 11 + (count - 1) * 4;
  const steps: (string | number)[] = ['M', x + 4, top + 3, 'L', x, top + 3 + height];
  for (let hook = 0; hook < count; hook++) {
    const y = top + 4 + hook * 5;
    shapes.push(circle('beam', x - 3, y, 1.8));
    steps.push('M', x - 3, y + 1.5, 'Q', x + 1, y + 2.5, x + 4 - hook * 1.4, y - 1);
  }
  shapes.push(path('stem', ...steps));
  return shapes;
}
