/** Bars and chords in the words in which players who do not see a page tell each other music. */
import type { FretList } from '../fretboard/frets.ts';
import type { BarScore, ChordScore, NoteEvent, Voicing } from '../realise/score.ts';
import type { Bend, Technique } from '../lesson/written.ts';
import { namedFinger, PLAIN_FRAME, type BarFrame } from './frames.ts';
import type { Moment } from './moments.ts';
import { momentsOf, strokeOf } from './moments.ts';

const ONES =
  'zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen'.split(
    ' ',
  );
const TENS = ['', '', 'twenty', 'thirty', 'forty', 'fifty', 'sixty', 'seventy', 'eighty', 'ninety'];

/** Whole numbers from 0 to 99 as words; others as digits. */
export function numberWord(value: number): string {
  if (!Number.isInteger(value) || value < 0 || value > 99) return `${value}`;
  if (value < ONES.length) return ONES[value];
  const rest = value % 10;
  return TENS[Math.floor(value / 10)] + (rest === 0 ? '' : `-${ONES[rest]}`);
}

/** `one hint`, `two hints`. */
export const counted = (count: number, word: string): string => `${numberWord(count)} ${word}${count === 1 ? '' : 's'}`;

const PLUCKING = { p: 'thumb', i: 'index', m: 'middle', a: 'ring finger', c: 'little finger' } as const;
const STROKES = { down: 'strum down', up: 'strum up', roll: 'roll', mute: 'muted stroke' } as const;
const FRETTING = ['open', 'index', 'middle', 'ring finger', 'little finger'];

/** `F#` → `F sharp`, `Bb` → `B flat`. */
const noteWords = (letter: string, signs: string): string =>
  letter + (signs === '' ? '' : ` ${signs.length > 1 ? 'double ' : ''}${signs[0] === '#' ? 'sharp' : 'flat'}`);

