/** What stands between the author's words without being of the text: what a chord sounds, and the frets that a contour became. */
import type { Analysis } from '../analyze.ts';
import { chordLabel } from '../draw/chord-labels.ts';
import { formatFretList } from '../fretboard/frets.ts';
import type { ContourDefinition, Section } from '../lesson/lesson.ts';
import type { BarScore, ChordScore } from '../realise/score.ts';
import { leaf, linesOf, type Line } from '../syntax/tree.ts';
import { formatDegree, intervalWord } from '../theory/interval.ts';
import { formatPitch } from '../theory/note.ts';
import { looksLikeNumeral } from '../theory/numeral.ts';
import { listed } from '../rules/shared/words.ts';
import type { Span } from '../util/span.ts';
import { code, line, strong, table, type Block } from './page.ts';
import { statementAt } from './place.ts';

export interface InlayHint {
  /** The offset behind which it stands. */
  readonly at: number;
  readonly kind: 'sounding' | 'frets';
  /** One line, never empty: `Dadd11/F# · 11`, `10 8 10 | 5 3 5`. */
  readonly label: string;
}

/** Which kinds are wanted. */
export interface WantedHints {
  readonly soundingNames: boolean;
  readonly contourFrets: boolean;
}

/** A progression that two sections play may sound otherwise in each: so many are told apart. */
const MOST_NAMES = 2;
/** So many chords of a contour are shown behind its call; the rest is in the tab. */
const MOST_CHORDS = 4;
const MOST_ROWS = 12;

/** Those that stand inside `span`, in the order of the text. */
export function inlayHintsIn(analysis: Analysis, span: Span, wanted: WantedHints): readonly InlayHint[] {
  const names = wanted.soundingNames ? soundingHints(analysis, span) : [];
  const frets = wanted.contourFrets ? contourHints(analysis, span) : [];
  return [...names, ...frets].sort((a, b) => a.at - b.at);
}

/** What a hint has to say beyond its label; none where there is no such hint any more. */
export function inlayHintPage(analysis: Analysis, { at, kind }: Pick<InlayHint, 'at' | 'kind'>): readonly Block[] {
  const span = { start: at, end: at };
  return kind === 'sounding'
    ? chordsIn(analysis, span).flatMap(({ all }) => distinct(all).flatMap(soundingBlocks))
    : callsIn(analysis, span).flatMap(contourBlocks);
}

const isInside = (offset: number, span: Span): boolean => span.start <= offset && offset <= span.end;

// ---- chords ---------------------------------------------------------------------------------------------------------

interface PlayedChord {
  readonly section: Section;
  /** As counted in the section. */
  readonly bar: number;
  readonly score: ChordScore;
}

/** A chord where its own words stand, and each time that it is played. */
interface WrittenChord {
  readonly at: number;
  readonly all: PlayedChord[];
}

/** The chords of the lesson's own progressions that end inside `span`: those of other files have their hints there. */
function chordsIn({ text, lesson, score }: Analysis, span: Span): readonly WrittenChord[] {
  const chords = new Map<number, WrittenChord>();
  for (const { from, whole, bars } of lesson.progressions) {
    if (from || whole.end < span.start || span.end < whole.start) continue;
    for (const { span: place } of bars.flatMap((bar) => bar.chords))
      if (isInside(place.end, span)) chords.set(place.start, { at: place.end, all: [] });
  }
  lesson.sections.forEach((section, s) => {
    section.places.forEach((bar, b) => {
      bar.chords.forEach((place, c) => {
        const played = score.sections[s]?.bars[b]?.chords[c];
        // What only repeats a chord, such as `%`, is not told again.
        const isWritten = played && text.slice(place.symbolSpan.start, place.symbolSpan.end) === played.written;
        if (isWritten)
          chords.get(place.span.start)?.all.push({ section, bar: section.plan.bars[b].number, score: played });
      });
    });
  });
  return [...chords.values()];
}

function soundingHints(analysis: Analysis, span: Span): readonly InlayHint[] {
  return chordsIn(analysis, span).flatMap(({ at, all }): readonly InlayHint[] => {
    const shown = distinct(all);
    if (!shown.some(({ score }) => soundingLabel(score) !== undefined)) return [];
    const names = shown.slice(0, MOST_NAMES).map(({ score }) => soundingLabel(score) ?? chordLabel(score).symbol);
    return [{ at, kind: 'sounding', label: names.join('; ') + (shown.length > MOST_NAMES ? '; …' : '') }];
  });
}

/** Each voicing once, in the order played. */
function distinct(all: readonly PlayedChord[]): readonly PlayedChord[] {
  const byFrets = new Map<string, PlayedChord>();
  for (const one of all) {
    const name = one.score.voicing?.sounding[0];
    if (name !== undefined && !byFrets.has(name)) byFrets.set(name, one);
  }
  return [...byFrets.values()];
}

