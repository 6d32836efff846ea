/** A drawing before it is written in any format: shapes with numbers, in pixels from the upper left corner. */

export interface Line {
  readonly kind: 'line';
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  readonly style: string;
}

export interface Box {
  readonly kind: 'box';
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly rounding?: number;
  /** Not filled, though it can be clicked. */
  readonly clear?: boolean;
  readonly style: string;
}

export interface Circle {
  readonly kind: 'circle';
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  readonly clear?: boolean;
  readonly style: string;
}

/** Letters are the commands of SVG's path data; the numbers after them are rounded when the path is written. */
export interface Path {
  readonly kind: 'path';
  readonly steps: readonly (string | number)[];
  readonly filled?: boolean;
  readonly style: string;
}

/** A stretch of a label in a style of its own. */
export interface Run {
  readonly text: string;
  readonly style?: string;
}

/** One line of words; `y` is its base line. */
export interface Label {
  readonly kind: 'label';
  readonly x: number;
  readonly y: number;
  readonly align: 'start' | 'middle' | 'end';
  readonly style: string;
  readonly runs: readonly Run[];
  /** The whole of what was shortened to fit. */
  readonly full?: string;
  /** Which of its bar's events it shows: what is marked while that sounds. */
  readonly event?: number;
}

export interface Group {
  readonly kind: 'group';
  readonly x: number;
  readonly y: number;
  readonly style?: string;
  /** What the group is, in words, for those who hear the page. */
  readonly says?: string;
  /** The bar that the group draws, `verse.2`: what a click or the Enter key leads to. */
  readonly bar?: string;
  /** It joins what others say: not heard, and a click goes to what lies below it. */
  readonly quiet?: true;
  readonly shapes: readonly Shape[];
}

export type Shape = Line | Box | Circle | Path | Label | Group;

export interface Drawing {
  readonly width: number;
  readonly height: number;
  readonly says: string;
  /** `picture`: one thing to be told in one sentence; `parts`: its groups say what they are. */
  readonly reads: 'picture' | 'parts';
  readonly shapes: readonly Shape[];
}

export const line = (style: string, x1: number, y1: number, x2: number, y2: number): Line => ({
  kind: 'line',
  from: [x1, y1],
  to: [x2, y2],
  style,
});

export const box = (style: string, x: number, y: number, width: number, height: number): Box => ({
  kind: 'box',
  x,
  y,
  width,
  height,
  style,
});

export const circle = (style: string, x: number, y: number, radius: number, clear = false): Circle => ({
  kind: 'circle',
  x,
  y,
  radius,
  clear,
  style,
});

export const path = (style: string, ...steps: readonly (string | number)[]): Path => ({ kind: 'path', steps, style });

export const label = (style: string, x: number, y: number, text: string, align: Label['align'] = 'start'): Label => ({
  kind: 'label',
  x,
  y,
  align,
  style,
  runs: [{ text }],
});
