/** The contour over a chord: how it was meant, what became of it and where it is written; and findings about all its chords at once. */
import type { Contour, ContourDefinition } from '../../lesson/lesson.ts';
import type { ContourOutcome } from '../../realise/score.ts';
import type { Severity } from '../../util/finding.ts';
import type { Span } from '../../util/span.ts';
import type { Context, Found } from '../rule.ts';
import { barsNamed, type PlacedChord } from './chords.ts';
import { quoted } from './words.ts';

export interface ContourOver {
  readonly contour: Contour;
  readonly outcome: ContourOutcome;
  readonly definition?: ContourDefinition;
}

/** So many of its chords are shown beside a finding. */
const MOST_CHORDS_SHOWN = 6;

/** Undefined where no contour lies over the chord. */
export function contourOver({ section, bar, played }: PlacedChord, { lesson }: Context): ContourOver | undefined {
  const contour = bar.contour === undefined ? undefined : section.plan.contours[bar.contour];
  if (!contour || !played.contour) return undefined;
  const definition = lesson.contours.find((one) => one.contour === contour);
  return { contour, outcome: played.contour, definition };
}

/** What a rule finds of one chord under a contour. */
export interface Complaint {
  /** Of all its chords the one with most speaks for the others; of equals the first. */
  readonly weight: number;
  readonly over: ContourOver;
  readonly chord: PlacedChord;
  /** The note or the tone of the contour that is the matter, and how. */
  readonly note?: Span;
  readonly noted: string;
}

/** What is said of all of them, from the one that is worst. */
export interface Said {
  readonly message: string;
  readonly severity?: Severity;
}

/**
 * One finding for each contour and each call of it in a section, however many chords it concerns: where the section calls for it,
 * with the chords beside it. `say` gets the worst, all of them, and where: `` Over `D` ``, or `Over bars 2, 5 and 7`.
 */
export function onceForContour<C extends Complaint>(
  context: Context,
  complains: (chord: PlacedChord, over: ContourOver) => C | undefined,
  say: (worst: C, all: readonly C[], where: string) => Said,
): readonly Found[] {
  const groups = new Map<string, C[]>();
  for (const chord of context.chords) {
    const over = contourOver(chord, context);
    const complaint = over && complains(chord, over);
    if (!complaint) continue;
    const use = `${chord.section.span.start} ${chord.bar.contour}`;
    const group = groups.get(use);
    if (group) group.push(complaint);
    else groups.set(use, [complaint]);
  }
  return [...groups.values()].map((all) => {
    const worst = all.reduce((one, other) => (other.weight > one.weight ? other : one));
    const related = worst.note ? [{ span: worst.note, message: worst.noted }] : [];
    const { section, bar, place } = worst.chord;
    const use = section.contourUses[bar.contour ?? -1];
    const chords = distinctPlaces(all).map(({ chord }) => ({
      span: chord.place.span,
      message: `Bar ${chord.bar.number}: over this chord.`,
    }));
    return {
      span: use?.span ?? place.span,
      ...say(worst, all, whereOf(all)),
      related: [...related, ...chords.slice(0, MOST_CHORDS_SHOWN)],
    };
  });
}

/** A place that is played again is one place. */
function distinctPlaces<C extends Complaint>(all: readonly C[]): readonly C[] {
  const places = new Map<number, C>();
  for (const one of all) if (!places.has(one.chord.place.span.start)) places.set(one.chord.place.span.start, one);
  return [...places.values()];
}

function whereOf(all: readonly Complaint[]): string {
  if (all.length === 1) return `Over ${quoted(all[0].chord.plan.written)}`;
  return `Over ${barsNamed([...new Set(all.map(({ chord }) => chord.bar.number))])}`;
}
