/** How fast a melody goes over a held shape: one finger that has two of its notes in a row must get from fret to fret between them. */
import { millimetresAt, type Instrument } from '../../fretboard/instrument.ts';
import { MILLION, MOVEMENT, type Player } from '../../hand/model.ts';
import { timeFor } from '../../hand/movement.ts';
import type { NoteEvent } from '../../realise/score.ts';
import { secondsOfWhole } from '../../realise/timeline.ts';
import type { Tempo } from '../../lesson/lesson.ts';
import { minus, times, toNumber } from '../../util/fraction.ts';
import { barsOn, type PlayedBar, type Stage } from './stage.ts';

/** A finger's way between two notes; times in whole millionths of a second. */
export interface MelodyObstacle {
  readonly place: PlayedBar;
  readonly finger: number;
  readonly frets: readonly [from: number, to: number];
  readonly need: number;
  readonly available: number;
}

/** In the order in which they are played. What written-out bars lack is told by those who play them anew. */
export function melodyObstacles(
  stage: Stage,
  section: number,
  tempo: Tempo,
  player: Player,
): readonly MelodyObstacle[] {
  const { instrument } = stage.lesson.settings;
  const second = secondsOfWhole(tempo);
  return barsOn({ ...stage, sections: [section] }).flatMap((place) => {
    const melody = place.played.events.filter(({ voice, how }) => voice === 'melody' && how);
    return melody.slice(1).flatMap((to, index): readonly MelodyObstacle[] => {
      const from = melody[index];
      const need = needBetween(from, to, instrument, player);
      if (need === undefined) return [];
      const available = Math.round(toNumber(times(minus(to.start, from.start), second)) * MILLION);
      if (need <= available) return [];
      return [{ place, finger: to.how!.finger, frets: [from.fret, to.fret], need, available }];
    });
  });
}

/** Undefined where another finger can lie ready, or the finger is already there; the next chord's first note is the change's affair. */
function needBetween(from: NoteEvent, to: NoteEvent, instrument: Instrument, player: Player): number | undefined {
  const finger = to.how!.finger;
  const isSame = finger > 0 && from.how!.finger === finger && from.chord === to.chord;
  if (!isSame || (from.fret === to.fret && from.string === to.string)) return undefined;
  const along = Math.abs(
    millimetresAt(instrument, to.string, to.fret) - millimetresAt(instrument, from.string, from.fret),
  );
  const across = from.string === to.string ? 0 : MOVEMENT.otherString;
  const guides = from.string === to.string ? 1 : 0;
  return timeFor(0, along + MOVEMENT.lift + across, false, 1, guides, player);
}
