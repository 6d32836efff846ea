/** The notes of tabs, and of melodies that lie over no shape: as they are written, with the fingers of both hands. */
import { degreeOver } from '../theory/chord.ts';
import { midi, type Pitch } from '../theory/note.ts';
import type { BarPlan, ChordPlan, SectionPlan, Settings } from '../lesson/lesson.ts';
import type { Technique, WrittenBar, WrittenNote } from '../lesson/written.ts';
import { compare, equal, plus, times, toNumber, ZERO, type Fraction } from '../util/fraction.ts';
import type { RealiseCache } from './cache.ts';
import type { Neck } from './neck.ts';
import type { Draft, PlacedEvent } from './ringing.ts';
import type { Change, NoteEvent, WrittenTrouble } from './score.ts';
import { shiftOf, sounded } from './sounding.ts';
import { microseconds, secondsOfWhole, type Timeline } from './timeline.ts';
import { handsFor, type HeldMoment, type Moment, type Pressed } from './written-hand.ts';
import { choosePluckFingers } from '../hand/plucking-choice.ts';
import { endOf, stopAfter, writtenPitch, type WrittenBars } from './written-line.ts';

/** What is written out in one bar. */
export interface WrittenHere {
  readonly bar: number;
  readonly written: WrittenBar;
  readonly voice: 'written' | 'melody';
  /** Notes that are played over a shape, and not here. */
  readonly isElsewhere?: (note: WrittenNote) => boolean;
}

export interface WrittenPlayed {
  readonly placed: readonly PlacedEvent[];
  /** By bar. */
  readonly troubles: readonly (readonly WrittenTrouble[])[];
}

/** A note on the section's line of time. */
interface Sounded {
  readonly here: WrittenHere;
  readonly index: number;
  readonly note: WrittenNote;
  readonly at: Fraction;
  /** As notated, ties counted. */
  readonly end: Fraction;
  readonly stop: Fraction | undefined;
}

export function playWritten(
  plan: SectionPlan,
  bars: readonly WrittenHere[],
  timeline: Timeline,
  settings: Settings,
  neck: Neck,
  cache: RealiseCache,
): WrittenPlayed {
  const notes = soundedNotes(bars, timeline);
  const moments = momentsOf(notes, plan);
  const hands = handsFor(
    moments.map(({ moment }) => moment),
    settings,
    cache,
  );
  const placeOf = new Map(moments.flatMap(({ begin }, index) => begin.map((sounding) => [sounding, index] as const)));
  const plucks = pluckFingers(notes, plan);
  const shift = shiftOf(plan.key, neck.shift);
  const placed = notes.map((sounding, index): PlacedEvent => {
    const { here, note, at } = sounding;
    const { bar } = here;
    const chord = chordIndexAt(plan.bars[bar], note.start);
    const chordPlan: ChordPlan | undefined = plan.bars[bar].chords[chord];
    const shapePitch = writtenPitch(note, plan, chordPlan, neck);
    const held = hands[placeOf.get(sounding) ?? -1];
    const event: Draft = {
      string: note.string,
      fret: note.fret,
      midi: midi(shapePitch) + neck.shift,
      pitch: sounded(shapePitch, shift),
      shapePitch,
      degree:
        note.dead || !chordPlan?.chord
          ? undefined
          : degreeOver(chordPlan.chord, pitchClass(shapePitch), plan.key).degree,
      start: note.start,
      length: note.length,
      ringing: ZERO,
      voice: here.voice,
      finger: note.fret === 0 || note.dead ? 0 : held?.fingers?.get(note.string),
      how: undefined,
      pluck: plucks[index],
      stroke: undefined,
      accent: note.accent,
      triplet: note.triplet,
      technique: techniqueOf(note),
      chord: Math.max(0, chord),
    };
    const stop = soonest(sounding.stop, leftAt(sounding, event.finger, moments, hands, placeOf.get(sounding)));
    return { at, bar, place: chordPlaceAt(timeline, bar, chord), event, stop };
  });
  return { placed, troubles: troublesOf(plan, moments, hands) };
}

/** Moments that a note is looked through for the one at which its finger is wanted elsewhere. */
const LOOKED_THROUGH = 64;

