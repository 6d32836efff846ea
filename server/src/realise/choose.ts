/** Chooses how each chord of a section is held: shapes, fingers, changes and the melody above, weighed together. */
import type { SectionPlan, Settings } from '../lesson/lesson.ts';
import { MILLION, playerAtLevel } from '../hand/model.ts';
import { moveBetween, paceOf } from '../hand/movement.ts';
import { HANDS } from '../hand/search.ts';
import { formatFraction, minus, toNumber } from '../util/fraction.ts';
import type { RealiseCache } from './cache.ts';
import type { Played } from './events.ts';
import type { Choices, HandState, Source } from './hand-states.ts';
import { neckOf, stoppedOn, type Neck } from './neck.ts';
import type { Onset } from './picking.ts';
import { pressedSpan, type PressedSpan } from './pressed-span.ts';
import type { Change } from './score.ts';
import { easiestSequence, type Step } from './sequence.ts';
import { Singer, type Sung, type SungChord } from './sung.ts';
import { sungChoices, type SungChoices } from './sung-choices.ts';
import { microseconds, type Timeline } from './timeline.ts';

/** A string that the cell plucks and the shape leaves silent, in millionths on the scale of difficulties. Set by judgement. */
const SILENT_PLUCK = 3 * MILLION;

/** A chord as it is held and played. */
export interface Chosen extends Played {
  readonly change?: Change;
}

export interface ToChoose {
  readonly plan: SectionPlan;
  readonly settings: Settings;
  readonly timeline: Timeline;
  /** Parallel to the timeline's chords, as are the sources. */
  readonly onsets: readonly (readonly Onset[])[];
  readonly sources: readonly (Source | undefined)[];
}

/** Parallel to the timeline's chords. Chords without a voicing are passed over: the hand goes from shape to shape. */
export function chooseSequence(what: ToChoose, cache: RealiseCache): readonly (Chosen | undefined)[] {
  return new Chooser(what, cache).choose();
}

/** A chord of the row with its ways of being held. */
interface Link {
  /** Index in the timeline. */
  readonly at: number;
  readonly source: Source;
  readonly choices: Choices | SungChoices;
  readonly sung: SungChord | undefined;
  /** Parallel to the states. */
  readonly spans: readonly PressedSpan[];
}

class Chooser {
  private readonly neck: Neck;
  private readonly patterns: readonly string[];
  private readonly spans = new Map<string, readonly PressedSpan[]>();

  constructor(
    private readonly what: ToChoose,
    private readonly cache: RealiseCache,
  ) {
    this.neck = neckOf(what.settings.instrument, what.settings.hand);
    this.patterns = this.patternsOf();
  }

  choose(): readonly (Chosen | undefined)[] {
    const { sources, settings, timeline } = this.what;
    const row = sources.flatMap((source, at) => (source && source.states.length > 0 ? [this.linkAt(at, source)] : []));
    const steps = row.map((link, place): Step => {
      const start = timeline.chords[link.at].start;
      const next = row[place + 1];
      const gap = next ? toNumber(minus(timeline.chords[next.at].start, start)) : 0;
      return {
        choices: link.choices,
        heads: link.spans.map(({ first }) => this.time(first)),
        tails: link.spans.map(({ last }) => this.time(gap - last)),
        extras: link.spans.map(({ missing }) => missing * SILENT_PLUCK),
      };
    });
    const mover = { player: playerAtLevel(settings.level), hand: settings.hand };
    const states = easiestSequence(steps, mover, this.cache);
    const chosen: (Chosen | undefined)[] = sources.map(() => undefined);
    row.forEach((link, place) => {
      const state = link.choices.states[states[place]];
      const sung = 'sung' in state ? (state.sung as Sung) : undefined;
      const missed =
        sung && sung.held.unreachable > 0 && link.sung ? new Singer(link.sung).missedIn(state, sung) : undefined;
      const before = row[place - 1]?.choices.states[states[place - 1]];
      const time = place === 0 ? 0 : steps[place - 1].tails[states[place - 1]] + steps[place].heads[states[place]];
      chosen[link.at] = {
        voicing: link.source.voicingOf(state),
        ...(sung && { sung }),
        ...(missed && { missed }),
        ...(before && { change: this.changeBetween(before, state, time) }),
      };
    });
    return chosen;
  }

