/** What fills a slot of the table of statements at one place of a lesson: names in scope, chords of the key, strings, tones. */
import type { Analysis } from '../analyze.ts';
import type { Progression } from '../lesson/progressions.ts';
import { beatWords } from '../draw/rhythm.ts';
import { stringCount } from '../fretboard/instrument.ts';
import { tuningNames } from '../fretboard/tuning.ts';
import type { Expectation } from '../syntax/patterns.ts';
import type { LineForm, StatementForm } from '../syntax/statements.ts';
import type { Word } from '../syntax/words.ts';
import { formatKey, modeNames, parseKey, type Key } from '../theory/key.ts';
import { formatNoteName } from '../theory/note.ts';
import { parseFraction } from '../util/fraction.ts';
import { nameOffers } from './completion-names.ts';
import { measureOffers, numberOffers, tempoOffers } from './completion-numbers.ts';
import { signOffers, stringOffers } from './completion-signs.ts';
import { fretListOffers, positionOffers, shapeOffers, type OfferedShape } from './completion-voicings.ts';
import { chordsInKey } from './key-chords.ts';

export interface Offer {
  readonly label: string;
  readonly kind: 'keyword' | 'name' | 'chord' | 'value';
  /** A few words on what it is; may be empty. */
  readonly detail: string;
  /** Lines of the language that show it in use. */
  readonly example?: string;
  /** What is written, where it is not the label. */
  readonly insert?: string;
  /** The voicing that it stands for: its diagram is drawn when somebody looks at it. */
  readonly shape?: OfferedShape;
}

/** The line in which something may follow. */
export interface OfferContext {
  readonly analysis: Analysis;
  readonly form: StatementForm;
  readonly line?: LineForm;
  /** Those before the one that is offered. */
  readonly words: readonly Word[];
  /** The number of the first word that is not the line's keyword. */
  readonly from: number;
  /** Where what is offered would begin. */
  readonly offset: number;
  /** Whether somebody asks; otherwise the editor does so by itself behind a blank. */
  readonly asked: boolean;
}

type Slot = Extract<Expectation, { is: 'slot' }>;

const TONES: Readonly<Record<string, string>> = {
  R: 'the root',
  '2': 'the second',
  '3': 'the third, as the chord has it',
  '4': 'the fourth',
  '5': 'the fifth, as the chord has it',
  '6': 'the sixth',
  '7': 'the seventh, as the chord has it',
  '9': 'the ninth',
  '11': 'the eleventh',
  '13': 'the thirteenth',
};
const STEPS: Readonly<Record<string, string>> = {
  '0': 'the start itself',
  '+1': 'one step of the scale above the start',
  '-1': 'one step below it',
  '+2': 'two steps above it',
  '-2': 'two steps below it',
  '-': 'what sounds rings on',
  r: 'a rest',
};
const FINGERS: Readonly<Record<string, string>> = {
  p: 'thumb',
  i: 'index',
  m: 'middle',
  a: 'ring finger',
  c: 'little finger',
};
const STROKES: Readonly<Record<string, string>> = {
  'p(bass)': 'thumb on the lowest sounding string',
  'p(alt)': 'thumb on the second lowest sounding string',
  'a(top)': 'ring finger on the highest sounding string',
  down: 'a stroke from the lowest string',
  up: 'a stroke from the highest string',
  roll: 'string by string',
  mute: 'a muted stroke',
  '-': 'what sounds rings on',
  r: 'a rest',
};
const LENGTHS = ['1/4', '1/8', '1/16', '1/2', '3/8', '3/4'];
const METERS = ['4/4', '3/4', '6/8', '2/4', '12/8', '5/4'];
const MAJOR_TONICS = ['C', 'G', 'D', 'A', 'E', 'B', 'F#', 'F', 'Bb', 'Eb', 'Ab', 'Db', 'Gb'];
const MINOR_TONICS = ['A', 'E', 'B', 'F#', 'C#', 'G#', 'D', 'G', 'C', 'F', 'Bb', 'Eb'];
const CHOICES: Readonly<Record<string, string>> = {
  small: 'reaches less far than most',
  medium: 'as most hands are',
  large: 'reaches farther than most',
  close: 'the triad’s notes within an octave',
  spread: 'the triad’s notes wider than an octave',
  top: 'the highest sounding string',
  bass: 'the lowest sounding string',
  tab: 'string by string',
  diagrams: 'the shapes, each once',
  neck: 'each shape on the fingerboard',
};
const WORDS: Readonly<Record<string, string>> = {
  as: 'another shape, or exactly these frets',
  at: 'the lowest fret pressed',
  over: 'the bass',
  in: 'the scale that melodies over it follow',
  with: 'that cell over it',
  held: 'struck once and left ringing',
  pushed: 'an eighth early',
  'N.C.': 'no chord',
};

/** Nothing for slots that only the author can fill, such as titles, and for marks. */
export function offersFor(expected: Expectation, context: OfferContext): readonly Offer[] {
  switch (expected.is) {
    case 'word': {
      // Signs are typed faster than they are chosen.
      if (!/^[\p{L}.-]+$/u.test(expected.word)) return [];
      const detail = context.form.keyword === 'progression' ? (WORDS[expected.word] ?? '') : '';
      return [{ label: expected.word, kind: 'keyword', detail }];
    }
    case 'choice': {
      const said = new Set(context.words.slice(context.from).map(({ text }) => text));
      return expected.words
        .filter((label) => !said.has(label))
        .map((label) => ({ label, kind: 'keyword', detail: CHOICES[label] ?? '' }));
    }
    case 'slot':
      return slotOffers(expected, context);
    case 'mark':
      return [];
  }
}