/** Where a pressed note ends because its finger goes elsewhere; never before its end as notated. */
function leftAt(
  { note, end }: Sounded,
  finger: number | undefined,
  moments: readonly Placed[],
  hands: readonly (HeldMoment | undefined)[],
  from: number | undefined,
): Fraction | undefined {
  if (!finger || from === undefined) return undefined;
  for (let index = from + 1; index < Math.min(moments.length, from + LOOKED_THROUGH); index++) {
    const { at, moment } = moments[index];
    if (moment.pressed.some(({ string }) => string === note.string)) return undefined;
    for (const [string, other] of hands[index]?.fingers ?? []) {
      if (other !== finger) continue;
      const goal = moment.pressed.find((one) => one.string === string);
      if (goal?.fret !== note.fret) return compare(at, end) > 0 ? at : end;
    }
  }
  return undefined;
}

const soonest = (one: Fraction | undefined, other: Fraction | undefined): Fraction | undefined =>
  one && other ? (compare(one, other) <= 0 ? one : other) : (one ?? other);

/** The notes in the order of the bars, with the ends that ties and stops give them. */
function soundedNotes(bars: readonly WrittenHere[], timeline: Timeline): readonly Sounded[] {
  return bars.flatMap((here) => {
    const { bar, voice } = here;
    const written: WrittenBars = (index) => bars.find((one) => one.bar === index && one.voice === voice)?.written;
    return here.written.notes.flatMap((note, index): Sounded | readonly [] => {
      if (here.isElsewhere?.(note)) return [];
      return {
        here,
        index,
        note,
        at: plus(timeline.bars[bar], note.start),
        end: endOf(note, bar, written, timeline),
        stop: stopAfter(note, bar, written, timeline),
      };
    });
  });
}

interface Placed {
  readonly at: Fraction;
  readonly moment: Moment;
  /** The notes that begin at it, and where. */
  readonly begin: readonly Sounded[];
}

/** The instants at which something begins, with all that fingers must press then; grace notes come before the note that they lead to. */
function momentsOf(notes: readonly Sounded[], plan: SectionPlan): readonly Placed[] {
  const inTime = [...notes].sort((a, b) => compare(a.at, b.at));
  const moments: Placed[] = [];
  for (let from = 0; from < inTime.length;) {
    let to = from;
    while (to < inTime.length && equal(inTime[to].at, inTime[from].at)) to++;
    const { at } = inTime[from];
    const begin = inTime.slice(from, to).filter(({ note }) => !note.grace);
    // The grace note is fingered as a moment of its own, at the same instant: the hand has no time that the page shows.
    const graces = inTime.slice(from, to).filter(({ note }) => note.grace);
    for (const group of [graces, begin]) {
      if (group.length === 0) continue;
      const own = new Set(group.map(({ note }) => note.string));
      const goOn = inTime
        .slice(0, from)
        .filter((one) => !own.has(one.note.string) && compare(one.end, at) > 0 && !isReplaced(one, inTime, from));
      const pressed = [...group, ...goOn].flatMap(pressedBy);
      moments.push({
        at,
        moment: { at: microseconds(toNumber(at), plan.tempo), pressed },
        begin: group,
      });
    }
    from = to;
  }
  return moments;
}

/** Whether something on the same string has begun since. */
const isReplaced = (one: Sounded, inTime: readonly Sounded[], before: number): boolean =>
  inTime.slice(0, before).some((other) => other.note.string === one.note.string && compare(other.at, one.at) > 0);

/** Open strings, dead notes and natural harmonics need no finger; a dead note is damped by whatever lies near. */
function pressedBy({ note }: Sounded): readonly Pressed[] {
  if (note.fret === 0 || note.dead || note.attack === 'tap') return [];
  return [{ string: note.string, fret: note.fret, ...(note.finger !== undefined && { finger: note.finger }) }];
}

