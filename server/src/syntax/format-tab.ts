/** Sets the rows of a tab's system under each other: labels, bar lines, and step under step. */
export interface TabRow {
  /** The string's number, or `chords`, `pluck`, `fingers`, `palm`. */
  readonly label: string;
  /** Whether each word is a step of its own; a row of chords has fewer and only keeps to the bars. */
  readonly steps: boolean;
  /** The words between the bar lines. An outer bar line leaves an empty bar before or behind it. */
  readonly bars: readonly (readonly string[])[];
}

/** The rows as text, without indent and without blanks at the end, in the order given. Outer bar lines stay as they are. */
export function alignSystem(rows: readonly TabRow[]): readonly string[] {
  const framed = rows.map(withFrame);
  const label = Math.max(...rows.map((row) => row.label.length));
  const opening = framed.some((row) => row.opening);
  const widths = columnWidths(framed);
  return framed.map((row) => {
    const cells = row.bars.map((words, bar) => cellOf(words, row.steps ? widths.steps[bar] : []));
    const padded = cells.map((cell, bar) => cell.padEnd(widths.bars[bar]));
    const edge = opening ? (row.opening ? ' |' : '  ') : '';
    return `${row.label.padEnd(label)}${edge} ${padded.join(' | ')}${row.closing ? ' |' : ''}`.trimEnd();
  });
}

interface FramedRow extends TabRow {
  readonly opening: boolean;
  readonly closing: boolean;
}

function withFrame(row: TabRow): FramedRow {
  let { bars } = row;
  const opening = bars.length > 1 && bars[0].length === 0;
  if (opening) bars = bars.slice(1);
  const closing = bars.length > 1 && bars[bars.length - 1].length === 0;
  if (closing) bars = bars.slice(0, -1);
  return { ...row, bars, opening, closing };
}

const cellOf = (words: readonly string[], widths: readonly number[]): string =>
  words
    .map((word, step) => word.padEnd(widths[step] ?? 0))
    .join(' ')
    .trimEnd();

interface Widths {
  /** By bar and step. */
  readonly steps: readonly (readonly number[])[];
  readonly bars: readonly number[];
}

function columnWidths(rows: readonly FramedRow[]): Widths {
  const most = Math.max(...rows.map((row) => row.bars.length));
  const steps: number[][] = Array.from({ length: most }, () => []);
  for (const row of rows.filter((one) => one.steps)) {
    for (const [bar, words] of row.bars.entries()) {
      // `...` stands for a whole bar and widens no step.
      if (words.length === 1 && /^(\.{3}|\u2026)$/.test(words[0])) continue;
      for (const [step, word] of words.entries()) steps[bar][step] = Math.max(steps[bar][step] ?? 0, word.length);
    }
  }
  const bars = steps.map((widths, bar) =>
    Math.max(...rows.map((row) => cellOf(row.bars[bar] ?? [], row.steps ? widths : []).length)),
  );
  return { steps, bars };
}
