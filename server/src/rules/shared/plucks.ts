/** What the plucking hand is asked to do in each section, looked through once, with where it is asked. */
import type { CellDefinition, Tempo } from '../../lesson/lesson.ts';
import type { BarScore, NoteEvent, SectionScore } from '../../realise/score.ts';
import { secondsOfWhole } from '../../realise/timeline.ts';
import {
  pluckRemarks,
  type PluckFinger,
  type PluckRemark,
  type RemarkKind,
  type TimedPluck,
} from '../../hand/plucking.ts';
import { plus, times, ZERO } from '../../util/fraction.ts';
import type { Span } from '../../util/span.ts';
import type { Context } from '../rule.ts';
import type { PlacedChord } from './chords.ts';
import { listed } from './words.ts';

/** A remark at its first place. */
export interface PlacedRemark extends PluckRemark {
  readonly chord: PlacedChord;
  /** The cell that is played there, where it has a definition of its own. */
  readonly cell?: CellDefinition;
  /** The cell's name, or else the chord's place. */
  readonly span: Span;
  /** Whether a melody note is in it. */
  readonly melody: boolean;
}

/**
 * Remarks of these kinds, the same about the same fingers of one cell once: the fastest of them, or the first. At most one for
 * each section, cell, kind and set of fingers.
 */
export function remarksOn(context: Context, kinds: ReadonlySet<RemarkKind>): readonly PlacedRemark[] {
  const found = new Map<string, PlacedRemark>();
  for (const remark of allRemarks(context)) {
    if (!kinds.has(remark.kind)) continue;
    const { kind, fingers, strings, span, rate } = remark;
    const mark = [span.start, kind, fingers.join(''), rate === undefined ? strings.join() : ''].join(' ');
    const other = found.get(mark);
    if (!other || (rate ?? 0) > (other.rate ?? 0)) found.set(mark, remark);
  }
  return [...found.values()];
}

function* allRemarks(context: Context): Iterable<PlacedRemark> {
  const { lesson, score, chords } = context;
  for (const [index, section] of lesson.sections.entries()) {
    const played = score.sections[index];
    if (!played) continue;
    const { remarks, plucked } = heardIn(played, section.plan.tempo);
    for (const remark of remarks) {
      const { event, bar: barPlayed } = plucked[remark.at];
      const chord = chords.filter((each) => each.section === section && each.barPlayed === barPlayed)[event.chord];
      if (!chord) continue;
      const { bar, plan, place } = chord;
      const cellIndex = plan.cell ?? bar.cell;
      const cell = lesson.cells.find((one) => cellIndex !== undefined && one.cell === section.plan.cells[cellIndex]);
      yield { ...remark, chord, cell, span: cell?.span ?? place.span, melody: event.voice === 'melody' };
    }
  }
}

interface Heard {
  readonly remarks: readonly PluckRemark[];
  /** What each remark's `at` speaks of. */
  readonly plucked: readonly { readonly event: NoteEvent; readonly bar: BarScore }[];
}

/** A section's score outlives the versions of a lesson, and its tempo is part of it: each is listened to once. */
const heard = new WeakMap<SectionScore, Heard>();

function heardIn(played: SectionScore, tempo: Tempo): Heard {
  let known = heard.get(played);
  if (known) return known;
  const second = secondsOfWhole(tempo);
  const plucks: TimedPluck[] = [];
  const plucked: { event: NoteEvent; bar: BarScore }[] = [];
  let start = ZERO;
  for (const bar of played.bars) {
    for (const event of bar.events) {
      if (!event.pluck) continue;
      plucks.push({ finger: event.pluck, string: event.string, onset: times(plus(start, event.start), second) });
      plucked.push({ event, bar });
    }
    start = plus(start, bar.length);
  }
  known = { remarks: pluckRemarks(plucks), plucked };
  heard.set(played, known);
  return known;
}

const NAMES: Readonly<Record<PluckFinger, string>> = {
  p: 'thumb',
  i: 'index',
  m: 'middle',
  a: 'ring finger',
  c: 'little finger',
};

/** `The thumb`, `The index and middle`: the beginning of a message. */
export const pluckersNamed = (fingers: readonly PluckFinger[]): string =>
  `The ${listed(fingers.map((finger) => NAMES[finger]))}`;
