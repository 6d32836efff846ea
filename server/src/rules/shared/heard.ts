/** A section as the plucking and strumming hand plays it: its plucks and strokes in seconds, swung, and what is remarkable in them. */
import { pluckRemarks, type PluckRemark, type TimedPluck } from '../../hand/plucking.ts';
import { strokeRemarks, type StrokeRemark, type TimedStroke } from '../../hand/strumming.ts';
import type { Settings, Tempo } from '../../lesson/lesson.ts';
import type { BarScore, NoteEvent, SectionScore } from '../../realise/score.ts';
import { swungAt } from '../../realise/swing.ts';
import { secondsOfWhole } from '../../realise/timeline.ts';
import { equal, plus, times, ZERO, type Fraction } from '../../util/fraction.ts';

/** A note of the score with its bar. */
export interface Struck {
  readonly event: NoteEvent;
  readonly bar: BarScore;
}

export interface Heard {
  readonly swing: Fraction | undefined;
  /** The remarks' `at` speaks of `plucked` and `strokes`. */
  readonly remarks: readonly PluckRemark[];
  readonly plucked: readonly Struck[];
  readonly strokeRemarks: readonly StrokeRemark[];
  readonly strokes: readonly Struck[];
}

/** A section's score outlives the versions of a lesson, and its tempo is part of it: each is listened to once for each swing. */
const heard = new WeakMap<SectionScore, Heard>();

export function heardIn(played: SectionScore, tempo: Tempo, { swing }: Settings): Heard {
  const known = heard.get(played);
  if (known && isSame(known.swing, swing)) return known;
  const second = secondsOfWhole(tempo);
  const plucks: TimedPluck[] = [];
  const plucked: Struck[] = [];
  const timed: TimedStroke[] = [];
  const strokes: Struck[] = [];
  let start = ZERO;
  for (const bar of played.bars) {
    for (const event of bar.events) {
      if (!event.pluck && !event.stroke) continue;
      const moment = event.triplet ? event.start : swungAt(event.start, swing, bar.length);
      const onset = times(plus(start, moment), second);
      if (event.pluck) {
        plucks.push({ finger: event.pluck, string: event.string, onset });
        plucked.push({ event, bar });
      }
      const last = timed.at(-1);
      // A stroke is as many events as it sounds strings.
      if (!event.stroke || (last && equal(last.onset, onset))) continue;
      timed.push({ kind: event.stroke, onset });
      strokes.push({ event, bar });
    }
    start = plus(start, bar.length);
  }
  const found = { swing, remarks: pluckRemarks(plucks), plucked, strokeRemarks: strokeRemarks(timed), strokes };
  heard.set(played, found);
  return found;
}

const isSame = (one: Fraction | undefined, other: Fraction | undefined): boolean =>
  one === other || (one !== undefined && other !== undefined && equal(one, other));
