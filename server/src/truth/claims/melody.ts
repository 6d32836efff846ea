/** The melody of the bars that are spoken of: what contours became, what was written out, and what a tab has in its place. */
import type { Chord } from '../../theory/chord.ts';
import type { NoteEvent } from '../../realise/score.ts';
import { equal } from '../../util/fraction.ts';
import type { Undecided } from './judgement.ts';
import { barNamed, barsOn, chordsOf, isPitched, of, type PlayedBar, type PlayedChord, type Stage } from './stage.ts';

/** The notes of a bar's melody in their order. In a tab these are its notes, and of several at once the highest. */
export function melodyIn({ played }: Pick<PlayedBar, 'played'>): readonly NoteEvent[] {
  const sung = played.events.filter((event) => event.voice === 'melody' && isPitched(event));
  if (sung.length > 0) return sung;
  const written = played.events.filter((event) => event.voice === 'written' && isPitched(event));
  const highest: NoteEvent[] = [];
  for (const event of written) {
    const last = highest.at(-1);
    if (!last || !equal(last.start, event.start) || isGrace(last) || isGrace(event)) highest.push(event);
    else if (event.midi > last.midi) highest[highest.length - 1] = event;
  }
  return highest;
}

const isGrace = ({ technique }: NoteEvent): boolean => technique?.grace ?? false;

/** Where a melody begins: a contour anew over each chord, a melody that is written out in each of its bars. */
export interface MelodyStart extends PlayedChord {
  readonly chord: Chord;
  readonly note: NoteEvent;
}

export interface MelodyStarts {
  readonly starts: readonly MelodyStart[];
  /** Why some start is not there; undefined where none is missing. */
  readonly missing?: string;
}

export function melodyStarts(stage: Stage): MelodyStarts {
  const starts: MelodyStart[] = [];
  let missing: string | undefined;
  const bars = barsOn(stage);
  bars.forEach((bar, index) => {
    const chords = chordsOf(bar);
    const add = (place: PlayedChord | undefined, note: NoteEvent): void => {
      if (place?.plan.chord) starts.push({ ...place, chord: place.plan.chord, note });
    };
    const isSteps = bar.bar.contour !== undefined && !bar.bar.melody && !bar.bar.tab;
    if (!isSteps) {
      const [first] = melodyIn(bar);
      if (first) add(chords[first.chord], first);
      return;
    }
    for (const chord of chords) {
      if (chord.plan.silent) continue;
      const { contour, voicing } = chord.score;
      const note = firstOver(chord, bars[index - 1]);
      if (note) add(chord, note);
      else if (!voicing || !contour || contour.start < 0 || contour.unreachable !== undefined)
        missing ??= `the melody of ${barNamed(stage, bar)} cannot be worked out`;
    }
  });
  return { starts, ...(missing !== undefined && { missing }) };
}

/** The first melody note over a chord; that of a pushed one may lie in the bar before. */
function firstOver({ section, played, at }: PlayedChord, before: PlayedBar | undefined): NoteEvent | undefined {
  const isMelody = (event: NoteEvent): boolean => event.voice === 'melody' && isPitched(event);
  const early = at === 0 && before?.section === section ? before.played.events : [];
  return (
    early.find((event) => isMelody(event) && event.pushed) ??
    played.events.find((event) => isMelody(event) && event.chord === at && !event.pushed)
  );
}

/** There is no melody at all. */
export function noMelody(stage: Stage): Undecided {
  const { lesson, sections } = stage;
  const broken = sections.some((index) => {
    const { whole } = lesson.sections[index];
    return lesson.problems.some(({ span }) => span.start >= whole.start && span.end <= whole.end);
  });
  if (broken || sections.length === 0) return { undecided: `the melody ${of(stage)} cannot be worked out yet` };
  return { undecided: `there is no melody ${of(stage)}`, nothing: true };
}