function slotOffers({ kind, label }: Slot, context: OfferContext): readonly Offer[] {
  const { analysis, words, from } = context;
  const { settings } = analysis.lesson;
  const previous = words[words.length - 1]?.text ?? '';
  switch (kind) {
    case 'name': {
      const names = nameOffers(label, context);
      return previous === 'as' && context.form.keyword === 'progression' ? shapeOffers(context, names) : names;
    }
    case 'tuning':
      return words.length > from ? [] : tuningNames.map(({ name, notes, says }) => value(name, `${notes}, ${says}`));
    case 'tonic':
      return keyOffers();
    case 'mode':
      return modeOffers(words);
    case 'chord':
      return chordOffers(context);
    case 'tone':
      return valuesOf(TONES);
    case 'tone or any':
      return [...valuesOf(TONES), value('any', 'whatever the search finds')];
    case 'bass':
      return [
        ...valuesOf(TONES),
        ...keyOf(context).scale.map((note) => value(formatNoteName(note), 'a note of the key')),
      ];
    case 'string':
      return stringOffers(context);
    case 'fret':
      return previous === 'at' && context.form.keyword === 'progression'
        ? positionOffers(context)
        : numberOffers(label, context);
    case 'sign':
    case 'tab sign':
    case 'pluck row':
    case 'finger row':
    case 'palm row':
      return signOffers(kind, context);
    case 'tempo':
      return tempoOffers(label, context);
    case 'measure':
      return measureOffers();
    case 'frets':
      return fretListOffers(context);
    case 'length':
      return LENGTHS.map((one) => value(one, beatWords(parseFraction(one)!)));
    case 'meter':
      return METERS.map((one) => value(one, ''));
    case 'pluck':
      return pluckOffers(stringCount(settings.instrument));
    case 'step':
      return [...valuesOf(STEPS), ...['R', '3', '5'].map((tone) => value(tone, `${TONES[tone]}, the nearest`))];
    case 'finger':
      return valuesOf(FINGERS);
    case 'number':
      return numberOffers(label, context);
    default:
      return [];
  }
}

const value = (label: string, detail: string): Offer => ({ label, kind: 'value', detail });
const valuesOf = (words: Readonly<Record<string, string>>): readonly Offer[] =>
  // Written out, since a record puts whole numbers before other keys.
  Object.entries(words)
    .sort(([a], [b]) => Number(a !== 'R' && a !== '0') - Number(b !== 'R' && b !== '0'))
    .map(([label, detail]) => value(label, detail));

const keyOffers = (): readonly Offer[] => [
  ...MAJOR_TONICS.map((tonic) => value(`${tonic} major`, scaleWords(parseKey(`${tonic} major`)))),
  ...MINOR_TONICS.map((tonic) => value(`${tonic} minor`, scaleWords(parseKey(`${tonic} minor`)))),
];

const scaleWords = (key: Key | undefined): string => key?.scale.map(formatNoteName).join(' ') ?? '';

/** Modes of several words are offered whole, and what is left of them behind their first words. */
function modeOffers(words: readonly Word[]): readonly Offer[] {
  let tonic = words.length - 1;
  while (tonic > 0 && !/^[A-Ga-g][#b♯♭♮]*$/u.test(words[tonic].text)) tonic--;
  const said = words
    .slice(tonic + 1)
    .map((word) => `${word.text} `)
    .join('');
  return modeNames()
    .filter((mode) => mode.startsWith(said))
    .map((mode) => value(mode.slice(said.length), scaleWords(parseKey(`${words[tonic]?.text} ${mode}`))));
}

/** The chords of the key: numerals first where they may stand, then symbols. */
function chordOffers(context: OfferContext): readonly Offer[] {
  const key = keyOf(context);
  const chords = chordsInKey(key);
  const numerals = chords.flatMap(({ numeral, chord }): readonly Offer[] =>
    numeral === undefined ? [] : [{ label: numeral, kind: 'chord', detail: `${chord.symbol} in ${formatKey(key)}` }],
  );
  const symbols = chords.map(({ chord, numeral }): Offer => ({
    label: chord.symbol,
    kind: 'chord',
    detail: numeral === undefined ? formatKey(key) : `${numeral} in ${formatKey(key)}`,
  }));
  return context.form.keyword === 'progression' ? [...numerals, ...symbols] : symbols;
}

/** The key that a progression's numerals count in: its own, that of a section which plays it, or the lesson's. */
function keyOf({ analysis, form, offset }: OfferContext): Key {
  const { lesson } = analysis;
  // The cursor may stand behind the last word of its progression, so that the last one that begins before it is meant.
  const progression =
    form.keyword === 'progression'
      ? (lesson.progressions.filter(({ whole }) => whole.start <= offset).pop() as Progression | undefined)
      : undefined;
  const first = progression?.bars[0]?.span.start;
  const section = lesson.sections.find(({ places }) => places.some((bar) => bar.span.start === first));
  return progression?.key ?? section?.plan.key ?? lesson.settings.key;
}

/** A finger on each string, as a hand lies over them, then what aims by sound and the strokes. */
function pluckOffers(strings: number): readonly Offer[] {
  const plucks = Array.from({ length: strings }, (_, i) => {
    const string = strings - i;
    const finger = string > 3 ? 'p' : 'ami'[string - 1];
    return value(`${finger}${string}`, `${FINGERS[finger]} on string ${string}`);
  });
  return [...plucks, ...valuesOf(STROKES)];
}
