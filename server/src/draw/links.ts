/** Which note each hammer-on, pull-off and slide comes from: the one before on its string, over bar lines too. */
import type { BarScore, NoteEvent } from '../realise/score.ts';
import { compare } from '../util/fraction.ts';

/** Notes that the fretting hand sounds by itself, out of a note that sounds already. */
export const isJoined = (event: NoteEvent): boolean => {
  const attack = event.technique?.attack;
  return attack === 'hammer-on' || attack === 'pull-off' || attack === 'slide';
};

export const isSlur = (event: NoteEvent): boolean => isJoined(event) && event.technique?.attack !== 'slide';

/** For each joined note of these bars that has one the note that it comes from. */
export function joinedFrom(bars: readonly BarScore[]): ReadonlyMap<NoteEvent, NoteEvent> {
  const from = new Map<NoteEvent, NoteEvent>();
  const last = new Map<number, NoteEvent>();
  for (const bar of bars) {
    for (const event of inOrder(bar)) {
      const before = last.get(event.string);
      if (before && isJoined(event)) from.set(event, before);
      last.set(event.string, event);
    }
  }
  return from;
}

/** A grace note comes before the note at whose start it stands. */
function inOrder(bar: BarScore): readonly NoteEvent[] {
  if (!bar.events.some((event) => event.technique?.grace)) return bar.events;
  return [...bar.events].sort(
    (a, b) => compare(a.start, b.start) || Number(b.technique?.grace ?? false) - Number(a.technique?.grace ?? false),
  );
}
