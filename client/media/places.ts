/** Where a cursor in the text is among what the preview shows: bars, chords, prose, steps of the practice. */
import type { PlaceInText, PreviewBar, PreviewText } from '../../server/src/protocol.ts';

export interface Cursor {
  readonly line: number;
  readonly character: number;
}

export const startOf = ({ startLine, startCharacter }: PlaceInText): Cursor => ({
  line: startLine,
  character: startCharacter,
});

export function holds(place: PlaceInText, { line, character }: Cursor): boolean {
  const begun = line > place.startLine || (line === place.startLine && character >= place.startCharacter);
  const ended = line > place.endLine || (line === place.endLine && character > place.endCharacter);
  return begun && !ended;
}

/**
 * The bars whose text, or prose about them, holds the cursor; between two bars of a line, at its bar line, the one before, and in
 * front of all of them the first.
 */
export function idsAt(bars: readonly PreviewBar[], cursor: Cursor): readonly string[] {
  const inside = bars.filter(({ place, told }) => [place, ...told].some((one) => holds(one, cursor)));
  if (inside.length > 0) return inside.map(({ id }) => id);
  const { line, character } = cursor;
  const before = bars.filter(({ place }) => place.endLine === line && place.endCharacter < character);
  if (before.length > 0) {
    const last = Math.max(...before.map(({ place }) => place.endCharacter));
    return before.filter(({ place }) => place.endCharacter === last).map(({ id }) => id);
  }
  const behind = bars.filter(({ place }) => place.startLine === line);
  const first = Math.min(...behind.map(({ place }) => place.startCharacter));
  return behind.filter(({ place }) => place.startCharacter === first).map(({ id }) => id);
}

export interface ChordHere {
  readonly bar: string;
  /** Index in the bar. */
  readonly chord: number;
}

/** The chord at the cursor: the one that holds it, or the last that begins before it in its bar. */
export function chordAt(bars: readonly PreviewBar[], cursor: Cursor): ChordHere | undefined {
  const [id] = idsAt(bars, cursor);
  const bar = bars.find((one) => one.id === id);
  if (!bar) return undefined;
  const inside = bar.chords.findIndex((place) => holds(place, cursor));
  const begun = lastOf(
    bar.chords,
    ({ startLine, startCharacter }) =>
      startLine < cursor.line || (startLine === cursor.line && startCharacter <= cursor.character),
  );
  const isTold = bar.told.some((place) => holds(place, cursor));
  return { bar: bar.id, chord: Math.max(0, inside >= 0 || isTold ? inside : begun) };
}

/** The prose or the step whose lines hold the cursor, the narrowest first: what stands before them in a line is theirs too. */
export const textAt = (texts: readonly PreviewText[], { line }: Cursor): PreviewText | undefined =>
  texts[lastOf(texts, ({ place }) => place.startLine <= line && line <= place.endLine)];

/** Index of the last for which it is true; −1 where it is for none. */
export function lastOf<Thing>(things: readonly Thing[], isTrue: (thing: Thing) => boolean): number {
  let index = things.length - 1;
  while (index >= 0 && !isTrue(things[index])) index--;
  return index;
}
