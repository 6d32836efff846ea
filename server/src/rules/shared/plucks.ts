/** What the plucking and strumming hand is asked to do in each section, looked through once, with where it is asked. */
import type { CellDefinition, Section } from '../../lesson/lesson.ts';
import type { BarScore } from '../../realise/score.ts';
import type { PluckFinger, PluckRemark, RemarkKind } from '../../hand/plucking.ts';
import type { StrokeRemark } from '../../hand/strumming.ts';
import type { Span } from '../../util/span.ts';
import type { Context } from '../rule.ts';
import type { PlacedChord } from './chords.ts';
import { heardIn, type Heard, type Struck } from './heard.ts';
import { listed } from './words.ts';

/** Where the hand does what is remarked on. */
interface Placed {
  readonly chord: PlacedChord;
  /** The cell that is played there, where it has a definition of its own. */
  readonly cell?: CellDefinition;
  /** The cell's name, or else the place of the tab's bar or the chord. */
  readonly span: Span;
}

/** A remark at its first place. */
export interface PlacedRemark extends PluckRemark, Placed {
  /** Whether a melody note is in it. */
  readonly melody: boolean;
}

export interface PlacedStroke extends StrokeRemark, Placed {}

/**
 * Remarks of these kinds, the same about the same fingers of one cell once: the fastest of them, or the first. At most one for
 * each section, cell, kind and set of fingers.
 */
export function remarksOn(context: Context, kinds: ReadonlySet<RemarkKind>): readonly PlacedRemark[] {
  const found = new Map<string, PlacedRemark>();
  for (const { heard, placeOf } of sectionsOf(context)) {
    for (const remark of heard.remarks) {
      const struck = heard.plucked[remark.at];
      const placed = kinds.has(remark.kind) && placeOf(struck);
      if (!placed) continue;
      const { kind, fingers, strings, rate } = remark;
      const mark = [placed.span.start, kind, fingers.join(''), rate === undefined ? strings.join() : ''].join(' ');
      const other = found.get(mark);
      if (other && (rate ?? 0) <= (other.rate ?? 0)) continue;
      found.set(mark, { ...remark, ...placed, melody: struck.event.voice === 'melody' });
    }
  }
  return [...found.values()];
}

/** Strokes that come too fast: the fastest of each cell, one for each way that the arm goes. */
export function strokesOn(context: Context): readonly PlacedStroke[] {
  const found = new Map<string, PlacedStroke>();
  for (const { heard, placeOf } of sectionsOf(context)) {
    for (const remark of heard.strokeRemarks) {
      const placed = placeOf(heard.strokes[remark.at]);
      if (!placed) continue;
      const mark = `${placed.span.start} ${remark.way}`;
      if (remark.rate > (found.get(mark)?.rate ?? 0)) found.set(mark, { ...remark, ...placed });
    }
  }
  return [...found.values()];
}

interface HeardSection {
  readonly heard: Heard;
  readonly placeOf: (struck: Struck) => Placed | undefined;
}

function* sectionsOf({ lesson, score, chords }: Context): Iterable<HeardSection> {
  for (const [index, section] of lesson.sections.entries()) {
    const played = score.sections[index];
    if (!played) continue;
    let byBar: Map<BarScore, PlacedChord[]> | undefined;
    const placeOf = ({ event, bar: barPlayed }: Struck): Placed | undefined => {
      byBar ??= chordsByBar(chords, section);
      const chord = byBar.get(barPlayed)?.[event.chord];
      if (!chord) return undefined;
      const { bar, plan, place, section: own } = chord;
      // A tab says itself what its bars pluck, whatever cell the section calls for.
      const tab = event.voice === 'written' ? own.places[own.plan.bars.indexOf(bar)]?.tab : undefined;
      if (tab) return { chord, span: tab.span };
      const cellIndex = plan.cell ?? bar.cell;
      const cell = lesson.cells.find((one) => cellIndex !== undefined && one.cell === section.plan.cells[cellIndex]);
      return { chord, cell, span: cell?.span ?? place.span };
    };
    yield { heard: heardIn(played, section.plan.tempo, lesson.settings), placeOf };
  }
}

/** Bars that are played alike may share a score: the first of them has the chords. */
function chordsByBar(chords: Context['chords'], section: Section): Map<BarScore, PlacedChord[]> {
  const byBar = new Map<BarScore, PlacedChord[]>();
  for (const chord of chords) {
    if (chord.section !== section) continue;
    const own = byBar.get(chord.barPlayed);
    if (own) own.push(chord);
    else byBar.set(chord.barPlayed, [chord]);
  }
  return byBar;
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
