/** What a page needs of a lesson to play it: its timeline, the tempo of each section, and the steps of its practice. */
import { soundingOf } from './sounding.ts';
import type { SoundTimeline } from '../sound/timeline.ts';
import type { WorkedOut } from './worked-out.ts';

export interface PlayedSection {
  /** What the page calls it. */
  readonly id: string;
  /** In the beats of its meter. */
  readonly perMinute: number;
}

export interface PlayedStep {
  readonly title: string;
  /** Beats a minute, in the order played. */
  readonly tempi: readonly number[];
  /** What the tempi are to be compared with. */
  readonly perMinute: number;
  readonly minutes?: number;
  /** Index in the sections; absent for the whole lesson. */
  readonly section?: number;
  /** Bars as they are counted in the section; both or neither. */
  readonly first?: number;
  readonly last?: number;
}

export interface PlayableLesson {
  readonly timeline: SoundTimeline;
  readonly perMinute: number;
  /** Parallel to the lesson's. */
  readonly sections: readonly PlayedSection[];
  readonly practice: readonly PlayedStep[];
}

/** By the version of the lesson: worked out when somebody wants to hear it, and no more than once. */
const known = new WeakMap<object, PlayableLesson>();

/** `ids`: what the page calls the sections, in their order. */
export function playableOf(worked: Pick<WorkedOut, 'lesson' | 'score'>, ids: readonly string[]): PlayableLesson {
  let playable = known.get(worked.lesson);
  if (!playable) known.set(worked.lesson, (playable = workOut(worked, ids)));
  return playable;
}

function workOut({ lesson, score }: Pick<WorkedOut, 'lesson' | 'score'>, ids: readonly string[]): PlayableLesson {
  const { open, seconds, notes, beats, bars } = soundingOf({ lesson, score }, {});
  const tempoOf = (section: number | undefined): number =>
    ((section === undefined ? undefined : lesson.sections[section]?.plan.tempo) ?? lesson.settings.tempo).perMinute;
  return {
    timeline: { open, seconds, notes, beats, bars },
    perMinute: tempoOf(undefined),
    sections: lesson.sections.map(({ name }, index) => ({ id: ids[index] ?? name, perMinute: tempoOf(index) })),
    practice: lesson.practice.map(({ title, tempi, minutes, section, first, last }) => ({
      title,
      tempi,
      perMinute: tempoOf(section),
      ...(minutes !== undefined && { minutes }),
      ...(section !== undefined && { section }),
      ...(first !== undefined && { first }),
      ...(last !== undefined && { last }),
    })),
  };
}
