/** Reads one named part, of whatever kind, in its own file or in another's. */
import { readCell, readContour } from './cells.ts';
import type { ChordBook } from './chord-book.ts';
import type { Definition, Settings } from './lesson.ts';
import { readMelody } from './melodies.ts';
import { readProgression } from './progressions.ts';
import type { Source } from './reader.ts';
import { readGrip, readShape } from './shapes.ts';
import { readTab } from './tabs.ts';

/** Undefined for what is no part, or has no name. */
export function readPart(source: Source, settings: Settings, book: ChordBook): Definition | undefined {
  const { instrument, key } = settings;
  switch (source.tree.keyword) {
    case 'shape':
      return readShape(source, instrument);
    case 'grip':
      return readGrip(source, instrument);
    case 'progression':
      return readProgression(source, key, book);
    case 'cell':
      return readCell(source, instrument);
    case 'contour':
      return readContour(source, instrument);
    case 'melody':
      return readMelody(source, instrument);
    case 'tab':
      return readTab(source, settings, book);
  }
}
