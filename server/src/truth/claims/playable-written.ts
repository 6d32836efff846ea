/** How the fretting hand fares at another tempo where the notes are written out: there it is judged note by note, and so played anew. */
import { RealiseCache, realiseSection } from '../../realise/realise.ts';
import type { BarScore, SectionScore, WrittenTrouble } from '../../realise/score.ts';
import { barsOn, type PlayedBar, type Stage } from './stage.ts';

export interface WrittenObstacle {
  readonly place: PlayedBar;
  readonly trouble: Extract<WrittenTrouble, { readonly kind: 'not-playable' | 'change' }>;
  /** The fastest tempo at which it would be none, by the time that it lacks; undefined where no tempo helps. */
  readonly fastest?: number;
}

/** Bars that a tab writes out, and melodies over no shape; in the order in which they are played. */
export function writtenObstacles(stage: Stage, section: number, tempo: number): readonly WrittenObstacle[] {
  const places = barsOn({ ...stage, sections: [section] });
  if (!places.some(({ bar }) => bar.tab ?? bar.melody)) return [];
  const bars = barsAt(stage, section, tempo);
  return places.flatMap((place, index) =>
    (bars[index]?.troubles ?? []).flatMap((trouble): readonly WrittenObstacle[] => {
      if (trouble.kind === 'not-playable') return [{ place, trouble }];
      const tightest = trouble.kind === 'change' ? trouble.change.tightest : undefined;
      if (trouble.kind !== 'change' || !tightest || tightest.need <= tightest.available) return [];
      const { need, available } = tightest;
      return available <= 0 ? [{ place, trouble }] : [{ place, trouble, fastest: (tempo * available) / need }];
    }),
  );
}

interface Replayed {
  readonly cache: RealiseCache;
  readonly tempos: Map<number, SectionScore>;
}

/** So many tempos of one section are kept. */
const MOST_TEMPOS = 4;

/** A section's score outlives the versions of a lesson in which it does not change. */
const replayed = new WeakMap<SectionScore, Replayed>();

function barsAt({ lesson, score }: Stage, section: number, tempo: number): readonly BarScore[] {
  const { plan } = lesson.sections[section];
  const own = score.sections[section];
  if (tempo === plan.tempo.perMinute) return own.bars;
  let known = replayed.get(own);
  if (!known) replayed.set(own, (known = { cache: new RealiseCache(), tempos: new Map<number, SectionScore>() }));
  let there = known.tempos.get(tempo);
  if (!there) {
    there = realiseSection({ ...plan, tempo: { ...plan.tempo, perMinute: tempo } }, lesson.settings, known.cache);
    if (known.tempos.size >= MOST_TEMPOS) known.tempos.clear();
    known.tempos.set(tempo, there);
  }
  return there.bars;
}
