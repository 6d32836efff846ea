/** Draws one chord as a hand sees it: strings upright, frets across, fingers on form-coded dots. */
import type { FretList } from '../fretboard/frets.ts';
import { capoOn, neckFret, nutFret, stringCount } from '../fretboard/instrument.ts';
import type { Instrument } from '../fretboard/instrument.ts';
import type { SoundingString, Voicing } from '../realise/score.ts';
import type { Drawing, Shape } from './drawing.ts';
import { box, circle, label, line, path } from './drawing.ts';
import { PLAIN_LOOK, signOf, type Look } from './look.ts';
import { middleOf, TYPE } from './metrics.ts';
import { spokenChord, spokenShape } from './spoken.ts';

/** What of the neck a diagram shows. */
export interface Window {
  /** The first fret shown, from 1. */
  readonly from: number;
  readonly frets: number;
}

const LEAST_FRETS = 4;
const MOST_FRETS = 12;

/**
 * The frets to show: from the nut where the shape lies within the first frets, else from its lowest one. Where a capo leaves
 * strings free, frets are counted from the nut for all of them, since the hand meets them side by side.
 */
export function windowOf(placed: FretList): Window {
  const pressed = placed.filter((fret): fret is number => fret !== null && fret > 0);
  const lowest = Math.min(...pressed, Infinity);
  const highest = Math.max(...pressed, 0);
  if (highest <= LEAST_FRETS) return { from: 1, frets: LEAST_FRETS };
  return { from: lowest, frets: Math.min(MOST_FRETS, Math.max(LEAST_FRETS, highest - lowest + 1)) };
}

/** Whether a capo lies on some of the strings only. */
export const leavesFree = (instrument: Instrument): boolean =>
  instrument.capo !== undefined && nutFret(instrument) === 0;

/** The frets of a shape as they are drawn: as written, but from the nut where a capo leaves strings free. */
export const drawnFrets = (frets: FretList, instrument: Instrument): FretList =>
  frets.map((fret, index) => (fret === null ? null : drawnFret(fret, frets.length - index, instrument)));

/** The same for one written fret on a string of the player's number. */
export const drawnFret = (fret: number, string: number, instrument: Instrument): number =>
  fret > 0 && leavesFree(instrument) ? neckFret(instrument, string, fret) : fret;

/**
 * What the first row of a diagram is called: the fret that the tab writes there, and two of them, `6/8`, where a finger on a free
 * string lies beside one behind the capo. Empty where the diagram begins at the nut.
 */
export function firstFretWords(frets: FretList, instrument: Instrument, { from }: Window): string {
  if (from === 1) return '';
  const drawn = drawnFrets(frets, instrument);
  const written = frets.flatMap((fret, index) => (fret ? [from - (drawn[index]! - fret)] : []));
  return [...new Set(written)]
    .filter((fret) => fret > 0)
    .sort((a, b) => a - b)
    .join('/');
}

/** A capo that leaves strings free, as the first and last index of each row of strings that it lies on. */
export function capoRuns(instrument: Instrument): readonly { readonly first: number; readonly last: number }[] {
  const runs: { first: number; last: number }[] = [];
  if (!leavesFree(instrument)) return runs;
  const count = stringCount(instrument);
  for (let index = 0; index < count; index++) {
    if (capoOn(instrument, count - index) === 0) continue;
    const run = runs[runs.length - 1];
    if (run?.last === index - 1) run.last = index;
    else runs.push({ first: index, last: index });
  }
  return runs;
}

const GAP = 18;
const ROW = 22;
const LEFT = 14;
const TOP = 26;
const RIGHT = 30;
const FOOT = 10;
const ABOVE = 13;
const LEAST_WIDTH = 84;
/** Half the thickness of a capo. */
const CAPO = 4.5;

