/** What stands around the bars of a section: repeat signs, brackets of endings, and the fingers that the author names. */
import type { BarPlan, SectionPlan } from '../lesson/lesson.ts';
import type { NoteEvent } from '../realise/score.ts';
import { formatFraction, type Fraction } from '../util/fraction.ts';

export interface BarFrame {
  /** The times in which it is played, from 1, where the bar belongs to an ending. */
  readonly ending?: readonly number[];
  readonly endingBegins: boolean;
  readonly endingEnds: boolean;
  readonly repeatBegins: boolean;
  readonly repeatEnds: boolean;
  /** How often it is played, where the repeat sign alone does not say it. */
  readonly times?: number;
  /** Notes whose fretting finger the author names, by {@link placeOfNote}. */
  readonly fingers: ReadonlySet<string>;
  /** All of it in a few letters, for looking up what was drawn before. */
  readonly key: string;
}

const NO_FINGERS: ReadonlySet<string> = new Set();

export const PLAIN_FRAME: BarFrame = {
  endingBegins: false,
  endingEnds: false,
  repeatBegins: false,
  repeatEnds: false,
  fingers: NO_FINGERS,
  key: '',
};

/** A sign alone says `twice`; what is played more often is counted. */
const SAID_BY_THE_SIGN = 2;

/** Parallel to the plan's bars. */
export function framesOf({ bars, times }: SectionPlan): readonly BarFrame[] {
  const played = playedTimes(bars, times);
  const first = bars.findIndex((bar) => bar.number > 0 && bar.ending === undefined);
  return bars.map((bar, index): BarFrame => {
    const { ending } = bar;
    const mine = played.get(ending) ?? [];
    const fingers = namedFingers(bar);
    const last = index === bars.length - 1 || bars[index + 1].ending !== ending;
    const repeatEnds = last && mine.some((time) => time < times);
    const plain = times === 1 && ending === undefined;
    if (plain && fingers.size === 0) return PLAIN_FRAME;
    const frame = {
      ...(ending !== undefined && { ending: mine.length > 0 ? mine : [ending] }),
      endingBegins: ending !== undefined && bars[index - 1]?.ending !== ending,
      endingEnds: ending !== undefined && last,
      repeatBegins: times > 1 && index === first,
      repeatEnds,
      ...(repeatEnds && mine.length === times && times > SAID_BY_THE_SIGN && { times }),
      fingers,
    };
    const { endingBegins, endingEnds, repeatBegins } = frame;
    const signs = [endingBegins, endingEnds, repeatBegins, repeatEnds].map(Number).join('');
    return { ...frame, key: `${frame.ending?.join('.')} ${signs} ${frame.times} ${[...fingers].join('/')}` };
  });
}

/** The times that end with each ending; under `undefined` those that end with the section's own last bar. */
function playedTimes(bars: readonly BarPlan[], times: number): ReadonlyMap<number | undefined, readonly number[]> {
  const endings = bars.flatMap(({ ending }) => (ending === undefined ? [] : [ending]));
  const played = new Map<number | undefined, number[]>();
  for (let time = 1; time <= times; time++) {
    // A time without an ending of its own takes the last one before it.
    const earlier = endings.filter((ending) => ending <= time);
    const taken = earlier.length === 0 ? undefined : Math.max(...earlier);
    played.set(taken, [...(played.get(taken) ?? []), time]);
  }
  return played;
}

function namedFingers({ tab }: BarPlan): ReadonlySet<string> {
  const named = (tab?.notes ?? []).filter((note) => note.finger !== undefined && note.fret > 0);
  return named.length === 0 ? NO_FINGERS : new Set(named.map((note) => place(note.start, note.string, note.grace)));
}

const place = (start: Fraction, string: number, grace: boolean): string =>
  `${formatFraction(start)} ${string}${grace ? ' g' : ''}`;

export const placeOfNote = (event: NoteEvent): string =>
  place(event.start, event.string, event.technique?.grace === true);

/** The fretting finger that the author names for a note. */
export const namedFinger = (frame: BarFrame, event: NoteEvent): number | undefined =>
  frame.fingers.size > 0 && frame.fingers.has(placeOfNote(event)) ? event.finger : undefined;

/** `1. 2.`, and `1.–3.` where more than two follow each other. */
export function endingLabel(times: readonly number[]): string {
  const first = times[0];
  const last = times[times.length - 1];
  const run = times.length > 2 && last - first === times.length - 1;
  return run ? `${first}.–${last}.` : times.map((time) => `${time}.`).join(' ');
}
