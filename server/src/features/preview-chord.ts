/** The chord of a lesson that a reader of the preview looks at, with what is said of it and what it could be. */
import type { Analysis } from '../analyze.ts';
import { escaped } from '../draw/svg.ts';
import { builtInShapes } from '../lesson/built-in-shapes.ts';
import type { BarPlan, ChordPlan, Section, ShapeRule } from '../lesson/lesson.ts';
import { RealiseCache } from '../realise/realise.ts';
import type { BarScore, ChordScore, SectionScore } from '../realise/score.ts';
import { block, type PreviewContent } from './preview-block.ts';
import { symbolOf } from './preview-music.ts';
import type { ChordAddress } from './place.ts';

/** The chord that a panel is about. */
export interface ChordHere {
  readonly address: ChordAddress;
  readonly section: Section;
  readonly bar: BarPlan;
  readonly plan: ChordPlan;
  readonly barScore: BarScore;
  readonly score: ChordScore;
}

/** A block that says one thing in words. */
export const said = (id: string, words: string): PreviewContent =>
  block(`panel/${id}`, `<p class="quiet">${escaped(words)}</p>`);

export function chordHere({ lesson, score }: Analysis, address: ChordAddress): ChordHere | undefined {
  const section = lesson.sections[address.section];
  const bar = section?.plan.bars[address.bar];
  const barScore = score.sections[address.section]?.bars[address.bar];
  const [plan, played] = [bar?.chords[address.chord], barScore?.chords[address.chord]];
  return plan && played && { address, section, bar, plan, barScore, score: played };
}

/** `D in bar 2 of The quay at dusk`. */
export const titleOf = ({ score, bar, section }: ChordHere): string =>
  `${score.silent ? 'N.C.' : symbolOf(score)} in ${bar.number === 0 ? 'the pick-up' : `bar ${bar.number}`} of ${section.title ?? section.name}`;

/** The rule that voicings of a chord follow: its own, or, where its frets are pinned, its neighbours'. */
export function ruleFor({ plan, bar, section }: ChordHere): ShapeRule {
  const { rules, bars } = section.plan;
  const nearest = [plan, ...bar.chords, ...bars.flatMap(({ chords }) => chords)].find(({ rule }) => rule !== undefined);
  return (nearest && rules[nearest.rule!]) ?? builtInShapes[0];
}

/** What was worked out of voicings that nobody plays, by the section that they were asked for: a chord costs some milliseconds. */
const caches = new WeakMap<SectionScore, RealiseCache>();

export function cacheFor({ score }: Analysis, section: number): RealiseCache {
  const key = score.sections[section];
  let cache = caches.get(key);
  if (!cache) caches.set(key, (cache = new RealiseCache()));
  return cache;
}
