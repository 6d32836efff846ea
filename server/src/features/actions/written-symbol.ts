/** How a chord is written: as a symbol or as a numeral of its key, with its slash bass behind the symbol or behind `over`. */
import type { ChordPlace } from '../../lesson/lesson.ts';
import { chordWithBass, parseChord, sameSymbol, toneOf, type Chord } from '../../theory/chord.ts';
import type { Key } from '../../theory/key.ts';
import { formatNoteName, sameName, type NoteName } from '../../theory/note.ts';
import { numeralOf } from '../../theory/numeral.ts';
import { degreeOf } from '../../theory/quality.ts';
import type { Edit } from '../../util/finding.ts';

/** The edits that write `chord` as a symbol in the place of another; undefined where its symbol does not read back. */
export function asSymbol(chord: Chord, place: ChordPlace, text: string): readonly Edit[] | undefined {
  const back = parseChord(chord.symbol);
  if (!back || !sameSymbol(back, chord)) return undefined;
  return [{ span: place.symbolSpan, text: chord.symbol }, ...withoutOver(place, text)];
}

/** The edits that write `chord` as a numeral of `key`; undefined where no numeral reads back to it. */
export function asNumeral(chord: Chord, key: Key, place: ChordPlace): readonly Edit[] | undefined {
  const numeral = numeralOf(chordWithBass(chord, undefined), key);
  if (numeral === undefined) return undefined;
  const { over } = place.modifiers;
  const bass = chord.bass && `over ${bassWord(chord, chord.bass, key)}`;
  // A bass that stands behind `over` already stays as it is written.
  const behind = bass === undefined || over ? '' : ` ${bass}`;
  return [{ span: place.symbolSpan, text: numeral + behind }];
}

/** A tone where the chord has the note, which stays true in another key; else the note. */
function bassWord(chord: Chord, bass: NoteName, key: Key): string {
  const tone = chord.tones.find(({ name }) => sameName(name, bass));
  if (!tone) return formatNoteName(bass);
  const { number } = tone.degree;
  const natural = toneOf(chord, degreeOf(number), false, key);
  return natural && sameName(natural, bass) ? `${number}` : formatNoteName(bass);
}

/** Takes `over D` away, with the blanks before it. */
export function withoutOver({ modifiers: { over } }: ChordPlace, text: string): readonly Edit[] {
  if (!over) return [];
  let { start } = over;
  while (start > 0 && /[^\S\r\n]/.test(text[start - 1])) start--;
  return [{ span: { start, end: over.end }, text: '' }];
}
