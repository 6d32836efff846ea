/** Lets bars that are played as before be the same objects as before, so that whoever draws or hears them need not again. */
import type { SectionPlan, Settings } from '../lesson/lesson.ts';
import type { Fraction } from '../util/fraction.ts';
import type { RealiseCache } from './cache.ts';
import type { BarScore, ChordScore, NoteEvent, Voicing } from './score.ts';

/** Voicings are long to write down and live as long as their chord's voicing set: a number says which is meant. */
const numbers = new WeakMap<Voicing, number>();
let next = 0;

/** Takes the bars of one section; what all of them have in common is said once. */
export function keeper(plan: SectionPlan, settings: Settings, cache: RealiseCache): (bar: BarScore) => BarScore {
  const common = cache.numberOf(JSON.stringify([settings.instrument, plan.key]));
  return (bar) => cache.bars.get(`${common} ${barKey(bar)}`, () => bar);
}

function barKey(bar: BarScore): string {
  const { number, length, broken, chords, events, rests, silentPlucks, cellMisfit, troubles, tied } = bar;
  const quiet = rests.length + silentPlucks.length === 0 ? '' : JSON.stringify([rests, silentPlucks]);
  const written = troubles || tied ? JSON.stringify([troubles, tied]) : '';
  const head = `${number} ${time(length)} ${broken} ${cellMisfit} ${quiet} ${written}`;
  return `${head};${chords.map(chordKey).join(';')};${events.map(eventKey).join(';')}`;
}

/** All but `choices`, which is dear to ask for and follows from the rest. */
function chordKey(chord: ChordScore): string {
  const { written, silent, start, length, held, searchCut, none, contour, change } = chord;
  const head = `${written} ${chord.chord?.symbol} ${silent} ${time(start)} ${time(length)} ${held} ${searchCut}`;
  return `${head} ${numberOf(chord.voicing)} ${none || contour || change ? JSON.stringify([none, contour, change]) : ''}`;
}

/** Pitches and degrees follow from string, fret, chord, instrument and key; a pushed note's from the next bar's chord. */
function eventKey(event: NoteEvent): string {
  const { string, fret, start, length, ringing, voice, finger, how, pluck, stroke, accent, triplet, chord, pushed } =
    event;
  const { technique, syllable } = event;
  const own = technique || syllable ? JSON.stringify([technique, syllable]) : '';
  const named = pushed ? JSON.stringify([event.shapePitch, event.degree]) : '';
  const place = `${string} ${fret} ${time(start)} ${time(length)} ${time(ringing)} ${voice} ${chord}`;
  return `${place} ${finger} ${pluck} ${stroke} ${accent} ${triplet} ${named} ${how ? JSON.stringify(how) : ''} ${own}`;
}

const time = ({ over, under }: Fraction): string => `${over}/${under}`;

function numberOf(voicing: Voicing | undefined): number {
  if (!voicing) return 0;
  let number = numbers.get(voicing);
  if (number === undefined) numbers.set(voicing, (number = ++next));
  return number;
}
