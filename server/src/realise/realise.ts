/** From what the author wrote to what is played: voicings chosen, cells and contours laid over them, every note in time. */
import type { Chord } from '../theory/chord.ts';
import { formatFretList } from '../fretboard/frets.ts';
import type { ChordPlan, SectionPlan, Settings } from '../lesson/lesson.ts';
import type { WrittenNote } from '../lesson/written.ts';
import { compare, plus, toNumber, ZERO, type Fraction } from '../util/fraction.ts';
import { RealiseCache } from './cache.ts';
import { chooseSequence, type Chosen } from './choose.ts';
import { eventsOf } from './events.ts';
import type { Source } from './hand-states.ts';
import { keeper } from './kept-bars.ts';
import { neckOf } from './neck.ts';
import { hasMisfit, onsetsOf } from './picking.ts';
import { planKey } from './plan-key.ts';
import type { BarScore, ChordScore, ContourOutcome, SectionScore } from './score.ts';
import { timelineOf, type ChordPlace, type Timeline } from './timeline.ts';
import { exactVoicing, VoicingSet, voicingsOf } from './voicings.ts';
import { playWritten, type WrittenHere } from './written.ts';

export { RealiseCache } from './cache.ts';

/** The score of one section. Equal plans and settings give equal scores, whatever the cache has seen before. */
export function realiseSection(plan: SectionPlan, settings: Settings, cache: RealiseCache): SectionScore {
  const { instrument, hand, level } = settings;
  const playing = JSON.stringify([instrument, hand, level]);
  let known = cache.plans.get(plan);
  if (!known) cache.plans.set(plan, (known = new Map<string, SectionScore>()));
  let score = known.get(playing);
  if (!score) {
    score = cache.sections.get(playing + planKey(plan), () => realise(plan, settings, cache));
    known.set(playing, score);
  }
  return score;
}

function realise(plan: SectionPlan, settings: Settings, cache: RealiseCache): SectionScore {
  const timeline = timelineOf(plan);
  // A tab gives every note of its bar: no hand picks there, and none holds the shapes of its chords.
  const isWrittenOut = timeline.chords.map(({ bar }) => plan.bars[bar].tab !== undefined);
  const onsets = onsetsOf(plan, timeline).map((own, at) => (isWrittenOut[at] ? [] : own));
  const sources = sourcesOf(timeline, plan, settings, cache).map((own, at) => (isWrittenOut[at] ? undefined : own));
  const chosen = chooseSequence({ plan, settings, timeline, onsets, sources }, cache);
  const neck = neckOf(settings.instrument, settings.hand);
  const written = playWritten(plan, writtenIn(plan, timeline, chosen), timeline, settings, neck, cache);
  const { bars, contours } = eventsOf(plan, timeline, onsets, chosen, written, neck);
  const kept = keeper(plan, settings, cache);
  const chords: ChordScore[][] = plan.bars.map(() => []);
  timeline.chords.forEach((place, at) => {
    chords[place.bar].push(chordScore(place, sources[at], chosen[at], contours[at]));
  });
  return {
    bars: plan.bars.map(({ number, length, broken }, index): BarScore => {
      const cellMisfit = !plan.bars[index].tab && hasMisfit(plan, timeline, index);
      return kept({ number, length, broken, chords: chords[index], ...bars[index], cellMisfit });
    }),
    difficulty: meanDifficulty(timeline, chosen),
  };
}

/** What is played as it is written: tabs, and melodies where no shape is held. */
function writtenIn(
  { bars }: SectionPlan,
  timeline: Timeline,
  chosen: readonly (Chosen | undefined)[],
): readonly WrittenHere[] {
  return bars.flatMap(({ tab, melody }, bar) => {
    const held = timeline.chords.filter((place, at) => place.bar === bar && chosen[at] !== undefined);
    const isElsewhere = ({ start }: WrittenNote): boolean => !tab && held.some((place) => isOver(place, start));
    return [
      ...(tab ? [{ bar, written: tab, voice: 'written' as const }] : []),
      ...(melody ? [{ bar, written: melody, voice: 'melody' as const, isElsewhere }] : []),
    ];
  });
}

/** Whether a time of the bar belongs to the chord; what stands before the first chord belongs to it too. */
const isOver = ({ chord, plan }: ChordPlace, start: Fraction): boolean =>
  (chord === 0 || compare(plan.start, start) <= 0) && compare(start, plus(plan.start, plan.length)) < 0;

/** Parallel to the timeline's chords. A progression has few different chords: each is looked up once. */
function sourcesOf(
  timeline: Timeline,
  plan: SectionPlan,
  settings: Settings,
  cache: RealiseCache,
): readonly (Source | undefined)[] {
  const known = new Map<string, Source | undefined>();
  return timeline.chords.map(({ plan: place }) => {
    const { chord, rule, frets, fingers, lowestFret } = place;
    if (place.silent || !chord) return undefined;
    const name = [
      chord.symbol,
      rule,
      lowestFret,
      frets && formatFretList(frets),
      fingers && formatFretList(fingers),
    ].join();
    if (!known.has(name)) known.set(name, sourceOf(place, chord, plan, settings, cache));
    return known.get(name);
  });
}

/** Where a chord's voicing comes from: its pin or grip, or its rule; undefined where it has neither. */
function sourceOf(
  { frets, fingers, rule, lowestFret }: ChordPlan,
  chord: Chord,
  { key, rules }: SectionPlan,
  settings: Settings,
  cache: RealiseCache,
): Source | undefined {
  if (frets) return exactVoicing(chord, frets, fingers, key, settings, cache);
  if (rule === undefined || !rules[rule]) return undefined;
  return voicingsOf(chord, rules[rule], key, settings, cache, lowestFret === undefined ? {} : { lowestFret });
}

function chordScore(
  { plan }: ChordPlace,
  source: Source | undefined,
  chosen: Chosen | undefined,
  contour: ContourOutcome | undefined,
): ChordScore {
  const { written, chord, silent, start, length, held } = plan;
  const told = {
    written,
    ...(chord && { chord }),
    silent,
    start,
    length,
    held,
    voicing: chosen?.voicing,
    ...(contour && { contour }),
    ...(chosen?.change && { change: chosen.change }),
  };
  if (!(source instanceof VoicingSet)) return told;
  return {
    ...told,
    // Counting fingers every voicing, which most lessons never ask for.
    get choices() {
      return source.choices;
    },
    searchCut: source.searchCut,
    ...(source.none && { none: source.none }),
  };
}

function meanDifficulty(timeline: Timeline, chosen: readonly (Chosen | undefined)[]): number {
  let time = ZERO;
  let sum = 0;
  timeline.chords.forEach((place, at) => {
    const voicing = chosen[at]?.voicing;
    if (!voicing) return;
    time = plus(time, place.plan.length);
    sum += voicing.verdict.effort * toNumber(place.plan.length);
  });
  return time.over === 0 ? 0 : Math.round(sum / toNumber(time) / 100_000) / 10;
}
