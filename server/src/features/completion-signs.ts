/** The signs of melodies, tabs and their rows, each with a word on what it is. Offered only where somebody asks. */
import { openMidi, stringCount } from '../fretboard/instrument.ts';
import { leaf } from '../syntax/tree.ts';
import { formatPitch, pitchFromMidi, usualName } from '../theory/note.ts';
import type { Offer, OfferContext } from './completion-offers.ts';
import { statementAt } from './place.ts';

type Signs = readonly (readonly [sign: string, says: string])[];

const SILENCE: Signs = [
  ['-', 'what sounds rings on'],
  ['r', 'silence'],
];
const PLAYED: Signs = [
  ['5', 'a fret; 0 is the open string'],
  ['h7', 'hammer-on to that fret'],
  ['p5', 'pull-off to that fret'],
  ['/7', 'slide up to that fret'],
  ['\\5', 'slide down to that fret'],
];
const MARKED: Signs = [
  ['x', 'a dead note'],
  ['(5)', 'a ghost note'],
  ['5>', 'an accent'],
  ['<12>', 'a harmonic'],
  ['2<14>', 'a harmonic over a pressed fret'],
  ['7b9', 'a bend to the pitch of fret 9'],
  ['7b9r7', 'a bend, let down again'],
  ['7pb9', 'bent before it is plucked'],
  ['7b1/4', 'a bend by a quarter tone'],
  ['5~', 'vibrato'],
  ['g5h7', 'a grace note, hammered on to its note'],
  ['s3', 'slapped with the thumb'],
  ['t12', 'tapped'],
];
const REPEAT: Signs = [['...', 'as in the bar before']];

const ROWS = {
  sign: [...SILENCE, ...PLAYED, ...MARKED],
  'tab sign': [...SILENCE, ...PLAYED, ['1h3p1', 'joined within one step'], ...MARKED, ...REPEAT],
  'pluck row': [
    ['p', 'thumb'],
    ['i', 'index'],
    ['m', 'middle'],
    ['a', 'ring finger'],
    ['c', 'little finger'],
    ['p+a', 'a pinch, from the lowest string up'],
    ['-', 'none plucks'],
    ...REPEAT,
  ],
  'finger row': [
    ['1', 'index'],
    ['2', 'middle'],
    ['3', 'ring finger'],
    ['4', 'little finger'],
    ['0', 'an open string'],
    ['3+1', 'two at once, from the lowest string up'],
    ['-', 'nothing new'],
    ...REPEAT,
  ],
  'palm row': [['*', 'palm muted'], ['-', 'not muted'], ...REPEAT],
} as const satisfies Record<string, Signs>;

export const signOffers = (kind: keyof typeof ROWS, { asked }: OfferContext): readonly Offer[] =>
  asked ? ROWS[kind].map(([label, detail]) => ({ label, kind: 'value', detail })) : [];

/** The strings of the instrument that the line does not name yet, each with what it sounds open. */
export function stringOffers(context: OfferContext): readonly Offer[] {
  const { analysis, form, line, words, from } = context;
  const { instrument } = analysis.lesson.settings;
  const said = new Set(words.slice(from).map(({ text }) => text));
  const labels = Array.from({ length: stringCount(instrument) }, (_, i) => {
    const sounding = openMidi(instrument, i + 1);
    return { string: i + 1, detail: `open ${formatPitch(pitchFromMidi(sounding, usualName(sounding % 12)))}` };
  });
  if (form.keyword === 'melody' && line)
    return labels.map(({ string, detail }) => ({
      label: `${string}:`,
      kind: 'value',
      detail: `from here on, ${detail}`,
    }));
  if (form.keyword === 'tab') {
    const last = lastRow(context);
    // The next string down is the likeliest, and behind the last one the highest again.
    const turned = [...labels.slice(last), ...labels.slice(0, last)];
    return turned.map(({ string, detail }) => ({ label: `${string}`, insert: `${string} | `, kind: 'value', detail }));
  }
  return labels
    .filter(({ string }) => !said.has(`${string}`))
    .map(({ string, detail }) => ({ label: `${string}`, kind: 'value', detail }));
}

/** The string of the row above the cursor's line, 0 where there is none. */
function lastRow({ analysis, offset }: OfferContext): number {
  const statement = statementAt(analysis, offset);
  const lineStart = analysis.lines.starts[analysis.lines.lineAt(offset)];
  const rows =
    statement?.tree.body.filter(({ form, end }) => form === 'row' && statement.start + end <= lineStart) ?? [];
  const string = Number(leaf(rows[rows.length - 1], 'string')?.text ?? 0);
  return string <= stringCount(analysis.lesson.settings.instrument) ? string : 0;
}
