/** Draws one chord on the fingerboard as a player looks at the tab: strings across, the highest on top, the nut at the left. */
import { formatNoteName } from '../theory/note.ts';
import type { Instrument } from '../fretboard/instrument.ts';
import { nutFret } from '../fretboard/instrument.ts';
import type { WidestPair } from '../hand/fingering.ts';
import type { NoteEvent, SoundingString, Voicing } from '../realise/score.ts';
import { capoRuns, cross, dot, drawnFret, drawnFrets, leavesFree, signLabel } from './diagram.ts';
import type { Drawing, Shape } from './drawing.ts';
import { box, circle, label, line, path } from './drawing.ts';
import { PLAIN_LOOK, saidOf, signOf, type Look } from './look.ts';
import { middleOf, TYPE } from './metrics.ts';
import { numberWord, spokenChord, spokenShape } from './spoken.ts';
import { marginOf } from './system.ts';
import { textWidth } from './text-width.ts';

/** What is shown of a neck besides the chord. */
export interface NeckDetails {
  readonly look?: Look;
  /** All frets of the instrument, where there is room for them. */
  readonly whole?: boolean;
  /** The notes of a melody over the chord, in order. */
  readonly melody?: readonly NoteEvent[];
  /** The two fingers that lie farthest apart. */
  readonly reach?: WidestPair;
}

const GAP = 21;
const TOP = 16;
/** From the lowest string to the base line of the fret numbers, and below that. */
const NUMBERS_BELOW = 25;
const FOOT = 6;
/** The height of the line that measures the reach. */
const REACH_BELOW = 24;
/** For what is open or silent, between the strings' names and the nut. */
const OPEN_COLUMN = 30;
const RIGHT = 12;
/** A neck is drawn at least as far as the octave, where there is room for it. */
const USUAL_FRETS = 12;
const NARROWEST_FRET = 27;
/** The same where the whole neck is wanted: just wider than a sign. */
const NARROWEST_OF_WHOLE = 21;
const WIDEST_FRET = 58;
/** What a sign is larger by than in a diagram, to hold the name of a tone. */
const SCALE = 1.21;
const HOLLOW_SCALE = 1.25;
/** Half the height of a melody's ring; a sign of the shape lies inside it. */
const RING = 10.5;
/** Half the thickness of a capo. */
const CAPO = 6;
/** The frets that a neck marks, and the octaves of them. */
const MARKED: ReadonlySet<number> = new Set([3, 5, 7, 9, 12, 15, 17, 19, 21, 24]);

/** Where strings and frets lie; a left-handed player's neck runs from right to left. */
interface Board {
  readonly window: Window;
  readonly width: number;
  readonly nut: number;
  readonly wire: (fret: number) => number;
  /** Of a fret, or of the column of open strings. */
  readonly middle: (fret: number) => number;
  /** By the index in a fret list. */
  readonly y: (index: number) => number;
  /** A place that is counted from the side of the nut. */
  readonly x: (fromNut: number) => number;
}