/** `Cmaj9 · maj7 9`; the chord that a numeral is; undefined where the symbol says it all. */
function soundingLabel(score: ChordScore): string | undefined {
  const { symbol, sounding, colours } = chordLabel(score);
  if (sounding === undefined) return looksLikeNumeral(score.written) && score.voicing ? symbol : undefined;
  // A seventh by itself is taken for the minor one.
  const added = colours.map((colour) => (colour === '7' ? 'maj7' : colour)).join(' ');
  return added === '' ? sounding : `${sounding} · ${added}`;
}

function soundingBlocks({ section, bar, score }: PlayedChord): readonly Block[] {
  const { voicing } = score;
  if (!voicing) return [];
  const rows = voicing.strings.map(({ string, fret, pitch, degree }) => [
    `${string}`,
    `${fret}`,
    formatPitch(pitch),
    intervalWord(degree),
  ]);
  const added = voicing.colours.map(intervalWord);
  return [
    line(
      strong(score.written),
      ' sounds ',
      strong(voicing.sounding[0] ?? score.written),
      `, bar ${bar} of ${section.name}: `,
      code(formatFretList(voicing.frets)),
      added.length > 0 ? `, with the ${listed(added)} added.` : '.',
    ),
    table(['string', 'fret', 'note', 'interval'], rows),
  ];
}

// ---- contours -------------------------------------------------------------------------------------------------------

interface ContourChord {
  readonly score: ChordScore;
  readonly bar: BarScore;
  /** Index of the chord in its bar. */
  readonly index: number;
}

/** A line by which a section calls for a contour, and the chords over which it is played. */
interface ContourCall {
  readonly at: number;
  readonly chords: readonly ContourChord[];
}

/** The calls that end inside `span`. */
function callsIn(analysis: Analysis, span: Span): readonly ContourCall[] {
  const { lesson, score } = analysis;
  return lesson.sections.flatMap((section, s): readonly ContourCall[] => {
    if (section.whole.end < span.start || span.end < section.whole.start) return [];
    const statement = statementAt(analysis, section.span.start);
    if (!statement) return [];
    const { tree, start } = statement;
    const lines = linesOf(tree, 'contour');
    return lines
      .filter((one) => isInside(start + one.end, span))
      .map((one) => {
        const isFor = barsOf(one, lines);
        const contour = contourOf(analysis, one, start);
        const chords = section.plan.bars.flatMap((bar, b): readonly ContourChord[] => {
          const played = score.sections[s]?.bars[b];
          const isCalled = bar.contour !== undefined && section.plan.contours[bar.contour] === contour;
          if (!played || !isCalled || !isFor(bar.number)) return [];
          return played.chords.flatMap((chord, index) => (chord.contour ? [{ score: chord, bar: played, index }] : []));
        });
        return { at: start + one.end, chords };
      });
  });
}

/** The bars that a call is for: those that it names, or those that no other call does. */
function barsOf(call: Line, calls: readonly Line[]): (bar: number) => boolean {
  const range = (one: Line): readonly [number, number] | undefined => {
    const first = leaf(one, 'first') ?? leaf(one, 'at-bar');
    return first && [Number(first.text), Number((leaf(one, 'last') ?? first).text)];
  };
  const inside = (bar: number, bars: readonly [number, number] | undefined): boolean =>
    bars !== undefined && bars[0] <= bar && bar <= bars[1];
  const own = range(call);
  const others = calls.map(range);
  return (bar) => (own ? inside(bar, own) : !others.some((one) => inside(bar, one)));
}

function contourOf({ lesson }: Analysis, call: Line, start: number): ContourDefinition['contour'] | undefined {
  const name = leaf(call, 'name');
  const use = name && lesson.uses.find(({ kind, span }) => kind === 'contour' && span.start === start + name.start);
  return (use?.definition as ContourDefinition | undefined)?.contour;
}

function contourHints(analysis: Analysis, span: Span): readonly InlayHint[] {
  return callsIn(analysis, span).flatMap(({ at, chords }): readonly InlayHint[] => {
    if (chords.length === 0) return [];
    const label = chords.slice(0, MOST_CHORDS).map(fretsOf).join(' | ');
    return [{ at, kind: 'frets', label: label + (chords.length > MOST_CHORDS ? ' | …' : '') }];
  });
}

/** A dash where the hand can have none of its notes over the chord: a finding says why. */
const fretsOf = ({ score: { contour } }: ContourChord): string =>
  contour && contour.start >= 0 && contour.frets.length > 0 ? contour.frets.join(' ') : '–';

function contourBlocks({ chords }: ContourCall): readonly Block[] {
  const rows = chords.map((chord) => {
    const { bar, score, index } = chord;
    const sung = bar.events.filter((event) => event.voice === 'melody' && event.chord === index);
    const intervals = sung.map(({ degree }) => (degree ? formatDegree(degree, 'R') : '?'));
    return [`${bar.number}`, score.written, `${score.contour?.string ?? ''}`, fretsOf(chord), intervals.join(' ')];
  });
  const shown = table(['bar', 'over', 'string', 'frets', 'intervals'], rows.slice(0, MOST_ROWS));
  return rows.length > MOST_ROWS ? [shown, line(`And ${rows.length - MOST_ROWS} more.`)] : [shown];
}
