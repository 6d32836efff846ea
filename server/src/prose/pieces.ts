/** What a reader meets from top to bottom: the prose of a lesson and the music that `show` sets between it. */
import type { Lesson, Section } from '../lesson/lesson.ts';
import type { Prose, Show } from '../lesson/prose.ts';

export interface Music {
  readonly kind: 'music';
  /** Index in the lesson's sections; the section has bars. */
  readonly section: number;
  /** Bars as counted in the section. */
  readonly first: number;
  readonly last: number;
  /** Whether these are all bars of the section. */
  readonly whole: boolean;
  readonly view: Show['view'];
}

export interface Pieces {
  readonly shown: readonly (Prose | Music)[];
  /** Bars whose tab no `show` sets anywhere: a student does not get them, the author still wants to see them. */
  readonly leftOut: readonly Music[];
}

/** A lesson without any `show` shows all its music behind its first `text`, or at its beginning where it has none. */
export function piecesOf(lesson: Lesson): Pieces {
  const { sections, passages } = lesson;
  const all = sections.flatMap((section, index) => musicOf(section, index, undefined) ?? []);
  const shows = passages.filter((passage): passage is Show => passage.kind === 'show');
  if (shows.length === 0) {
    const proses = passages.filter((passage): passage is Prose => passage.kind !== 'show');
    const first = proses.findIndex(({ kind }) => kind === 'text') + 1;
    return { shown: [...proses.slice(0, first), ...all, ...proses.slice(first)], leftOut: [] };
  }
  const shown = passages.flatMap((passage): Prose | Music | readonly never[] => {
    if (passage.kind !== 'show') return passage;
    const { section } = passage;
    return (section === undefined ? undefined : musicOf(sections[section], section, passage)) ?? [];
  });
  const music = shown.filter((piece): piece is Music => piece.kind === 'music');
  return { shown, leftOut: all.flatMap((whole) => leftOutOf(whole, sections[whole.section], music)) };
}

function musicOf({ plan }: Section, section: number, show: Show | undefined): Music | undefined {
  if (plan.bars.length === 0) return undefined;
  const [lowest, highest] = [plan.bars[0].number, plan.bars[plan.bars.length - 1].number];
  const first = show?.first ?? lowest;
  const last = show?.last ?? highest;
  return { kind: 'music', section, first, last, whole: first <= lowest && last >= highest, view: show?.view ?? 'all' };
}

/** Runs of bars that no tab shows; with their shapes where no other view shows these. */
function leftOutOf(whole: Music, { plan }: Section, shown: readonly Music[]): readonly Music[] {
  const own = shown.filter(({ section }) => section === whole.section);
  const isShown = (bar: number, views: readonly Show['view'][]): boolean =>
    own.some(({ first, last, view }) => first <= bar && bar <= last && views.includes(view));
  const runs: Music[] = [];
  let before: number | undefined;
  for (const { number } of plan.bars) {
    if (isShown(number, ['tab', 'all'])) {
      before = undefined;
      continue;
    }
    const view = isShown(number, ['diagrams', 'neck']) ? 'tab' : 'all';
    const open = before === undefined ? undefined : runs.pop();
    if (open && open.view === view) runs.push({ ...open, last: number });
    else {
      if (open) runs.push(open);
      runs.push({ ...whole, first: number, last: number, view });
    }
    before = number;
  }
  return runs.map((run) => ({ ...run, whole: run.first <= whole.first && run.last >= whole.last }));
}
