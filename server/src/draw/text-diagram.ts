/** A chord's shape as plain text, fingers on the frets: for hovers and terminals. */
import type { Instrument } from '../fretboard/instrument.ts';
import { stringCount } from '../fretboard/instrument.ts';
import type { FretList } from '../fretboard/frets.ts';
import type { SectionScore } from '../realise/score.ts';
import { capoRuns, drawnFrets, firstFretWords, windowOf } from './diagram.ts';
import { columns } from './graphemes.ts';
import { printable } from './printable.ts';
import { distinctShapes } from './section.ts';

/**
 * Strings from the lowest at the left to the highest at the right, frets downwards. Above: `x` silent, `o` open. On a fret the
 * finger that holds it, `●` where no finger is known; `━` a capo on some of the strings. Beside the first row its fret, as the tab
 * counts it, where that is not the first.
 */
export function textDiagram(
  frets: FretList,
  fingers: readonly (number | null)[] | undefined,
  instrument: Instrument,
): string {
  const drawn = drawnFrets(frets, instrument);
  const window = windowOf(drawn);
  const count = Math.max(drawn.length, stringCount(instrument));
  const above = drawn.map((fret) => (fret === null ? 'x' : fret === 0 ? 'o' : ' ')).join(' ');
  const nut = window.from === 1 ? '═' : '─';
  const lines = [above, Array.from({ length: count }, () => nut).join(nut)];
  for (let fret = window.from; fret < window.from + window.frets; fret++) {
    const capo = fret === instrument.capo?.fret ? capoRuns(instrument) : [];
    const isUnder = (index: number): boolean => capo.some(({ first, last }) => first <= index && index <= last);
    const row = drawn.map((each, index) =>
      each === fret ? (fingers?.[index] ? `${fingers[index]}` : '●') : isUnder(index) ? '━' : '│',
    );
    const beside = fret === window.from ? firstFretWords(frets, instrument, window) : '';
    lines.push(row.join(' ') + (beside === '' ? '' : `  fret ${beside}`));
  }
  return lines.map((line) => line.trimEnd()).join('\n');
}

const BETWEEN = '    ';

/** The shapes that these bars use, each with its symbol and what it sounds, as many beside each other as fit `width` columns. */
export function textShapes(score: SectionScore, instrument: Instrument, width: number): string {
  const boxes = distinctShapes(score).map(({ chord, written, voicing }) => {
    const symbol = chord?.symbol ?? written;
    const [sounding] = voicing.sounding;
    const says = sounding === undefined || sounding === symbol ? '' : `sounds ${sounding}`;
    const drawn = textDiagram(voicing.frets, voicing.fingering?.fingers, instrument).split('\n');
    const lines = [printable(symbol), says, ...drawn];
    return { lines, width: Math.max(...lines.map(columns)) };
  });
  const rows: (typeof boxes)[] = [];
  let used = 0;
  for (const box of boxes) {
    const row = rows[rows.length - 1];
    if (row && used + BETWEEN.length + box.width <= width) {
      row.push(box);
      used += BETWEEN.length + box.width;
    } else {
      rows.push([box]);
      used = box.width;
    }
  }
  return rows.map(besideEachOther).join('\n\n');
}

/** Where the line stands that says what sounds. */
const SOUNDS = 1;

function besideEachOther(boxes: readonly { readonly lines: readonly string[]; readonly width: number }[]): string {
  const height = Math.max(...boxes.map(({ lines }) => lines.length));
  const silent = boxes.every(({ lines }) => lines[SOUNDS] === '');
  return Array.from({ length: height }, (_, index) => index)
    .filter((index) => index !== SOUNDS || !silent)
    .map((index) =>
      boxes
        .map(({ lines, width }) => {
          const line = lines[index] ?? '';
          return line + ' '.repeat(Math.max(0, width - columns(line)));
        })
        .join(BETWEEN)
        .trimEnd(),
    )
    .join('\n');
}