/** Longest first: what is read first must not be the beginning of something longer. */
const QUALITY_WORDS: readonly (readonly [RegExp, string])[] = [
  [/^maj/, 'major'],
  [/^min|^m(?!a)/, 'minor'],
  [/^dim|^°/, 'diminished'],
  [/^ø/, 'half-diminished'],
  [/^aug|^\+/, 'augmented'],
  [/^sus/, 'suspended'],
  [/^add/, 'add'],
  [/^alt/, 'altered'],
  [/^no/, 'without'],
  [/^M|^Δ/, 'major'],
  [/^#{1,2}|^♯/, 'sharp'],
  [/^b{1,2}|^♭/, 'flat'],
  [/^[()/, ]+/, ''],
];

/** `Dadd11/F#` → `D add 11 over F sharp`. What is not understood is kept as written. */
export function spokenChord(symbol: string): string {
  const slash = /^(.*)\/([A-G])([#b]*)$/s.exec(symbol);
  const [upper, bass] = slash ? [slash[1], ` over ${noteWords(slash[2], slash[3])}`] : [symbol, ''];
  const root = /^([A-G])(#{1,2}|b{1,2}|)(.*)$/s.exec(upper);
  if (!root) return symbol;
  const words = [noteWords(root[1], root[2])];
  let rest = root[3];
  while (rest !== '') {
    const digits = /^\d+/.exec(rest);
    const known = QUALITY_WORDS.find(([pattern]) => pattern.test(rest));
    if (!digits && !known) return symbol + bass;
    words.push(digits ? digits[0] : known![1]);
    rest = rest.slice((digits ?? known![0].exec(rest)!)[0].length);
  }
  return words.filter((word) => word !== '').join(' ') + bass;
}

/** `D sounding D add 11 over F sharp`; the symbol alone where it says what sounds. */
export function spokenChordScore(chord: ChordScore): string {
  if (chord.silent) return 'no chord';
  const symbol = chord.chord?.symbol ?? chord.written;
  const sounding = chord.voicing?.sounding[0];
  const said = spokenChord(symbol);
  return sounding === undefined || sounding === symbol ? said : `${said} sounding ${spokenChord(sounding)}`;
}

/**
 * One sentence a bar: its chords, and under each of them who plucks which string at which fret, and how. `moments` are the bar's
 * own, `frame` what stands around it.
 */
export function spokenBar(
  bar: BarScore,
  moments: readonly Moment[] = momentsOf(bar),
  frame: BarFrame = PLAIN_FRAME,
): string {
  const parts: string[] = [];
  let open = '';
  for (const moment of moments) {
    const played = spokenMoment(moment, frame);
    if (moment.chord) {
      if (open !== '') parts.push(open);
      open = spokenChordScore(moment.chord) + (moment.chord.held ? ', held' : '');
      if (played !== '') open += `: ${played}`;
    } else if (played !== '') open += open === '' ? played : `; ${played}`;
  }
  if (open !== '') parts.push(open);
  const name = bar.number === 0 ? 'pick-up bar' : `bar ${bar.number}`;
  const broken = bar.broken ? ['a part could not be read'] : [];
  const held = (bar.tied ?? []).map(({ string }) => numberWord(string));
  const tied = held.length === 0 ? [] : [`string${held.length === 1 ? '' : 's'} ${listed(held)} held on`];
  return [name, ...frameWords(frame), ...broken, ...tied, ...parts, ...endWords(frame)].join(', ');
}

const listed = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words[words.length - 1]}`;

function frameWords({ ending, endingBegins, repeatBegins }: BarFrame): readonly string[] {
  if (ending && endingBegins) return [`ending ${listed(ending.map(numberWord))}`];
  return repeatBegins ? ['repeat from here'] : [];
}

function endWords({ repeatEnds, times }: BarFrame): readonly string[] {
  if (!repeatEnds) return [];
  return [times === undefined ? 'repeat' : `repeat, ${numberWord(times)} times in all`];
}

function spokenMoment(moment: Moment, frame: BarFrame): string {
  if (moment.rest) return 'rest';
  const stroke = strokeOf(moment);
  const struck = moment.events.filter((event) => event.stroke !== undefined);
  const words = moment.events.filter((event) => event.stroke === undefined).map((event) => spokenNote(event, frame));
  if (stroke !== undefined) {
    const strings = struck.map((event) => numberWord(event.string));
    const from =
      strings.length > 1 ? `strings ${strings[0]} to ${strings[strings.length - 1]}` : `string ${strings[0]}`;
    const frets = stroke === 'mute' ? '' : `, ${struck.map((event) => spokenFret(event.fret)).join(', ')}`;
    words.unshift(`${STROKES[stroke]}, ${from}${frets}`);
  }
  const graces = moment.graces.map((event) => `grace note, ${spokenNote(event, frame)}`);
  const sung = moment.events.find((event) => event.syllable?.text)?.syllable?.text;
  const accented = moment.events.some((event) => event.accent) ? ', accented' : '';
  return [...graces, words.join(', with ') + accented + (sung === undefined ? '' : `, sung ${sung}`)]
    .filter((part) => part !== '')
    .join('; ');
}

function spokenNote(event: NoteEvent, frame: BarFrame): string {
  const { technique, pluck } = event;
  const finger = namedFinger(frame, event);
  const striking = technique?.attack === 'slap' ? 'slap' : technique?.attack === 'tap' ? 'tap' : undefined;
  return [
    event.voice === 'melody' ? 'melody' : undefined,
    // A slap is the thumb's as it is.
    striking ?? (pluck === undefined ? undefined : PLUCKING[pluck]),
    `string ${numberWord(event.string)}`,
    technique ? spokenTechnique(event.fret, technique) : spokenFret(event.fret),
    finger === undefined ? undefined : `with the ${FRETTING[finger]}`,
  ]
    .filter((word) => word !== undefined)
    .join(', ');
}

const WAYS: Readonly<Partial<Record<Technique['attack'], string>>> = {
  'hammer-on': 'hammer on to',
  'pull-off': 'pull off to',
  slide: 'slide to',
};

function spokenTechnique(fret: number, technique: Technique): string {
  const { attack, dead, ghost, harmonic, bend, vibrato, palmMuted } = technique;
  const way = WAYS[attack];
  const stopped = harmonic !== undefined && fret === 0 ? '' : spokenFret(fret);
  const at = [way, dead ? 'dead note' : stopped].filter((word) => word).join(' ');
  return [
    at,
    harmonic === undefined ? '' : `harmonic at fret ${numberWord(harmonic)}`,
    ghost ? 'ghost note' : '',
    bend ? spokenBend(bend) : '',
    vibrato ? 'vibrato' : '',
    palmMuted ? 'palm muted' : '',
  ]
    .filter((word) => word !== '')
    .join(', ');
}

/** How far a bend goes by the quarter tones of it; as many steps beyond as there may be are counted in them. */
const BENDS: Readonly<Record<number, string>> = {
  1: 'a quarter tone',
  2: 'a semitone',
  4: 'a whole tone',
  6: 'a tone and a half',
  8: 'two tones',
  10: 'two tones and a half',
  12: 'three tones',
};

function spokenBend({ quarters, before, release }: Bend): string {
  const far = BENDS[quarters] ?? `${numberWord(quarters)} quarter tones`;
  if (before) return `bent ${far} before it is plucked${release ? ', then let down' : ''}`;
  return `bend ${far}${release ? ' and let down' : ''}`;
}

const spokenFret = (fret: number): string => (fret === 0 ? 'open' : `fret ${numberWord(fret)}`);

/** A chord's shape, string by string from the lowest: `string six silent, string five fret three, ring finger, …`. */
export function spokenShape(voicing: Voicing): string {
  const count = voicing.frets.length;
  return voicing.frets
    .map((fret, index) => {
      const string = `string ${numberWord(count - index)}`;
      if (fret === null) return `${string} silent`;
      const finger = voicing.fingering?.fingers[index] ?? 0;
      return `${string} ${spokenFret(fret)}${fret > 0 && finger > 0 ? `, ${FRETTING[finger]}` : ''}`;
    })
    .join('; ');
}

/** The lowest fret pressed of a list; undefined where only open strings sound. */
export function lowestPressed(frets: FretList): number | undefined {
  const pressed = frets.filter((fret): fret is number => fret !== null && fret > 0);
  return pressed.length === 0 ? undefined : Math.min(...pressed);
}