  private time(whole: number): number {
    return microseconds(whole, this.what.plan.tempo);
  }

  private changeBetween(before: HandState, state: HandState, available: number): Change {
    const { hand, level } = this.what.settings;
    const move = moveBetween(before.held, state.held, playerAtLevel(level), HANDS[hand]);
    return { ...move, available, pace: paceOf(move.need, available) };
  }

  private linkAt(at: number, source: Source): Link {
    const sung = this.sungAt(at);
    const choices = (sung && this.sungChoicesOf(sung, source)) ?? source;
    return { at, source, choices, sung, spans: this.spansOf(at, choices) };
  }

  private sungAt(at: number): SungChord | undefined {
    const { plan, settings, timeline, onsets } = this.what;
    const { bar, plan: place } = timeline.chords[at];
    const index = plan.bars[bar].contour;
    const contour = index === undefined ? undefined : plan.contours[index];
    if (!contour || !place.chord) return undefined;
    return {
      plan,
      timeline,
      at,
      chord: place.chord,
      contour,
      onsets: onsets[at],
      neck: this.neck,
      hand: settings.hand,
    };
  }

  /** The same chord under the same melody, picked in the same way, is worked out once. */
  private sungChoicesOf(sung: SungChord, source: Source): SungChoices | undefined {
    const { plan, timeline } = this.what;
    const { meter, key } = plan;
    const { scale } = timeline.chords[sung.at].plan;
    const name = JSON.stringify([source.id, sung.contour, scale, key, meter.beat, this.patterns[sung.at]]);
    return this.cache.sung.get(name, () => ({ choices: sungChoices(sung, source, this.cache) })).choices;
  }

  private spansOf(at: number, choices: Choices | SungChoices): readonly PressedSpan[] {
    const name = `${choices.id} ${this.patterns[at]}`;
    let spans = this.spans.get(name);
    if (!spans) {
      spans = choices.states.map((state) => this.spanOf(at, state));
      this.spans.set(name, spans);
    }
    return spans;
  }

  private spanOf(at: number, state: HandState): PressedSpan {
    const { timeline, onsets } = this.what;
    const sung = 'sung' in state ? (state.sung as Sung) : undefined;
    const strings = stoppedOn(this.neck, state.frets);
    const picked = pressedSpan(onsets[at], timeline.chords[at], strings, sung?.placed.string);
    if (!sung?.pressed) return picked;
    const { first, last } = sung.pressed;
    return { ...picked, first: Math.min(picked.first, first), last: Math.max(picked.last, last) };
  }

  /** What the right hand does over each chord, counted from its start, as a word: equal words are equal plucks. */
  private patternsOf(): readonly string[] {
    const { plan, timeline, onsets } = this.what;
    const cells = new Map<number, string>();
    const cellName = (cell: number): string => {
      if (!cells.has(cell)) cells.set(cell, cell < 0 ? 'struck' : JSON.stringify(plan.cells[cell]));
      return cells.get(cell) ?? '';
    };
    return timeline.chords.map(({ start, end, sounds, plan: place }, at) => {
      const next = timeline.chords[at + 1]?.sounds ?? end;
      const times = [end, sounds, next].map((instant) => formatFraction(minus(instant, start)));
      const bass = place.bassStrings?.join() ?? '';
      const used = new Set(onsets[at].map(({ cell }) => cell));
      const struck = onsets[at].map(
        (onset) => `${formatFraction(minus(onset.start, start))}:${onset.cell}.${onset.index}`,
      );
      return [...times, bass, ...struck, ...[...used].map((cell) => `${cell}=${cellName(cell)}`)].join(' ');
    });
  }
}
