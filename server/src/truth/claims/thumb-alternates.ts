/** `thumb alternates throughout`: the thumb never plucks one string twice running under the same shape, and is never idle. */
import type { FretList } from '../../fretboard/frets.ts';
import { formatFretList } from '../../fretboard/frets.ts';
import { equal, type Fraction } from '../../util/fraction.ts';
import type { Predicate, Said } from './judgement.ts';
import { placeNamed, barsOn, judgedBy, shapesOn, type PlayedBar, type ShapedChord, type Stage } from './stage.ts';

/** Strings that the thumb plucks at one moment: it may brush over two. */
type Moment = readonly number[];

interface ThumbedChord extends ShapedChord {
  readonly moments: readonly Moment[];
  /** The string that is plucked again; undefined where the thumb alternates or is idle. */
  readonly again?: number;
}

export const thumbAlternates: Predicate<Said<'thumb alternates'>> = {
  judge: (_, stage) => {
    const { missing } = shapesOn(stage);
    return judgedBy(stage, { shaped: thumbedChords(stage), missing }, fails, (first) => {
      const where = placeNamed(stage, first);
      const truth =
        first.again === undefined
          ? `the thumb plucks nothing in ${where}`
          : `in ${where} the thumb plucks string ${first.again} twice running`;
      return { truth };
    });
  },
  why: (_, stage) => {
    const strings = thumbedChords(stage).map(({ moments }) => moments.map((moment) => moment.join('+')).join(' '));
    return `Under each chord the thumb goes ${[...new Set(strings)].filter(Boolean).join(', ')}.`;
  },
  truths: (stage) => {
    if (!thumbAlternates.judge({ kind: 'thumb alternates' }, stage).holds) return [];
    const [first] = thumbedChords(stage);
    return [{ text: 'thumb alternates throughout', detail: `on strings ${first.moments.join(' ')} and so on` }];
  },
};

/** A chord that is struck once and held leaves the thumb nothing to alternate. */
const fails = ({ again, moments, plan }: ThumbedChord): boolean =>
  again !== undefined || (moments.length === 0 && !plan.held);

function thumbedChords(stage: Stage): readonly ThumbedChord[] {
  const plucks = momentsByChord(stage);
  const chords: ThumbedChord[] = [];
  for (const chord of shapesOn(stage).shaped) {
    const moments = plucks.get(markOf(chord, chord.at)) ?? [];
    const before = chords.at(-1)?.section === chord.section ? chords.at(-1) : undefined;
    const again = repeatedIn(moments) ?? repeatedFrom(before, chord.voicing.frets, moments);
    chords.push({ ...chord, moments, ...(again !== undefined && !chord.plan.held && { again }) });
  }
  return chords;
}

const repeatedIn = (moments: readonly Moment[]): number | undefined =>
  moments.flatMap((moment, at) => (at === 0 ? [] : (shared(moments[at - 1], moment) ?? [])))[0];

const shared = (one: Moment, other: Moment): number | undefined => one.find((string) => other.includes(string));

/** At a change of shape a string may come again: its new bass may be the old one's other string. */
function repeatedFrom(
  before: ThumbedChord | undefined,
  frets: FretList,
  moments: readonly Moment[],
): number | undefined {
  const last = before?.moments.at(-1);
  if (!before || !last || moments.length === 0 || before.plan.held) return undefined;
  const changes = formatFretList(before.voicing.frets) !== formatFretList(frets);
  if (changes && moments.length > 1 && before.moments.length > 1) return undefined;
  return shared(last, moments[0]);
}

const markOf = ({ section, bar }: PlayedBar, chord: number): string => `${section} ${bar.number} ${chord}`;

function momentsByChord(stage: Stage): ReadonlyMap<string, readonly Moment[]> {
  const found = new Map<string, { readonly start: Fraction; readonly strings: number[] }[]>();
  const bars = barsOn(stage);
  bars.forEach((bar, index) => {
    for (const { pluck, pushed, chord, start, string } of bar.played.events) {
      if (pluck !== 'p') continue;
      const next = bars[index + 1];
      const mark = pushed && next?.section === bar.section ? markOf(next, 0) : markOf(bar, chord);
      const moments = found.get(mark) ?? [];
      const last = moments.at(-1);
      if (last && equal(last.start, start)) last.strings.push(string);
      else moments.push({ start, strings: [string] });
      found.set(mark, moments);
    }
  });
  return new Map([...found].map(([mark, moments]) => [mark, moments.map(({ strings }) => strings)]));
}
