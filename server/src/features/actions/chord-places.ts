/** The chords that a progression of this text writes out, each with the first place where it is played. */
import type { Analysis } from '../../analyze.ts';
import type { ChordPlace, ProgressionDefinition } from '../../lesson/lesson.ts';
import { covers } from '../../util/span.ts';
import type { ChordAddress, Place } from '../place.ts';
import { chordHere, type ChordHere } from '../preview-chord.ts';

export interface WrittenOut {
  readonly place: ChordPlace;
  /** As it stands in the text. */
  readonly symbol: string;
  /** Undefined where no section plays it. */
  readonly here: ChordHere | undefined;
}

/** What repeats a chord and does not write one. */
const NO_SYMBOLS: ReadonlySet<string> = new Set(['%', '/', 'N.C.']);

/** The progression of this text that the place is in. */
export function progressionAt({ lesson }: Analysis, { offset, form }: Place): ProgressionDefinition | undefined {
  if (form?.keyword !== 'progression') return undefined;
  return lesson.progressions.find(({ whole, from }) => !from && covers(whole, offset));
}

/** In the order of the text; those that only repeat another are left out. */
export function chordsWritten(analysis: Analysis, { bars }: ProgressionDefinition): readonly WrittenOut[] {
  const played = firstPlayed(analysis);
  return bars.flatMap(({ chords }) =>
    chords.flatMap((place): WrittenOut | readonly [] => {
      const symbol = analysis.text.slice(place.symbolSpan.start, place.symbolSpan.end);
      if (NO_SYMBOLS.has(symbol)) return [];
      const address = played.get(place.span.start);
      return { place, symbol, here: address && chordHere(analysis, address) };
    }),
  );
}

/** Where the chord that stands at an offset is played first. */
function firstPlayed({ lesson }: Analysis): ReadonlyMap<number, ChordAddress> {
  const found = new Map<number, ChordAddress>();
  lesson.sections.forEach(({ places }, section) =>
    places.forEach(({ chords }, bar) =>
      chords.forEach(({ span }, chord) => {
        if (!found.has(span.start)) found.set(span.start, { section, bar, chord });
      }),
    ),
  );
  return found;
}
