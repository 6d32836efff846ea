/** Chooses how each chord of a section is held: shapes, fingers, changes and the melody above, weighed together. */
import { indexOfString, type FretList } from '../fretboard/frets.ts';
import type { SectionPlan, Settings } from '../lesson/lesson.ts';
import type { NoteName } from '../theory/note.ts';
import { changeBetween, type TimedShape } from '../hand/change.ts';
import { FINGERS, MILLION, playerAtLevel } from '../hand/model.ts';
import { HANDS } from '../hand/search.ts';
import { formatFraction, minus, toNumber } from '../util/fraction.ts';
import { aimsOf } from './aims.ts';
import type { RealiseCache } from './cache.ts';
import { count } from './demands.ts';
import type { Played } from './events.ts';
import type { Choices, HandState, Source } from './hand-states.ts';
import { neckOf, stoppedOn, type Neck } from './neck.ts';
import { heldThrough, type Onset } from './picking.ts';
import type { Change, MissedNote } from './score.ts';
import { easiestSequence, type Step } from './sequence.ts';
import { Singer, type Sung, type SungChord } from './sung.ts';
import { sungChoices, type SungChoices, type SungState } from './sung-choices.ts';
import { microseconds, type ChordPlace, type Timeline } from './timeline.ts';
import { lineOver } from './written-line.ts';
import type { MelodyNote } from './melody-notes.ts';

/** A string that the cell plucks and the shape leaves silent, in millionths on the scale of difficulties. Set by judgement. */
const SILENT_PLUCK = 3 * MILLION;

/** Fingers by their numbers; 0 is none. */
const HAND: readonly number[] = Array.from({ length: FINGERS + 1 }, (_, finger) => finger);

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
  readonly step: Step;
}

/** What the right hand asks of one way of holding a chord. */
export interface Asked extends TimedShape {
  /** How many strings are plucked that it leaves silent. */
  readonly missing: number;
}

/** A string that is struck while a finger may press it; the time in whole millionths of a second from where the chord starts. */
interface Bound {
  readonly string: number;
  readonly time: number;
  /** Whether the finger must still lie there when the string has been struck. */
  readonly isHeld: boolean;
}

interface Struck {
  readonly bound: readonly Bound[];
  /** Strings that are struck and that the shape leaves silent, as bits `1 << string`. */
  readonly silent: number;
}

const sungIn = (state: HandState | SungState): Sung | undefined => ('sung' in state ? state.sung : undefined);

class Chooser {
  private readonly neck: Neck;
  private readonly patterns: readonly number[];
  private readonly contours: readonly number[];
  private readonly tempo: number;
  private readonly scales = new Map<readonly NoteName[], number>();

  constructor(
    private readonly what: ToChoose,
    private readonly cache: RealiseCache,
  ) {
    this.neck = neckOf(what.settings.instrument, what.settings.hand);
    const { key, meter, contours, tempo } = what.plan;
    this.patterns = this.patternsOf();
    this.contours = contours.map((contour) => cache.numberOf(JSON.stringify([contour, key, meter.beat])));
    this.tempo = cache.numberOf(JSON.stringify(tempo));
  }

  choose(): readonly (Chosen | undefined)[] {
    const { sources, settings } = this.what;
    const row: Link[] = [];
    sources.forEach((source, at) => {
      if (source?.isPlayable) row.push(this.linkAt(at, source, row.at(-1)));
    });
    const player = playerAtLevel(settings.level);
    const steps = row.map(({ step }) => step);
    const states = easiestSequence(steps, { player, hand: settings.hand }, this.cache);
    const chosen: (Chosen | undefined)[] = sources.map(() => undefined);
    row.forEach(({ at, source, choices, sung: chord, step }, place) => {
      const state = choices.states[states[place]];
      const sung = sungIn(state);
      const missed = sung && chord && this.missedIn(chord, state, sung);
      const before = steps[place - 1]?.timed[states[place - 1]];
      const held = step.timed[states[place]];
      chosen[at] = {
        voicing: source.voicingOf(state),
        ...(sung && { sung }),
        ...(missed && { missed }),
        ...(before && { change: changeBetween(before, held, step.gap, player, HANDS[settings.hand]) }),
      };
    });
    return chosen;
  }

  private time(whole: number): number {
    return microseconds(whole, this.what.plan.tempo);
  }

  private linkAt(at: number, source: Source, before: Link | undefined): Link {
    const { timeline } = this.what;
    const sung = this.sungAt(at);
    const choices = (sung && this.sungChoicesOf(sung, source)) ?? source;
    const name = `${choices.id}@${this.tempo}@${this.patterns[at]}`;
    const asked = this.askedOf(at, choices, name);
    const gap = before ? this.time(toNumber(minus(timeline.chords[at].start, timeline.chords[before.at].start))) : 0;
    const extras = asked.map(({ missing }) => missing * SILENT_PLUCK);
    return { at, source, choices, sung, step: { choices, timed: asked, name, gap, extras } };
  }

  private sungAt(at: number): SungChord | undefined {
    const { plan, timeline, onsets } = this.what;
    const { bar, plan: place } = timeline.chords[at];
    const index = plan.bars[bar].contour;
    const contour = index === undefined ? undefined : plan.contours[index];
    // A melody that is written out goes before one that is told as movement.
    const line = lineOver(plan, timeline, at, this.neck);
    if ((!contour && line.length === 0) || !place.chord) return undefined;
    return {
      plan,
      timeline,
      at,
      chord: place.chord,
      ...(line.length > 0 ? { line } : { contour }),
      onsets: onsets[at],
      neck: this.neck,
    };
  }

