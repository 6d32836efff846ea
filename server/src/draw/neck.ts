/** Draws one chord on the fingerboard as a player looks at the tab: strings across, the highest on top, the nut at the left. */
import { formatNoteName } from '../theory/note.ts';
import { formatDegree } from '../theory/interval.ts';
import type { Instrument } from '../fretboard/instrument.ts';
import { nutFret } from '../fretboard/instrument.ts';
import type { SoundingString, Voicing } from '../realise/score.ts';
import { cross, dot, drawnFrets } from './diagram.ts';
import type { Drawing, Shape } from './drawing.ts';
import { box, label, line, path } from './drawing.ts';
import { middleOf, TYPE } from './metrics.ts';
import { spokenChord, spokenShape } from './spoken.ts';
import { marginOf } from './system.ts';

const GAP = 21;
const TOP = 16;
/** From the lowest string to the base line of the fret numbers, and below that. */
const NUMBERS_BELOW = 25;
const FOOT = 6;
/** For what is open or silent, between the strings' names and the nut. */
const OPEN_COLUMN = 30;
const RIGHT = 12;
/** A neck is drawn at least as far as the octave, where there is room for it. */
const USUAL_FRETS = 12;
const NARROWEST_FRET = 27;
const WIDEST_FRET = 58;
/** What a sign is larger by than in a diagram, to hold the name of a tone. */
const SCALE = 1.4;
/** The frets that a neck marks, and the octaves of them. */
const MARKED: ReadonlySet<number> = new Set([3, 5, 7, 9, 12, 15, 17, 19, 21, 24]);

/** `width` in pixels: the drawing fits it, and takes no more than its frets need. Signs carry the degrees of the chord. */
export function drawNeck(symbol: string, voicing: Voicing, instrument: Instrument, width: number): Drawing {
  const frets = drawnFrets(voicing.frets, instrument);
  const count = frets.length;
  const nut = marginOf(instrument) + OPEN_COLUMN + 0.5;
  const window = windowOf(frets, instrument, width - nut - RIGHT);
  const fretWidth = Math.min(WIDEST_FRET, Math.max(NARROWEST_FRET, (width - nut - RIGHT) / window.frets));
  const right = nut + Math.floor(fretWidth * window.frets);
  const wire = (fret: number): number => nut + Math.floor(fretWidth * (fret - window.from + 1));
  const middle = (fret: number): number => (wire(fret - 1) + wire(fret)) / 2;
  const y = (index: number): number => TOP + 0.5 + GAP * (count - 1 - index);
  const [top, base] = [y(count - 1), y(0)];
  const shapes: Shape[] = [];
  const wires: (string | number)[] = [];
  for (let fret = window.from; fret < window.from + window.frets; fret++) wires.push('M', wire(fret), top, 'V', base);
  if (window.from > 1) wires.push('M', nut, top, 'V', base);
  shapes.push(path('wire', ...wires));
  shapes.push(path('string', ...frets.flatMap((_, index) => ['M', nut, y(index), 'H', right])));
  if (window.from === 1) shapes.push(line('nut', nut - 1, top - 0.5, nut - 1, base + 0.5));
  shapes.push(...numbers(window, middle, base + NUMBERS_BELOW), ...barres(voicing, frets, middle, y));
  const sounding = new Map(voicing.strings.map((one): [number, SoundingString] => [one.string, one]));
  frets.forEach((fret, index) => {
    const height = y(index);
    const note = instrument.tuning.strings[index];
    if (note) shapes.push(label('small', 8, height + middleOf(TYPE.small), formatNoteName(note)));
    const one = sounding.get(count - index);
    const x = fret === null || fret === 0 ? nut - OPEN_COLUMN / 2 - 1 : middle(fret);
    if (fret === null) shapes.push(cross(x, height));
    else
      shapes.push(
        dot(one, fret === 0, x, height, fret === 0 ? SCALE * HOLLOW : SCALE),
        ...toneOf(one, fret === 0, x, height),
      );
  });
  return {
    width: right + RIGHT,
    height: base + NUMBERS_BELOW + FOOT,
    says: `${spokenChord(symbol)}: ${spokenShape(voicing)}`,
    reads: 'picture',
    shapes,
  };
}

/** Hollow signs are drawn smaller in a diagram; here they hold a name as well. */
const HOLLOW = 1.25;

function toneOf(one: SoundingString | undefined, isOpen: boolean, x: number, y: number): readonly Shape[] {
  if (!one) return [];
  return [label(isOpen ? 'degree' : 'finger', x, y + middleOf(TYPE.finger), formatDegree(one.degree, 'R'), 'middle')];
}

interface Window {
  readonly from: number;
  readonly frets: number;
}

/** From the nut to the octave or beyond, or as much of it round the shape as there is room for. */
function windowOf(frets: readonly (number | null)[], instrument: Instrument, room: number): Window {
  const pressed = frets.filter((fret): fret is number => fret !== null && fret > 0);
  const lowest = Math.min(...pressed, Infinity);
  const highest = Math.max(...pressed, 0);
  const onNeck = Math.max(1, instrument.frets - nutFret(instrument));
  const all = Math.min(Math.max(USUAL_FRETS, highest + 1), Math.max(onNeck, highest));
  const fitting = Math.max(1, Math.floor(room / NARROWEST_FRET));
  if (all <= fitting) return { from: 1, frets: all };
  if (highest < fitting) return { from: 1, frets: fitting };
  // Of what does not fit, the shape comes first; a fret on its left shows that the neck goes on.
  const shown = Math.max(fitting, highest - lowest + 1);
  return { from: Math.max(1, Math.min(lowest - 1, highest + 1 - shown)), frets: Math.min(shown, all) };
}

function numbers({ from, frets }: Window, middle: (fret: number) => number, y: number): readonly Shape[] {
  const shown = Array.from({ length: frets }, (_, index) => from + index).filter(
    (fret) => MARKED.has(fret) || (from > 1 && fret === from),
  );
  return shown.map((fret) => label('small', middle(fret), y, `${fret}`, 'middle'));
}

/** A line joins the strings that one finger stops. */
function barres(
  voicing: Voicing,
  frets: readonly (number | null)[],
  middle: (fret: number) => number,
  y: (index: number) => number,
): readonly Shape[] {
  const fingers = voicing.fingering?.fingers ?? [];
  return [1, 2, 3, 4].flatMap((finger): Shape[] => {
    const strings = fingers.flatMap((each, index) => (each === finger ? [index] : []));
    const [first, last] = [strings[0], strings[strings.length - 1]];
    const fret = first === undefined ? null : frets[first];
    if (strings.length < 2 || fret === null) return [];
    return [{ ...box('barre', middle(fret) - 3, y(last), 6, y(first) - y(last)), rounding: 3 }];
  });
}
