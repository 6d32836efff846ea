/** Which bars of a timeline the page means by the bars that it shows: a repeat, a section, the place to begin. */
import type { LessonSound } from '../../server/src/protocol.ts';
import type { SoundBar, SoundTimeline } from '../../server/src/sound/timeline.ts';
import type { BarsPlayed } from './player.ts';

/** As it is sent, with the timeline that the sender promises. */
export interface PlayedLesson extends LessonSound {
  readonly timeline: SoundTimeline;
}

/** What is played again and again; bars by their ids on the page. */
export type Repeat =
  | { readonly kind: 'nothing' | 'lesson' }
  | { readonly kind: 'section'; readonly section: string }
  | { readonly kind: 'bar' | 'bars'; readonly from: string; readonly to: string };

/** `verse.2`; undefined where the lesson does not know the section. */
export function idOf({ sections }: PlayedLesson, bar: Pick<SoundBar, 'section' | 'number'>): string | undefined {
  const section = sections[bar.section];
  return section && `${section.id}.${bar.number}`;
}

/** `verse` of `verse.2`. */
export const sectionOf = (bar: string): string => bar.slice(0, bar.lastIndexOf('.'));

/** Indexes in the timeline's bars; undefined where nothing is repeated, or where what is meant is not played. */
export function barsPlayed(lesson: PlayedLesson, repeat: Repeat): BarsPlayed | undefined {
  const { bars } = lesson.timeline;
  if (bars.length === 0) return undefined;
  switch (repeat.kind) {
    case 'nothing':
      return undefined;
    case 'lesson':
      return { first: 0, last: bars.length - 1 };
    case 'section': {
      const isOf = (bar: SoundBar): boolean => lesson.sections[bar.section]?.id === repeat.section;
      const first = bars.findIndex(isOf);
      const after = bars.findIndex((bar, index) => index > first && !isOf(bar));
      return first < 0 ? undefined : { first, last: (after < 0 ? bars.length : after) - 1 };
    }
    default: {
      const ids = bars.map((bar) => idOf(lesson, bar));
      return between(ids, repeat.from, repeat.to) ?? between(ids, repeat.to, repeat.from);
    }
  }
}

/** From the first time that the one is played to the next time that the other is. */
function between(ids: readonly (string | undefined)[], from: string, to: string): BarsPlayed | undefined {
  const first = ids.indexOf(from);
  const last = first < 0 ? -1 : ids.indexOf(to, first);
  return last < 0 ? undefined : { first, last };
}

/** When a bar of the page is played first, in seconds; undefined where it is not. */
export const startOfBar = (lesson: PlayedLesson, id: string): number | undefined =>
  lesson.timeline.bars.find((bar) => idOf(lesson, bar) === id)?.at;

/** When a section is played first, in seconds; undefined where it is not. */
export const startOfSection = (lesson: PlayedLesson, id: string): number | undefined =>
  lesson.timeline.bars.find(({ section }) => lesson.sections[section]?.id === id)?.at;