function troublesOf(
  plan: SectionPlan,
  moments: readonly Placed[],
  hands: readonly (HeldMoment | undefined)[],
): readonly (readonly WrittenTrouble[])[] {
  const troubles: WrittenTrouble[][] = plan.bars.map(() => []);
  moments.forEach(({ begin }, index) => {
    const held = hands[index];
    const [first] = begin;
    if (!held || !first) return;
    const { verdict, fingering, change } = held;
    const into = troubles[first.here.bar];
    const where = { note: first.index, voice: first.here.voice };
    if (!verdict.playable) {
      into.push({ ...where, kind: 'not-playable', whyNot: verdict.whyNot });
      return;
    }
    const zone = fingering?.zone ?? verdict.zone;
    if (zone !== 'comfortable') into.push({ ...where, kind: 'reach', zone, pair: fingering?.widest });
    const isLate = change?.pace === 'too fast' || change?.pace === 'not playable';
    // The way of a slide is what is heard of it, and no finger has to find its place at the end.
    const slides = begin.every(({ note }) => note.attack === 'slide');
    if (isLate && !slides && isJourney(change, hands[index - 1])) into.push({ ...where, kind: 'change', change });
  });
  return troubles;
}

/** Over a line of notes the fingers wait where they will be wanted: only a hand that shifts, or a finger that was busy, needs time. */
const isJourney = (change: Change, before: HeldMoment | undefined): boolean =>
  change.shift !== 0 || [...(before?.fingers?.values() ?? [])].includes(change.tightest?.finger ?? 0);

const isPlain = (note: WrittenNote): boolean =>
  note.attack === 'plucked' &&
  !note.dead &&
  !note.ghost &&
  note.harmonic === undefined &&
  !note.bend &&
  !note.vibrato &&
  !note.grace &&
  !note.palmMuted;

/** Undefined for a plain plucked note. */
export function techniqueOf(note: WrittenNote): Technique | undefined {
  if (isPlain(note)) return undefined;
  const { attack, dead, ghost, harmonic, bend, vibrato, grace, palmMuted } = note;
  return {
    attack,
    dead,
    ghost,
    ...(harmonic !== undefined && { harmonic }),
    ...(bend && { bend }),
    vibrato,
    grace,
    palmMuted,
  };
}

const pitchClass = (pitch: Pitch): number => ((midi(pitch) % 12) + 12) % 12;

/** Fingers for plucked notes that name none; what the fretting hand sounds by itself is not plucked. */
function pluckFingers(notes: readonly Sounded[], { tempo }: SectionPlan): readonly NoteEvent['pluck'][] {
  const second = secondsOfWhole(tempo);
  const isPlucked = ({ note }: Sounded): boolean =>
    note.attack !== 'hammer-on' && note.attack !== 'pull-off' && note.attack !== 'tap' && !isSlidInto(note);
  const named = notes.some(({ note }) => note.pluck);
  // Where the author says no finger at all, a plectrum may be meant.
  if (!named) return notes.map(() => undefined);
  const plucked = withoutBrushed(notes.filter(isPlucked));
  const fingers = choosePluckFingers(
    plucked.map(({ note, at }) => ({ finger: note.pluck, string: note.string, onset: times(at, second) })),
  );
  const byNote = new Map(plucked.map((one, index) => [one, fingers[index]]));
  return notes.map((one) => byNote.get(one));
}

/** More strings at once than thumb and three fingers have are brushed, and no finger has any of them, unless the author names one. */
function withoutBrushed(plucked: readonly Sounded[]): readonly Sounded[] {
  const kept: Sounded[] = [];
  for (let from = 0; from < plucked.length;) {
    let to = from;
    while (to < plucked.length && equal(plucked[to].at, plucked[from].at)) to++;
    const together = plucked.slice(from, to);
    const sounding = together.filter(({ note }) => !note.grace).length;
    if (sounding <= FINGERS_OF_A_CHORD || together.some(({ note }) => note.pluck)) kept.push(...together);
    from = to;
  }
  return kept;
}

/** Thumb, index, middle and ring finger. */
const FINGERS_OF_A_CHORD = 4;

const isSlidInto = (note: WrittenNote): boolean => note.attack === 'slide';

/** Index of the chord that sounds at a time of the bar; -1 where it has none. */
function chordIndexAt({ chords }: BarPlan, start: Fraction): number {
  let found = -1;
  chords.forEach((chord, index) => {
    if (compare(chord.start, start) <= 0) found = index;
  });
  return found;
}

function chordPlaceAt({ chords }: Timeline, bar: number, chord: number): number {
  let last = 0;
  for (let index = 0; index < chords.length; index++) {
    if (chords[index].bar > bar) break;
    if (chords[index].bar < bar || chords[index].chord <= chord) last = index;
  }
  return last;
}
