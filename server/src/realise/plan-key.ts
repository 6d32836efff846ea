/**
 * A section's plan as a short text that is equal for equal music: what its score is kept under. A plan as a whole is mostly
 * chords spelled out; a chord's symbol says as much.
 */
import type { BarPlan, ChordPlan, SectionPlan } from '../lesson/lesson.ts';
import { formatFraction } from '../util/fraction.ts';
import type { NoteName } from '../theory/note.ts';

/** Chords over one key share their scale, so that its text is made once. */
const scaleTexts = new WeakMap<readonly NoteName[], string>();

export function planKey(plan: SectionPlan): string {
  const { bars, ...around } = plan;
  return `${JSON.stringify(around)}\n${bars.map(barKey).join('\n')}`;
}

function barKey(bar: BarPlan): string {
  const chords = bar.chords.map(chordKey).join(';');
  const { melody, tab, words, ending } = bar;
  const written = melody || tab || words || ending !== undefined ? JSON.stringify([melody, tab, words, ending]) : '';
  return `${written}${bar.number} ${formatFraction(bar.length)} ${bar.broken} ${bar.cell} ${bar.cellFrom} ${bar.contour};${chords}`;
}

function chordKey(chord: ChordPlan): string {
  // Each field that a plan has is named, so that a new one is not forgotten here.
  const {
    written,
    chord: meant,
    silent,
    start,
    length,
    rule,
    lowestFret,
    frets,
    fingers,
    bassStrings,
    ...rest
  } = chord;
  const { scale, cell, held, pushed, ...forgotten } = rest;
  forgotten satisfies Record<string, never>;
  const numbers = [frets, fingers, bassStrings].map((list) => list?.join('.') ?? '').join('/');
  const time = `${formatFraction(start)} ${formatFraction(length)}`;
  return `${written} ${meant?.symbol} ${silent} ${time} ${rule} ${lowestFret} ${numbers} ${scaleText(scale)} ${cell} ${held} ${pushed}`;
}

function scaleText(scale: readonly NoteName[]): string {
  let text = scaleTexts.get(scale);
  if (text === undefined) {
    text = scale.map(({ letter, accidental }) => `${letter}${accidental}`).join('');
    scaleTexts.set(scale, text);
  }
  return text;
}
