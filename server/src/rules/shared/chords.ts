/** The chords of a lesson in one list: planned, played and placed; and how findings about equal ones become one. */
import type { BarPlan, ChordPlace, ChordPlan, Section, ShapeDefinition, ShapeRule } from '../../lesson/lesson.ts';
import type { BarScore, ChordScore, Voicing } from '../../realise/score.ts';
import type { Span } from '../../util/span.ts';
import type { Context, Findable, Found } from '../rule.ts';
import { listed } from './words.ts';

export interface PlacedChord {
  readonly section: Section;
  readonly bar: BarPlan;
  readonly plan: ChordPlan;
  readonly place: ChordPlace;
  readonly played: ChordScore;
  readonly barPlayed: BarScore;
  readonly voicing?: Voicing;
}

/** More chords than a book of lessons has: what lies beyond is played, but not looked through. */
const MOST_CHORDS = 20_000;
/** So many further bars are named one by one. */
const MOST_BARS_NAMED = 6;

export function chordsOf({ lesson, score }: Findable): readonly PlacedChord[] {
  const chords: PlacedChord[] = [];
  lesson.sections.forEach((section, s) => {
    section.plan.bars.forEach((bar, b) => {
      const barPlayed = score.sections[s]?.bars[b];
      if (!barPlayed || chords.length >= MOST_CHORDS) return;
      bar.chords.forEach((plan, c) => {
        const place = section.places[b]?.chords[c];
        const played = barPlayed.chords[c];
        if (place && played) chords.push({ section, bar, plan, place, played, barPlayed, voicing: played.voicing });
      });
    });
  });
  return chords;
}

export interface VoicedChord extends PlacedChord {
  readonly voicing: Voicing;
}

/** A dozen rules look at them; each list of chords is sifted once. */
const withVoicing = new WeakMap<Context['chords'], readonly VoicedChord[]>();

/** Chords that have a voicing. */
export function voiced({ chords }: Context): readonly VoicedChord[] {
  let found = withVoicing.get(chords);
  if (!found) {
    found = chords.filter((chord): chord is VoicedChord => chord.voicing !== undefined);
    withVoicing.set(chords, found);
  }
  return found;
}

/** The rule that chooses a chord's voicing; undefined with a grip or exact frets. */
export const ruleOf = ({ section, plan }: PlacedChord): ShapeRule | undefined =>
  plan.rule === undefined ? undefined : section.plan.rules[plan.rule];

/** Where a rule is written; undefined for a built-in one. */
export const shapeOf = (context: Context, rule: ShapeRule | undefined): ShapeDefinition | undefined =>
  context.lesson.shapes.find((shape) => shape.rule === rule);

/** Whether the chord's own words stand at its place, and not a `%` or a `/` that repeats it. */
export const isWrittenOut = ({ place, plan }: PlacedChord, text: string): boolean =>
  text.slice(place.symbolSpan.start, place.symbolSpan.end) === plan.written;

/** What is said of one chord, before the same has been said of others. */
export interface Saying extends Omit<Found, 'span'> {
  readonly chord: PlacedChord;
  /** Where it stands at this chord, if not at the whole of it. */
  readonly span?: Span;
}

/**
 * The same words about several chords become one finding at the first of them, which names the other bars: a progression
 * that two sections use is complained of once. `finish` may add what needs all the places, such as a fix for each.
 */
export function once(
  sayings: Iterable<Saying>,
  finish: (first: Saying, all: readonly PlacedChord[]) => Partial<Found> = () => ({}),
): readonly Found[] {
  const groups = new Map<string, { readonly first: Saying; readonly all: PlacedChord[] }>();
  for (const saying of sayings) {
    const mark = `${saying.severity} ${saying.message}`;
    const group = groups.get(mark);
    if (group) group.all.push(saying.chord);
    else groups.set(mark, { first: saying, all: [saying.chord] });
  }
  return [...groups.values()].map(({ first, all }) => {
    const { chord, ...found } = first;
    const message = found.message + also(chord, all);
    return { ...found, span: found.span ?? chord.place.span, message, ...finish(first, all) };
  });
}

/** ` (also bars 5 and 8; bar 2 of bridge)`, or nothing; places that have been named are not named again. */
function also(first: PlacedChord, all: readonly PlacedChord[]): string {
  const bySection = new Map<Section, number[]>();
  const placed = new Set([first.place.span.start]);
  let count = 0;
  for (const { section, bar, place } of all) {
    if (placed.has(place.span.start)) continue;
    placed.add(place.span.start);
    const bars = bySection.get(section) ?? [];
    if (bars.includes(bar.number) || (section === first.section && bar.number === first.bar.number)) continue;
    bars.push(bar.number);
    bySection.set(section, bars);
    count++;
  }
  if (count === 0) return '';
  if (count > MOST_BARS_NAMED) return ` (also in ${count} more bars)`;
  const parts = [...bySection].map(
    ([section, bars]) => barsNamed(bars) + (section === first.section ? '' : ` of ${section.name}`),
  );
  return ` (also ${parts.join('; ')})`;
}

/** `bar 5`, `bars 5 and 8`; beyond a few, how many. */
export function barsNamed(bars: readonly number[]): string {
  if (bars.length > MOST_BARS_NAMED) return `${bars.length} bars`;
  return bars.length === 1 ? `bar ${bars[0]}` : `bars ${listed(bars.map(String))}`;
}