/** `width` in pixels: the drawing fits it, and takes no more than its frets need. Signs carry the degrees of the chord, or what the look says. */
export function drawNeck(
  symbol: string,
  voicing: Voicing,
  instrument: Instrument,
  width: number,
  { look = PLAIN_LOOK, whole = false, melody = [], reach }: NeckDetails = {},
): Drawing {
  const frets = drawnFrets(voicing.frets, instrument);
  const count = frets.length;
  const places = placesOf(melody, instrument);
  const board = boardOf([...frets, ...places.map(({ fret }) => fret)], count, instrument, width, look, whole);
  const { window, middle, y, x, nut } = board;
  const [top, base] = [y(count - 1), y(0)];
  const end = window.from + window.frets - 1;
  const shapes: Shape[] = [];
  const wires: (string | number)[] = [];
  for (let fret = window.from; fret <= end; fret++) wires.push('M', board.wire(fret), top, 'V', base);
  if (window.from > 1) wires.push('M', x(nut), top, 'V', base);
  shapes.push(path('wire', ...wires));
  shapes.push(path('string', ...frets.flatMap((_, index) => ['M', x(nut), y(index), 'H', board.wire(end)])));
  if (window.from === 1) shapes.push(line('nut', x(nut - 1), top - 0.5, x(nut - 1), base + 0.5));
  const capo = leavesFree(instrument) ? instrument.capo!.fret : 0;
  for (const { first, last } of capo >= window.from && capo <= end ? capoRuns(instrument) : []) {
    const [upper, lower] = [y(last) - CAPO, y(first) + CAPO];
    shapes.push({ ...box('capo', middle(capo) - CAPO, upper, 2 * CAPO, lower - upper), rounding: CAPO });
  }
  shapes.push(...numbers(window, capo, middle, base + NUMBERS_BELOW), ...barres(voicing, frets, middle, y));
  const reading = look.reading === 'frets' ? 'intervals' : look.reading;
  const sounding = new Map(voicing.strings.map((one): [number, SoundingString] => [one.string, one]));
  frets.forEach((fret, index) => {
    const height = y(index);
    const note = instrument.tuning.strings[index];
    const align = look.leftHanded ? 'end' : 'start';
    if (note) shapes.push(label('small', x(8), height + middleOf(TYPE.small), formatNoteName(note), align));
    const one = sounding.get(count - index);
    if (fret === null) shapes.push(cross(middle(0), height));
    else {
      const sign = signOf(one, voicing.fingering?.fingers[index] ?? 0, reading);
      const isOpen = fret === 0;
      shapes.push(
        dot(one, isOpen, middle(fret), height, isOpen ? HOLLOW_SCALE : SCALE),
        ...signLabel(sign, isOpen, middle(fret), height, true),
      );
    }
  });
  shapes.push(...melodyOver(places, frets, look, board));
  // As written, a fret does not say where it lies among strings that the capo leaves free.
  const measured = leavesFree(instrument) ? undefined : reach;
  if (measured) shapes.push(...reachBelow(measured, middle, base + NUMBERS_BELOW + 10, board.width));
  const way = places.length > 0 ? `; melody: ${spokenPath(places)}` : '';
  return {
    width: board.width,
    height: base + NUMBERS_BELOW + FOOT + (measured ? REACH_BELOW : 0),
    says: `${spokenChord(symbol)}: ${spokenShape(voicing)}${way}`,
    reads: 'picture',
    shapes,
  };
}

function boardOf(
  frets: readonly (number | null)[],
  count: number,
  instrument: Instrument,
  width: number,
  { leftHanded }: Look,
  whole: boolean,
): Board {
  const nut = marginOf(instrument) + OPEN_COLUMN + 0.5;
  const room = width - nut - RIGHT;
  const narrowest = whole ? NARROWEST_OF_WHOLE : NARROWEST_FRET;
  const window = windowOf(frets, instrument, room, narrowest, whole);
  const fretWidth = Math.min(WIDEST_FRET, Math.max(narrowest, room / window.frets));
  const total = nut + Math.floor(fretWidth * window.frets) + RIGHT;
  const x = (fromNut: number): number => (leftHanded ? total - fromNut : fromNut);
  const far = (fret: number): number => nut + Math.floor(fretWidth * (fret - window.from + 1));
  const wire = (fret: number): number => x(far(fret));
  return {
    window,
    width: total,
    nut,
    wire,
    middle: (fret) => (fret === 0 ? x(nut - OPEN_COLUMN / 2 - 1) : (wire(fret - 1) + wire(fret)) / 2),
    y: (index) => TOP + 0.5 + GAP * (count - 1 - index),
    x,
  };
}

interface Window {
  readonly from: number;
  readonly frets: number;
}

/** From the nut to the octave or beyond, or as much of it round the shape as there is room for. */
function windowOf(
  frets: readonly (number | null)[],
  instrument: Instrument,
  room: number,
  narrowest: number,
  whole: boolean,
): Window {
  const pressed = frets.filter((fret): fret is number => fret !== null && fret > 0);
  const lowest = Math.min(...pressed, Infinity);
  const highest = Math.max(...pressed, 0);
  const onNeck = Math.max(1, instrument.frets - nutFret(instrument));
  const usual = whole ? onNeck : USUAL_FRETS;
  const all = Math.min(Math.max(usual, highest + 1), Math.max(onNeck, highest));
  const fitting = Math.max(1, Math.floor(room / narrowest));
  if (all <= fitting) return { from: 1, frets: all };
  if (highest < fitting) return { from: 1, frets: fitting };
  // Of what does not fit, the shape comes first; a fret on its left shows that the neck goes on.
  const shown = Math.max(fitting, highest - lowest + 1);
  return { from: Math.max(1, Math.min(lowest - 1, highest + 1 - shown)), frets: Math.min(shown, all) };
}

