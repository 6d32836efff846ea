/** Draws what stands around bars: bar lines, repeat signs, the end of a section, and the brackets of endings. */
import type { Shape } from './drawing.ts';
import { box, circle, label, line, path } from './drawing.ts';
import { endingLabel } from './frames.ts';
import type { PlacedBar } from './layout.ts';
import { STAFF } from './metrics.ts';
import type { Rows } from './rows.ts';

const THICK = 3;
const DOT = 1.7;

/** The lines at a bar's right edge, and a repeat sign at its left; from the bar's left edge. */
export function drawBarLines(
  { measure, width }: PlacedBar,
  rows: Rows,
  strings: number,
  final: boolean,
): readonly Shape[] {
  const { repeatBegins, repeatEnds, times } = measure.frame;
  const { top, base } = rows;
  const thick = (x: number): Shape => box('beam', x, top - 0.5, THICK, base - top + 1);
  const shapes: Shape[] = [];
  if (repeatBegins) shapes.push(thick(0), line('barline', 5.5, top, 5.5, base), ...dots(9.5, rows, strings));
  if (repeatEnds) {
    shapes.push(
      ...dots(width - 8.5, rows, strings),
      line('barline', width - 4.5, top, width - 4.5, base),
      thick(width - 2),
    );
    if (times !== undefined) shapes.push(label('sounds', width - 1, rows.numbers, `×${times}`, 'end'));
  } else if (final) shapes.push(line('barline', width - 4.5, top, width - 4.5, base), thick(width - 2));
  else shapes.push(line('barline', width + 0.5, top, width + 0.5, base));
  return shapes;
}

/** Two dots, in spaces between strings that lie evenly around the middle. */
function dots(x: number, { top }: Rows, strings: number): readonly Shape[] {
  const middle = (strings - 2) / 2;
  const apart = strings % 2 === 0 ? 1 : strings > 6 ? 1.5 : 0.5;
  return [middle - apart, middle + apart].map((space) => circle('beam', x, top + STAFF.gap * (space + 0.5), DOT));
}

const TICK = 11;
const INSET = 3;

/** A bracket over each run of bars that belong to one ending, with the times in which they are played. */
export function drawEndings(bars: readonly PlacedBar[], rows: Rows): readonly Shape[] {
  const shapes: Shape[] = [];
  for (let first = 0; first < bars.length; first++) {
    const { frame } = bars[first].measure;
    if (!frame.ending) continue;
    let last = first;
    while (last + 1 < bars.length && !bars[last].measure.frame.endingEnds) last++;
    const from = bars[first].x + INSET;
    const { endingEnds, repeatEnds } = bars[last].measure.frame;
    const to = bars[last].x + bars[last].width - INSET;
    const y = rows.endings;
    const steps: (string | number)[] = frame.endingBegins ? ['M', from, y + TICK, 'V', y] : ['M', from, y];
    steps.push('H', to);
    // A bracket that stays open says that no repeat follows.
    if (endingEnds && repeatEnds) steps.push('V', y + TICK);
    shapes.push(path('barline', ...steps), label('small', from + 5, y + TICK - 0.5, endingLabel(frame.ending)));
    first = last;
  }
  return shapes;
}
