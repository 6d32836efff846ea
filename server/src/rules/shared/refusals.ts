/** Why no hand can hold a shape, in the words of a teacher. */
import type { Refusal } from '../../hand/fingering.ts';
import type { HandSize } from '../../hand/model.ts';
import { capoOn, type Instrument } from '../../fretboard/instrument.ts';
import type { Context, Found } from '../rule.ts';
import { once, voiced, type PlacedChord } from './chords.ts';
import { deleteSpan } from './fixes.ts';
import { fretNamed } from './seen.ts';
import { fingerName, outward, quoted } from './words.ts';

/** Findings for all chords whose frets no hand can hold for a reason that `concerns` accepts. */
export function refusals(context: Context, concerns: (refusal: Refusal) => boolean): readonly Found[] {
  const { hand, instrument } = context.lesson.settings;
  return once(
    voiced(context).flatMap((chord) => {
      const { verdict } = chord.voicing;
      if (verdict.playable || !verdict.whyNot || !concerns(verdict.whyNot)) return [];
      const message = `No ${hand} hand can hold ${quoted(chord.plan.written)} so: ${reasonFor(verdict.whyNot, hand, instrument)}.`;
      return { chord, message };
    }),
    (_, all) => ({ fixes: withoutPin(context.text, all) }),
  );
}

/** Where the author chose the frets, they can be left to the engine. */
function withoutPin(text: string, all: readonly PlacedChord[]): Found['fixes'] {
  const pins = all.flatMap(({ place }) => place.modifiers.as ?? []);
  if (pins.length === 0) return [];
  const edits = pins.flatMap(({ start, end }) => {
    const blank = /\s/.test(text[start - 1] ?? '') ? 1 : 0;
    return deleteSpan({ start: start - blank, end }, '').edits;
  });
  const distinct = edits.filter((edit, i) => edits.findIndex((one) => one.span.start === edit.span.start) === i);
  return [{ title: 'Leave the frets to the shape', edits: distinct }];
}

export function reasonFor(refusal: Refusal, hand: HandSize, instrument: Instrument): string {
  const { fingers, frets, strings, needed, millimetres = 0, limit = 0 } = refusal;
  const beyond = outward(millimetres, limit, 10);
  const finger = fingerName(fingers[0]);
  const barre = `a barre of the ${finger} at ${fretNamed(instrument, frets[0], strings[0])}`;
  switch (refusal.reason) {
    case 'off-the-neck':
      return strings.length > 0
        ? `string ${strings[0]} has no fret ${frets[0]}${capoOn(instrument, strings[0]) > 0 ? ' behind the capo' : ''}`
        : 'it has more strings than the instrument';
    case 'too-many-fingers':
      return `it would take ${needed ?? 'more than four'} fingers; leave a string out`;
    case 'open-string-in-barre':
      return `${barre} would lie over string ${strings[2]}, which must ring open; press it, or leave it out`;
    case 'open-string-beside-barre':
      return `${barre} would touch string ${strings[2]}, which must ring open; press it, or leave it out`;
    case 'lower-fret-in-barre':
    case 'lower-fret-beside-barre':
      return `${barre} leaves no room for the lower fret on string ${strings[2]}; leave one of the two out`;
    case 'too-wide':
      return `${pair(refusal, instrument)} would lie ${beyond} mm apart; bring them within its reach of ${limit}`;
    case 'too-far-across':
      return `${pair(refusal, instrument)} would lie ${beyond} mm apart across the strings; bring them within its reach of ${limit}`;
    case 'barre-too-long':
      return `the ${finger} would have to cover strings ${strings[0]} to ${strings[1]}, ${beyond} mm, and covers ${limit}; leave a string out`;
    case 'two-barres-on-one-fret':
      return `two fingers would have to lie flat at ${fretNamed(instrument, frets[0], strings[0])}; leave a string out`;
    case 'several':
      return `the frets ask too much at once of a ${hand} hand; leave a string out`;
  }
}

const pair = ({ fingers, frets, strings }: Refusal, instrument: Instrument): string =>
  fingers
    .map((finger, i) => `the ${fingerName(finger)} at ${fretNamed(instrument, frets[i], strings[i])}`)
    .join(' and ');
