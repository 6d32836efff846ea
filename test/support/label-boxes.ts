/** Where the words and numbers of a drawing lie, so that tests can tell whether any covers another. */
import type { Drawing, Label, Shape } from '../../server/src/draw/drawing.ts';
import { TYPE } from '../../server/src/draw/metrics.ts';
import { textWidth } from '../../server/src/draw/text-width.ts';

export interface LabelBox {
  readonly text: string;
  readonly style: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Every label's box, in the drawing's own coordinates, by the table of widths and the sizes of type. */
export function labelBoxes(shapes: readonly Shape[], x = 0, y = 0): readonly LabelBox[] {
  return shapes.flatMap((shape): readonly LabelBox[] => {
    if (shape.kind === 'group') return labelBoxes(shape.shapes, x + shape.x, y + shape.y);
    return shape.kind === 'label' ? [boxOf(shape, x, y)] : [];
  });
}

function boxOf(label: Label, x: number, y: number): LabelBox {
  const text = label.runs.map((run) => run.text).join('');
  const [name] = label.style.split(' ');
  const size = TYPE[name as keyof typeof TYPE];
  const bold = label.style === 'symbol' || label.style.includes('melody');
  const width = textWidth(text, size, bold);
  const left = x + label.x - (label.align === 'middle' ? width / 2 : label.align === 'end' ? width : 0);
  return { text, style: label.style, left, right: left + width, top: y + label.y - size * 0.75, bottom: y + label.y };
}

/** Pairs of labels of which one covers the other. */
export function overlapping(drawing: Drawing): readonly string[] {
  const all = labelBoxes(drawing.shapes);
  return all.flatMap((one, index) =>
    all
      .slice(index + 1)
      .filter(
        (other) => one.left < other.right && other.left < one.right && one.top < other.bottom && other.top < one.bottom,
      )
      .map((other) => `${one.text} | ${other.text}`),
  );
}

interface Upright {
  readonly x: number;
  readonly from: number;
  readonly to: number;
}

/** The upright parts of lines: stems, the shafts of bends, bar lines. */
function uprights(shapes: readonly Shape[], x = 0, y = 0): readonly Upright[] {
  return shapes.flatMap((shape): readonly Upright[] => {
    if (shape.kind === 'group') return uprights(shape.shapes, x + shape.x, y + shape.y);
    if (shape.kind === 'line' && shape.from[0] === shape.to[0])
      return [{ x: x + shape.from[0], from: y + shape.from[1], to: y + shape.to[1] }];
    return shape.kind === 'path' ? uprightsOfPath(shape.steps, x, y) : [];
  });
}

/** Numbers that follow each letter of a path. */
const ARGUMENTS: Readonly<Record<string, number>> = { M: 2, L: 2, H: 1, V: 1, Q: 4, C: 6, Z: 0 };

function uprightsOfPath(steps: readonly (string | number)[], x: number, y: number): readonly Upright[] {
  const found: Upright[] = [];
  let at: readonly [number, number] = [0, 0];
  for (let index = 0; index < steps.length;) {
    const letter = steps[index] as string;
    const count = ARGUMENTS[letter];
    const numbers = steps.slice(index + 1, index + 1 + count) as number[];
    const before = at;
    if (letter === 'H') at = [numbers[0], at[1]];
    else if (letter === 'V') at = [at[0], numbers[0]];
    else if (count > 0) at = [numbers[count - 2], numbers[count - 1]];
    if (letter === 'V') found.push({ x: x + at[0], from: y + before[1], to: y + at[1] });
    index += 1 + count;
  }
  return found;
}

/** Labels that an upright line is drawn through. */
export function struckThrough(drawing: Drawing): readonly string[] {
  const lines = uprights(drawing.shapes);
  return labelBoxes(drawing.shapes).flatMap((label) =>
    lines
      .filter(
        ({ x, from, to }) =>
          x > label.left &&
          x < label.right &&
          Math.min(from, to) < label.bottom - 1 &&
          Math.max(from, to) > label.top + 1,
      )
      .map(({ x }) => `${label.text} at ${Math.round(x)}`),
  );
}
