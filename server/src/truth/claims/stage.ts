/** The part of a lesson that a claim speaks of: its chords as planned and played, in the order written. */
import type { BarPlan, ChordPlan, Lesson } from '../../lesson/lesson.ts';
import type { BarScore, ChordScore, NoteEvent, Score, Voicing } from '../../realise/score.ts';
import { quoted } from '../words.ts';
import type { ClaimedPlace, Judgement, Undecided, Untrue } from './judgement.ts';

export interface Stage {
  readonly lesson: Lesson;
  readonly score: Score;
  /** Indexes of the sections that are spoken of. */
  readonly sections: readonly number[];
  /** The only bar that is spoken of, by its number; undefined for all. */
  readonly bar?: number;
}

/** The whole lesson, or one of its sections, or one bar of that. */
export const stageOf = (lesson: Lesson, score: Score, section?: number, bar?: number): Stage => ({
  lesson,
  score,
  sections: section === undefined ? lesson.sections.map((_, index) => index) : [section],
  ...(bar !== undefined && { bar }),
});

export interface PlayedBar {
  readonly section: number;
  readonly bar: BarPlan;
  readonly played: BarScore;
}

export interface PlayedChord extends PlayedBar {
  /** Index in its bar. */
  readonly at: number;
  readonly plan: ChordPlan;
  readonly score: ChordScore;
}

export interface ShapedChord extends PlayedChord {
  readonly voicing: Voicing;
}

interface Gathered {
  readonly bars: readonly PlayedBar[];
  shapes?: Shapes;
}

/** A dozen claims look at the same bars: those of each part of a lesson are gathered once for each version of it. */
const gathered = new WeakMap<Score, Map<string, Gathered>>();

function gatheredOn({ lesson, score, sections, bar: only }: Stage): Gathered {
  let known = gathered.get(score);
  if (!known) gathered.set(score, (known = new Map<string, Gathered>()));
  const mark = `${sections.join()} ${only ?? ''}`;
  let found = known.get(mark);
  if (!found) {
    const bars = sections.flatMap((section) =>
      (lesson.sections[section]?.plan.bars ?? []).flatMap((bar, index): readonly PlayedBar[] => {
        const played = score.sections[section]?.bars[index];
        return played && (only === undefined || only === bar.number) ? [{ section, bar, played }] : [];
      }),
    );
    known.set(mark, (found = { bars }));
  }
  return found;
}

/** All bars that are spoken of. */
export const barsOn = (stage: Stage): readonly PlayedBar[] => gatheredOn(stage).bars;

const chordsKnown = new WeakMap<PlayedBar, readonly PlayedChord[]>();

export function chordsOf(one: PlayedBar): readonly PlayedChord[] {
  let known = chordsKnown.get(one);
  if (!known) {
    const { section, bar, played } = one;
    known = bar.chords.flatMap((plan, at): readonly PlayedChord[] => {
      const score = played.chords[at];
      return score ? [{ section, bar, played, at, plan, score }] : [];
    });
    chordsKnown.set(one, known);
  }
  return known;
}

/** The bars that have a chord and a shape: what `throughout` speaks of. */
export interface Shapes {
  readonly shaped: readonly ShapedChord[];
  /** Why some bar cannot be judged, by the first such; undefined where all can. */
  readonly missing?: string;
}

/** Bars that a tab writes out have no shape; neither has a bar without a chord. */
export function shapesOn(stage: Stage): Shapes {
  const found = gatheredOn(stage);
  return (found.shapes ??= shapesIn(stage));
}

function shapesIn(stage: Stage): Shapes {
  const shaped: ShapedChord[] = [];
  let missing: string | undefined;
  for (const bar of barsOn(stage)) {
    if (bar.bar.tab) continue;
    if (bar.bar.broken) missing ??= `${barNamed(stage, bar)} cannot be read`;
    for (const chord of chordsOf(bar)) {
      if (chord.plan.silent) continue;
      const { voicing } = chord.score;
      if (voicing) shaped.push({ ...chord, voicing });
      else missing ??= `${chordNamed(stage, chord)} has no voicing`;
    }
  }
  return { shaped, ...(missing !== undefined && { missing }) };
}

/**
 * The judgement of a claim about all shapes, from those that break it. Where none does it still cannot be said to hold as long as
 * one of the chords has no shape for another reason.
 */
export function judgedBy<One extends PlayedBar>(
  stage: Stage,
  { shaped, missing }: { readonly shaped: readonly One[]; readonly missing?: string },
  breaks: (one: One) => boolean,
  told: (first: One, all: readonly One[]) => Pick<Untrue, 'truth' | 'repair'>,
): Judgement {
  const breaking = shaped.filter(breaks);
  if (breaking.length > 0) return untrue(breaking, told(breaking[0], breaking));
  if (missing !== undefined) return { undecided: missing };
  return shaped.length > 0 ? { holds: true } : nothingPlayed(stage);
}

export function untrue(breaking: readonly PlayedBar[], told: Pick<Untrue, 'truth' | 'repair'>): Untrue {
  const [bar, ...others] = breaking.map(placeOf);
  const seen = new Set([`${bar.section} ${bar.bar}`]);
  return {
    holds: false,
    bar,
    others: others.filter((one) => {
      const mark = `${one.section} ${one.bar}`;
      return !seen.has(mark) && seen.add(mark);
    }),
    ...told,
  };
}

function placeOf(one: PlayedBar): ClaimedPlace {
  const { section, bar } = one;
  const place = { section, bar: bar.number };
  return 'at' in one && bar.chords.length > 1 ? { ...place, chord: (one as PlayedChord).at + 1 } : place;
}

/** A lesson without a section, or with nothing in it that sounds. */
export const nothingPlayed = (stage: Stage): Undecided =>
  stage.lesson.problems.length > 0
    ? { undecided: `no chord ${of(stage)} can be played yet` }
    : { undecided: `no chord is played ${of(stage)}`, nothing: true };

/** `in verse`, `in the lesson`. */
export function of({ lesson, sections }: Stage): string {
  const name = sections.length === 1 ? lesson.sections[sections[0]]?.name : undefined;
  return name === undefined ? 'in the lesson' : `in ${name}`;
}

/** `bar 4`, `bar 4 of verse` where there are other sections. */
export function barNamed({ lesson }: Stage, { section, bar }: PlayedBar): string {
  const name = bar.number === 0 ? 'the pick-up' : `bar ${bar.number}`;
  return lesson.sections.length > 1 ? `${name} of ${lesson.sections[section].name}` : name;
}

/** The same, or `chord 2 of bar 4`. */
export const placeNamed = (stage: Stage, chord: PlayedChord): string =>
  chord.bar.chords.length > 1 ? `chord ${chord.at + 1} of ${barNamed(stage, chord)}` : barNamed(stage, chord);

/** `` `Am` in bar 4 ``. */
export const chordNamed = (stage: Stage, chord: PlayedChord): string =>
  `${quoted(chord.plan.written)} in ${placeNamed(stage, chord)}`;

/** A note that has a pitch. */
export const isPitched = ({ technique }: NoteEvent): boolean => !technique?.dead;