/** Counted from the capo, as the tab counts them. */
function numbers({ from, frets }: Window, capo: number, middle: (fret: number) => number, y: number): readonly Shape[] {
  const shown = Array.from({ length: frets }, (_, index) => from + index).filter(
    (fret) => MARKED.has(fret - capo) || (from > 1 && fret === from && fret > capo),
  );
  const words = shown.map((fret) => label('small', middle(fret), y, `${fret - capo}`, 'middle'));
  const isShown = capo >= from && capo < from + frets;
  return isShown ? [label('small', middle(capo), y, 'capo', 'middle'), ...words] : words;
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

interface Place {
  readonly note: NoteEvent;
  readonly string: number;
  /** As it is drawn. */
  readonly fret: number;
}

/** A melody note where it lies, without those that only come again at once. */
function placesOf(melody: readonly NoteEvent[], instrument: Instrument): readonly Place[] {
  const places = melody.filter((note, index) => {
    const before = melody[index - 1];
    return before?.string !== note.string || before.fret !== note.fret;
  });
  return places.map((note) => ({ note, string: note.string, fret: drawnFret(note.fret, note.string, instrument) }));
}

/** The way of a melody: a line from note to note, and a ring round each; what the shape does not press is named in its ring. */
function melodyOver(
  places: readonly Place[],
  frets: readonly (number | null)[],
  { reading }: Look,
  { middle, y }: Board,
): readonly Shape[] {
  const at = ({ string, fret }: Place): readonly [number, number] => [middle(fret), y(frets.length - string)];
  const ways: (string | number)[] = [];
  const known = new Set<string>();
  for (const [index, to] of places.slice(1).entries()) {
    const from = places[index];
    const way = [`${from.string}.${from.fret}`, `${to.string}.${to.fret}`].sort().join(' ');
    if (known.has(way)) continue;
    known.add(way);
    ways.push(...between(at(from), at(to)));
  }
  const shapes: Shape[] = ways.length > 0 ? [path('ring', ...ways)] : [];
  const drawn = new Set<string>();
  for (const place of places) {
    const key = `${place.string}.${place.fret}`;
    if (drawn.has(key)) continue;
    drawn.add(key);
    const [x, height] = at(place);
    const isHeld = frets[frets.length - place.string] === place.fret;
    // The string does not strike through what stands in the ring.
    if (!isHeld) shapes.push(circle('knock', x, height, RING - 1));
    shapes.push(circle('ring', x, height, RING, true));
    if (isHeld) continue;
    const text = saidOf(place.note, reading === 'frets' ? 'intervals' : reading);
    shapes.push(label('degree melody', x, height + middleOf(TYPE.finger), text, 'middle'));
  }
  return shapes;
}

/** From ring to ring, so that what stands in them stays clear. */
function between(
  [x1, y1]: readonly [number, number],
  [x2, y2]: readonly [number, number],
): readonly (string | number)[] {
  const far = Math.sqrt((x2 - x1) ** 2 + (y2 - y1) ** 2);
  if (far <= 2 * RING) return [];
  const [dx, dy] = [((x2 - x1) * RING) / far, ((y2 - y1) * RING) / far];
  return ['M', x1 + dx, y1 + dy, 'L', x2 - dx, y2 - dy];
}

/** Frets as the tab writes them. */
const spokenPath = (places: readonly Place[]): string =>
  places
    .map(
      ({ note: { string, fret } }) =>
        `string ${numberWord(string)} ${fret === 0 ? 'open' : `fret ${numberWord(fret)}`}`,
    )
    .join(', ');

/** A line from finger to finger with its length; the words go beside it where it is too short for them. */
function reachBelow(
  { frets, millimetres }: WidestPair,
  middle: (fret: number) => number,
  y: number,
  width: number,
): readonly Shape[] {
  const [from, to] = frets.map(middle).sort((a, b) => a - b);
  const words = `${Math.round(millimetres)} mm`;
  const half = textWidth(words, TYPE.small) / 2;
  const x = Math.min(width - half - 2, Math.max(half + 2, (from + to) / 2));
  return [
    path('stem', 'M', from, y - 3, 'V', y + 3, 'M', from, y, 'H', to, 'M', to, y - 3, 'V', y + 3),
    label('small', x, y + 14, words, 'middle'),
  ];
}