  /** The same chord under the same melody, picked in the same way, is worked out once. */
  private sungChoicesOf(sung: SungChord, source: Source): SungChoices | undefined {
    const { plan, timeline } = this.what;
    const { bar, plan: place } = timeline.chords[sung.at];
    const melody = sung.line ? this.lineNumber(sung.line, sung.at) : this.contours[plan.bars[bar].contour ?? -1];
    const name = `${source.id} ${melody} ${this.scaleNumber(place.scale)} ${this.patterns[sung.at]}`;
    return this.cache.sung.get(name, () => ({ choices: sungChoices(sung, source, this.cache) })).choices;
  }

  private lineNumber(line: readonly MelodyNote[], at: number): string {
    const { start } = this.what.timeline.chords[at];
    const notes = line.map((note) => [
      note.string,
      note.fret,
      minus(note.start, start),
      minus(note.end, start),
      note.index,
    ]);
    return `line ${this.cache.numberOf(JSON.stringify([notes, this.what.plan.meter.beat]))}`;
  }

  private scaleNumber(scale: readonly NoteName[]): number {
    let number = this.scales.get(scale);
    if (number === undefined) this.scales.set(scale, (number = this.cache.numberOf(JSON.stringify(scale))));
    return number;
  }

  /** A way of holding that is kept keeps what its melody lacks. */
  private missedIn(chord: SungChord, state: HandState, sung: Sung): MissedNote | undefined {
    if (sung.sum.unreachable === 0) return undefined;
    const { missed } = this.cache;
    if (!missed.has(sung)) missed.set(sung, new Singer(chord).missedIn(state, sung));
    return missed.get(sung);
  }

  private askedOf(at: number, choices: Choices | SungChoices, name: string): readonly Asked[] {
    return this.cache.asked.get(name, () => {
      const struck = new Map<FretList, Struck>();
      return choices.states.map((state) => {
        let over = struck.get(state.frets);
        if (!over) struck.set(state.frets, (over = this.struckOver(at, state.frets)));
        return this.askedOfState(at, state, over);
      });
    });
  }

  /** What the right hand strikes over a shape, whatever fingers hold it. */
  private struckOver(at: number, frets: FretList): Struck {
    const { timeline, onsets } = this.what;
    const { start, plan } = timeline.chords[at];
    const strings = stoppedOn(this.neck, frets);
    const sounding = strings.reduce((all, { string }) => all | (1 << string), 0);
    const bound: Bound[] = [];
    let silent = 0;
    const held = heldThrough(onsets[at]);
    onsets[at].forEach((onset, place) => {
      const time = this.time(toNumber(minus(onset.start, start)));
      for (const { string, stroke } of aimsOf(onset, strings, plan.bassStrings)) {
        if (string === undefined) continue;
        if (!(sounding & (1 << string))) silent |= 1 << string;
        else if (stroke !== 'mute') bound.push({ string, time, isHeld: place < held });
      }
    });
    for (const string of this.wouldPluck(at)) if (!(sounding & (1 << string))) silent |= 1 << string;
    return { bound, silent };
  }

  /** A chord that is struck and held rings on the strings that the cell around it would have plucked. */
  private wouldPluck(at: number): readonly number[] {
    const { plan, timeline } = this.what;
    const place = timeline.chords[at];
    const cell = plan.cells[this.heldCell(place) ?? -1];
    if (!cell) return [];
    const targets = cell.notes.flatMap((note) => note.plucks.map(({ target }) => target));
    return targets.filter((target) => typeof target === 'number');
  }

  /** The cell that a held chord stands in the way of. */
  private heldCell({ plan: chord, bar }: ChordPlace): number | undefined {
    return chord.held && !chord.silent ? (chord.cell ?? this.what.plan.bars[bar].cell) : undefined;
  }

  private askedOfState(at: number, state: HandState, { bound, silent }: Struck): Asked {
    const { start, end, sounds } = this.what.timeline.chords[at];
    const sung = sungIn(state);
    const fingers = state.fingering?.fingers ?? [];
    const atEnd = this.time(toNumber(minus(end, start)));
    const atStart = this.time(toNumber(minus(sounds, start)));
    const first = HAND.map(() => atEnd);
    const last = HAND.map(() => atStart);
    const bind = (finger: number | null | undefined, time: number, isHeld: boolean): void => {
      if (!finger) return;
      first[finger] = Math.min(first[finger], time);
      if (isHeld) last[finger] = Math.max(last[finger], time);
    };
    const ofMelody = sung?.strings ?? 0;
    for (const { string, time, isHeld } of bound) {
      if (!(ofMelody & (1 << string))) bind(fingers[indexOfString(string, fingers.length)], time, isHeld);
    }
    sung?.starts.forEach((whole, note) => bind(sung.fingerFor(note), this.time(whole), true));
    const missing = count(silent & ~ofMelody);
    return { held: state.held, times: { first, last }, missing };
  }

  /** What the right hand does over each chord, counted from its start: equal numbers are equal plucks. */
  private patternsOf(): readonly number[] {
    const { plan, timeline, onsets } = this.what;
    const cells = plan.cells.map((cell) => this.cache.numberOf(JSON.stringify(cell)));
    return timeline.chords.map((chord, at) => {
      const { start, end, sounds, plan: place } = chord;
      const next = timeline.chords[at + 1]?.sounds ?? end;
      const times = [end, sounds, next].map((instant) => formatFraction(minus(instant, start)));
      const bass = place.bassStrings?.join() ?? '';
      const struck = onsets[at].map(
        (onset) => `${formatFraction(minus(onset.start, start))}:${cells[onset.cell] ?? 'struck'}.${onset.index}`,
      );
      const held = cells[this.heldCell(chord) ?? -1] ?? '';
      return this.cache.numberOf([...times, bass, held, heldThrough(onsets[at]), ...struck].join(' '));
    });
  }
}
