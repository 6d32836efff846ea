/** `stringcourse voicings`: the voicings of a chord that a hand can hold, the easiest first. */
import { parseArgs } from 'node:util';
import { difficultyWord } from '../draw/facts.ts';
import { textDiagram } from '../draw/text-diagram.ts';
import { formatFretList } from '../fretboard/frets.ts';
import { stringCount, type Instrument } from '../fretboard/instrument.ts';
import type { ShapeRule } from '../lesson/lesson.ts';
import { RealiseCache } from '../realise/realise.ts';
import type { Voicing } from '../realise/score.ts';
import { voicingsOf } from '../realise/voicings.ts';
import { parseChord, type Chord } from '../theory/chord.ts';
import { formatDegree } from '../theory/interval.ts';
import { keyOf } from '../theory/key.ts';
import { formatPitch } from '../theory/note.ts';
import { INSTRUMENT_HELP, instrumentOptions, readHand, readInstrument, readKey } from './instrument-options.ts';
import { say } from './terminal.ts';
import { oneOf, wholeNumber, WrongUse } from './wrong-use.ts';

export const VOICINGS_HELP = `stringcourse voicings CHORD [--strings 4,2,1] [--open 3] [--frets 1-12] [--reach N] [--most N] [--format text|json]

The voicings of a chord, the easiest first. Without --strings any strings that lie side by side may carry it.

  --strings    the strings that carry the chord, 1 the highest; all others are silent
  --open       strings that ring open beside them
  --frets      where on the neck: 1-12; from 0 where listed strings may be open
  --reach      the highest fret pressed less the lowest, at most
  --most       how many are shown (12)
${INSTRUMENT_HELP}
  --format json   one line a voicing: {"frets","fingers","names","notes","intervals","difficulty","zone"}
`;

const USUAL_FRETS = '0-12';
const SHOWN = '12';
const MOST_SHOWN = 5000;

/** The exit status: 1 where there is no voicing. */
export function voicings(args: readonly string[]): number {
  const { values, positionals } = parseArgs({
    args: [...args],
    allowPositionals: true,
    options: {
      ...instrumentOptions,
      strings: { type: 'string' },
      open: { type: 'string' },
      frets: { type: 'string', default: USUAL_FRETS },
      reach: { type: 'string' },
      most: { type: 'string', default: SHOWN },
      format: { type: 'string', default: 'text' },
    },
  });
  const [symbol, ...more] = positionals;
  if (symbol === undefined || more.length > 0)
    throw new WrongUse('voicings takes one chord: stringcourse voicings Am7');
  const chord = parseChord(symbol);
  if (!chord) throw new WrongUse(`"${symbol}" is no chord; a chord is written as Am7 or D/F#.`);
  const format = oneOf(values.format, '--format', ['text', 'json']);
  const most = wholeNumber(values.most, '--most', 1, MOST_SHOWN);
  const instrument = readInstrument(values.tuning, values.capo);
  const rule = ruleFrom(values, instrument);
  const key = readKey(values.key) ?? keyOf(chord.root, 'major')!;
  const playing = { instrument, hand: readHand(values.hand) };
  const set = voicingsOf(chord, rule, key, playing, new RealiseCache());
  const shown = set.voicings.slice(0, most);
  for (const voicing of shown) {
    say(format === 'json' ? `${JSON.stringify(asData(voicing))}\n` : `${described(voicing, instrument)}\n\n`);
  }
  if (format === 'text') say(`${closing(chord, set.choices, shown.length, set.searchCut)}\n`);
  return shown.length > 0 ? 0 : 1;
}

type Values = { readonly strings?: string; readonly open?: string; readonly frets: string; readonly reach?: string };

function ruleFrom(values: Values, instrument: Instrument): ShapeRule {
  const count = stringCount(instrument);
  const all = Array.from({ length: count }, (_, index) => count - index);
  const strings = values.strings === undefined ? undefined : stringsIn(values.strings, '--strings', count);
  const open = values.open === undefined ? [] : stringsIn(values.open, '--open', count);
  const both = open.find((string) => strings?.includes(string));
  if (both !== undefined) throw new WrongUse(`String ${both} cannot both carry the chord and ring open.`);
  const range = /^(\d{1,2})-(\d{1,2})$/.exec(values.frets);
  if (!range) throw new WrongUse(`--frets takes a range such as 1-12, not "${values.frets}".`);
  const [lowestFret, highestFret] = range.slice(1).map((text) => wholeNumber(text, '--frets', 0, instrument.frets));
  return {
    name: 'asked',
    strings: strings ?? all.filter((string) => !open.includes(string)),
    open,
    avoid: [],
    lowestFret,
    highestFret,
    ...(values.reach !== undefined && { reach: wholeNumber(values.reach, '--reach', 0, instrument.frets) }),
    barre: true,
    ...(!strings && open.length === 0 && { sparse: true }),
  };
}

const stringsIn = (text: string, option: string, count: number): readonly number[] =>
  text
    .split(/[\s,]+/)
    .filter((each) => each !== '')
    .map((each) => wholeNumber(each, option, 1, count));

const asData = (voicing: Voicing) => ({
  frets: formatFretList(voicing.frets),
  fingers: voicing.fingering?.fingers,
  names: voicing.sounding,
  notes: voicing.strings.map(({ pitch }) => formatPitch(pitch)),
  intervals: voicing.strings.map(({ degree }) => formatDegree(degree, '1')),
  difficulty: voicing.verdict.difficulty,
  zone: voicing.verdict.zone,
});

function described(voicing: Voicing, instrument: Instrument): string {
  const { verdict, fingering, frets, sounding } = voicing;
  const reach = verdict.zone === 'comfortable' ? '' : `, ${verdict.zone}`;
  const effort = `${verdict.difficulty.toFixed(1)}, ${difficultyWord(verdict.difficulty)}${reach}`;
  return `${formatFretList(frets)}  ${sounding[0] ?? ''}  ${effort}\n${textDiagram(frets, fingering?.fingers, instrument)}`;
}

function closing(chord: Chord, found: number, shown: number, cut: boolean): string {
  if (found === 0) return `No voicing of ${chord.symbol} that a hand can hold satisfies this.`;
  const all = `${found} voicing${found === 1 ? '' : 's'} of ${chord.symbol}${cut ? ', and maybe more: the search was cut short' : ''}`;
  return found > shown ? `${all}; the ${shown} easiest shown, --most shows more.` : `${all}.`;
}