export function drawDiagram(
  symbol: string,
  voicing: Voicing,
  instrument: Instrument,
  { reading, leftHanded }: Look = PLAIN_LOOK,
): Drawing {
  const frets = drawnFrets(voicing.frets, instrument);
  const window = windowOf(frets);
  const count = frets.length;
  const x = (index: number): number => LEFT + 0.5 + GAP * (leftHanded ? count - 1 - index : index);
  const y = (fret: number): number => TOP + 0.5 + ROW * (fret - window.from + 1);
  const [left, right] = [LEFT + 0.5, LEFT + 0.5 + GAP * (count - 1)];
  const foot = TOP + 0.5 + ROW * window.frets;
  const shapes: Shape[] = [];
  const wires: (string | number)[] = [];
  for (let row = 0; row <= window.frets; row++) wires.push('M', left, TOP + 0.5 + ROW * row, 'H', right);
  shapes.push(path('wire', ...wires));
  shapes.push(path('string', ...frets.flatMap((_, index) => ['M', x(index), TOP + 0.5, 'V', foot])));
  if (window.from === 1) shapes.push(line('nut', left - 0.5, TOP - 0.5, right + 0.5, TOP - 0.5));
  else {
    const words = firstFretWords(voicing.frets, instrument, window);
    shapes.push(label('small', right + 13, y(window.from) - ROW / 2 + middleOf(TYPE.small), words));
  }
  const capo = instrument.capo?.fret ?? 0;
  for (const { first, last } of capo >= window.from && capo < window.from + window.frets ? capoRuns(instrument) : []) {
    const [from, to] = [x(first), x(last)].sort((a, b) => a - b);
    shapes.push({
      ...box('capo', from - CAPO, y(capo) - ROW / 2 - CAPO, to - from + 2 * CAPO, 2 * CAPO),
      rounding: CAPO,
    });
  }
  shapes.push(...barres(voicing, frets, window, x, y));
  const roles = new Map(voicing.strings.map((string): [number, SoundingString] => [string.string, string]));
  frets.forEach((fret, index) => {
    const sounding = roles.get(count - index);
    const sign = signOf(sounding, voicing.fingering?.fingers[index] ?? 0, reading);
    if (fret === null) shapes.push(cross(x(index), TOP - ABOVE));
    else if (fret === 0) {
      const open = reading === 'frets' || reading === 'fingers' ? '' : sign;
      shapes.push(dot(sounding, true, x(index), TOP - ABOVE), ...signLabel(open, true, x(index), TOP - ABOVE));
    } else if (fret >= window.from && fret < window.from + window.frets) {
      const height = y(fret) - ROW / 2;
      shapes.push(dot(sounding, false, x(index), height), ...signLabel(sign, false, x(index), height));
    }
  });
  return {
    width: Math.max(LEAST_WIDTH, right + RIGHT + 0.5),
    height: foot + FOOT - 0.5,
    says: `${spokenChord(symbol)}: ${spokenShape(voicing)}`,
    reads: 'picture',
    shapes,
  };
}

/** What a sign carries, smaller where it is longer and the sign not `roomy`. */
export function signLabel(text: string, hollow: boolean, x: number, y: number, roomy = false): readonly Shape[] {
  if (text === '') return [];
  const [height, smaller] =
    roomy || text.length === 1
      ? [TYPE.finger, '']
      : text.length === 2
        ? [TYPE.signSmaller, ' smaller']
        : [TYPE.signSmallest, ' smallest'];
  return [label(`${hollow ? 'degree' : 'finger'}${smaller}`, x, y + middleOf(height), text, 'middle')];
}

/** A line joins the strings that one finger stops. */
function barres(
  voicing: Voicing,
  frets: FretList,
  window: Window,
  x: (index: number) => number,
  y: (fret: number) => number,
): readonly Shape[] {
  const fingers = voicing.fingering?.fingers ?? [];
  return [1, 2, 3, 4].flatMap((finger): Shape[] => {
    const strings = fingers.flatMap((each, index) => (each === finger ? [index] : []));
    const [first, last] = [strings[0], strings[strings.length - 1]];
    const fret = first === undefined ? null : frets[first];
    if (strings.length < 2 || fret === null || fret >= window.from + window.frets) return [];
    const height = y(fret) - ROW / 2;
    const [from, to] = [x(first), x(last)].sort((a, b) => a - b);
    return [{ ...box('barre', from, height - 3, to - from, 6), rounding: 3 }];
  });
}

/** A string that is silent. */
export const cross = (x: number, y: number): Shape =>
  path('mute', 'M', x - 3.5, y - 3.5, 'L', x + 3.5, y + 3.5, 'M', x - 3.5, y + 3.5, 'L', x + 3.5, y - 3.5);

/** Form before colour: the root square, chord tones round, what is added a diamond; open strings hollow. `scale` 1 holds a finger. */
export function dot(sounding: SoundingString | undefined, hollow: boolean, x: number, y: number, scale = 1): Shape {
  // A root is a root wherever it sounds, also where a string only doubles it.
  const root = sounding?.degree.number === 1 && sounding.degree.accidental === 0;
  const form = root ? 'root' : sounding?.role === 'colour' ? 'colour' : 'tone';
  const style = `dot ${form}${hollow ? ' hollow' : ''}`;
  const size = (hollow ? 7 : 7.5) * scale;
  if (form === 'root')
    return { ...box(style, x - size + 0.5, y - size + 0.5, 2 * size - 1, 2 * size - 1), clear: hollow };
  if (form === 'tone') return circle(style, x, y, size, hollow);
  const reach = (hollow ? 9.2 : 9.8) * scale;
  return {
    ...path(style, 'M', x, y - reach, 'L', x + reach, y, 'L', x, y + reach, 'L', x - reach, y, 'Z'),
    filled: !hollow,
  };
}
