/** Draws the words under a system: each syllable below its note, hyphens between joined ones, lines where one is held. */
import type { BarScore, NoteEvent } from '../realise/score.ts';
import type { Shape } from './drawing.ts';
import { label, line, path } from './drawing.ts';
import type { PlacedBar } from './layout.ts';
import { syllableWidth } from './layout.ts';
import type { Rows } from './rows.ts';

const HYPHEN = 5;
const AIR = 4;
/** A hyphen stands at half the height of a small letter, a line on the base line. */
const HYPHEN_HEIGHT = 4;

const syllableOf = (events: readonly NoteEvent[]): NoteEvent['syllable'] =>
  events.find((event) => event.syllable)?.syllable;

export function drawSyllables({ measure, middles }: PlacedBar, rows: Rows): readonly Shape[] {
  return measure.moments.flatMap(({ events }, index) => {
    const syllable = syllableOf(events);
    return syllable && syllable.text !== '' ? [label('word', middles[index], rows.words, syllable.text, 'middle')] : [];
  });
}

/** What joins syllables to each other, and lines under the notes that one is held over. */
export function drawJoinedWords(bars: readonly PlacedBar[], rows: Rows, after: BarScore | undefined): readonly Shape[] {
  const shapes: Shape[] = [];
  // The end of the last syllable, how it goes on, and how far it has been held.
  let last: { readonly right: number; readonly joined: boolean } | undefined;
  let held: number | undefined;
  const close = (next: number | undefined, edge: number): void => {
    if (last?.joined) {
      const middle = next === undefined ? Math.min(last.right + AIR + HYPHEN, edge - HYPHEN) : (last.right + next) / 2;
      shapes.push(
        line('stem', middle - HYPHEN / 2, rows.words - HYPHEN_HEIGHT, middle + HYPHEN / 2, rows.words - HYPHEN_HEIGHT),
      );
    } else if (held !== undefined) {
      const from = last ? last.right + AIR : bars[0].x + AIR;
      if (held > from) shapes.push(path('stem', 'M', from, rows.words - 0.5, 'H', held));
    }
    held = undefined;
  };
  let any = false;
  for (const { measure, middles, x } of bars) {
    measure.moments.forEach(({ events }, index) => {
      const syllable = syllableOf(events);
      if (!syllable) return;
      const middle = x + middles[index];
      if (syllable.text === '') {
        // Where the word itself stands in the system before, nothing tells whether a hyphen has been set.
        if (any || !syllable.joined) held = middle + AIR;
        if (!any) last = undefined;
        any = true;
        return;
      }
      const half = syllableWidth(syllable) / 2;
      if (any) close(middle - half, middle - half);
      last = { right: middle + half, joined: syllable.joined };
      any = true;
    });
  }
  const end = bars[bars.length - 1];
  const edge = end.x + end.width;
  const next = after && syllableOf(after.events);
  if (held !== undefined && next?.text === '') held = edge - AIR;
  if (any && (held !== undefined || last?.joined)) close(undefined, edge);
  return shapes;
}
