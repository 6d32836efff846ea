/** The notes of a section in time: what the right hand does over each voicing, and the melody above it. */
import { degreeOver } from '../theory/chord.ts';
import { midi } from '../theory/note.ts';
import type { SectionPlan, Tempo } from '../lesson/lesson.ts';
import type { Technique } from '../lesson/written.ts';
import { compare, equal, minus, plus, times, ZERO, type Fraction } from '../util/fraction.ts';
import { widerZone } from '../hand/difficulty.ts';
import type { MelodyStep } from '../hand/melody.ts';
import { choosePluckFingers } from '../hand/plucking-choice.ts';
import type { Aim } from './aims.ts';
import type { PlacedContour } from './contour.ts';
import { lengthOf, melodyOf, roomOver, soundingAt, type Melody, type MelodyNote, type Room } from './melody-notes.ts';
import type { Neck } from './neck.ts';
import type { Onset } from './picking.ts';
import { ringingOf, type Draft, type PlacedEvent } from './ringing.ts';
import { techniqueOf, type WrittenPlayed } from './written.ts';
import { lineOver } from './written-line.ts';
import { setWords } from './words.ts';
import type {
  BarScore,
  ContourOutcome,
  MelodyReach,
  MissedNote,
  NoteEvent,
  Rest,
  SilentPluck,
  Voicing,
  WrittenTrouble,
} from './score.ts';
import { shiftOf, sounded, type Shift } from './sounding.ts';
import type { Sung } from './sung.ts';
import { barAt, secondsOfWhole, type ChordPlace, type Timeline } from './timeline.ts';

/** What sounds in one bar. */
export interface BarEvents {
  readonly events: readonly NoteEvent[];
  readonly rests: readonly Rest[];
  readonly silentPlucks: readonly SilentPluck[];
  readonly troubles?: BarScore['troubles'];
  readonly tied?: BarScore['tied'];
}

export interface SectionEvents {
  readonly bars: readonly BarEvents[];
  /** Parallel to the timeline's chords. */
  readonly contours: readonly (ContourOutcome | undefined)[];
}

/** How a chord is played: its voicing, and the melody over it. */
export interface Played {
  readonly voicing: Voicing;
  readonly sung?: Sung;
  readonly missed?: MissedNote;
}

/** `onsets` and `played` run parallel to the timeline's chords. */
export function eventsOf(
  plan: SectionPlan,
  timeline: Timeline,
  onsets: readonly (readonly Onset[])[],
  played: readonly (Played | undefined)[],
  written: WrittenPlayed,
  neck: Neck,
): SectionEvents {
  return new Player(plan, timeline, onsets, played, written, neck).play();
}

class Player {
  private readonly shift: Shift;
  private readonly placed: PlacedEvent[] = [];
  private readonly silences: Fraction[] = [];
  private readonly silentPlucks: SilentPluck[][];
  private readonly contours: (ContourOutcome | undefined)[] = [];
  private readonly troubles: WrittenTrouble[][];

  constructor(
    private readonly plan: SectionPlan,
    private readonly timeline: Timeline,
    private readonly onsets: readonly (readonly Onset[])[],
    private readonly played: readonly (Played | undefined)[],
    private readonly written: WrittenPlayed,
    private readonly neck: Neck,
  ) {
    this.shift = shiftOf(plan.key, neck.shift);
    this.silentPlucks = plan.bars.map(() => []);
    this.troubles = plan.bars.map(() => []);
  }

  play(): SectionEvents {
    this.timeline.chords.forEach((place, at) => {
      const played = this.played[at];
      this.contours.push(played && this.playChord(at, place, played));
    });
    this.placed.push(...this.written.placed);
    const inOrder = this.placed.sort((a, b) => compare(a.at, b.at) || b.event.string - a.event.string);
    givePluckFingers(inOrder, this.plan.tempo);
    const ringing = ringingOf(inOrder, {
      chords: this.timeline.chords,
      voicings: this.played.map((each) => each?.voicing),
      silences: this.silences,
      writtenOut: new Set(this.plan.bars.flatMap(({ tab }, bar) => (tab ? [bar] : []))),
      end: this.timeline.end,
    });
    const bars = this.plan.bars.map((): Draft[] => []);
    inOrder.forEach((placed, index) => {
      placed.event.ringing = ringing[index];
      bars[placed.bar].push(placed.event);
    });
    this.plan.bars.forEach((bar, index) => setWords(bar, bars[index]));
    const quiet = quietAfter(inOrder);
    let start = ZERO;
    return {
      bars: bars.map((events, bar) => {
        const { length } = this.plan.bars[bar];
        const barStart = start;
        start = plus(start, length);
        const { tab, melody, chords } = this.plan.bars[bar];
        const line = tab ?? (chords.length === 0 ? melody : undefined);
        const held = line?.held ?? melody?.held ?? [];
        const rests = line?.rests ?? restsIn(events, length).filter((rest) => quiet(plus(barStart, rest.start)));
        const troubles = [...this.written.troubles[bar], ...this.troubles[bar]];
        return {
          events,
          rests,
          silentPlucks: this.silentPlucks[bar],
          ...(troubles.length > 0 && { troubles }),
          ...(held.length > 0 && { tied: held }),
        };
      }),
      contours: this.contours,
    };
  }

  private playChord(at: number, place: ChordPlace, played: Played): ContourOutcome | undefined {
    const { voicing } = played;
    const room = roomOver(this.plan, this.timeline, at, this.onsets[at], voicing.strings);
    const over = this.melodyOver(at, place, played, room);
    for (const { onset, aims } of room.onsets) {
      if (onset.note?.rest) this.silences.push(onset.start);
      for (const aim of aims) this.pluck(at, place, voicing, onset, aim, over);
    }
    for (const note of over?.melody.notes ?? []) this.sing(at, place, voicing, note, room.onsets, over!);
    if (over && !over.placed) this.troubles[place.bar].push(...lineTroubles(over, place.chord, played.missed));
    return over?.placed && outcomeOf(over, over.placed, played.missed);
  }

  private melodyOver(at: number, { bar }: ChordPlace, { sung }: Played, room: Room): Over | undefined {
    const index = this.plan.bars[bar].contour;
    const contour = index === undefined ? undefined : this.plan.contours[index];
    if (!sung) return undefined;
    const { placed } = sung;
    const melody =
      placed && contour
        ? melodyOf(contour, placed, room)
        : { notes: lineOver(this.plan, this.timeline, at, this.neck), cut: 0 };
    const steps = new Map(melody.notes.map((note, at) => [note, sung.held.steps[at]]));
    return { ...(placed && { placed }), melody, steps };
  }

  /** One string of one moment of the cell. Where a melody sounds on that string, the melody has it. */
  private pluck(at: number, place: ChordPlace, voicing: Voicing, onset: Onset, aim: Aim, over: Over | undefined): void {
    const melody = over && soundingAt(over.melody.notes, onset.start, aim.string);
    if (melody && equal(melody.start, onset.start)) return;
    const own = voicing.strings.find(({ string }) => string === aim.string);
    if (!melody && !own) {
      this.missed(place, onset, aim);
      return;
    }
    const how: How = {
      start: onset.start,
      length: onset.length,
      voice: aim.stroke ? 'stroke' : 'picking',
      pluck: aim.pluck,
      stroke: aim.stroke,
      accent: onset.note?.accent ?? false,
      triplet: onset.note?.triplet ?? false,
      stop: undefined,
    };
    this.emit(at, place, melody ? this.melodyTone(place, voicing, melody, over!) : own!, how);
  }

  private sing(
    at: number,
    place: ChordPlace,
    voicing: Voicing,
    note: MelodyNote,
    aimed: Room['onsets'],
    over: Over,
  ): void {
    // A pluck of the cell at the same moment gives way, and leaves its finger and its accent.
    const under = aimed.find(({ onset }) => equal(onset.start, note.start));
    const given = under?.aims.find((aim) => aim.string === note.string);
    this.emit(at, place, this.melodyTone(place, voicing, note, over), {
      start: note.start,
      length: note.written?.length ?? lengthOf(note),
      voice: 'melody',
      how: over.steps.get(note),
      pluck: note.pluck ?? given?.pluck,
      stroke: undefined,
      accent: note.written?.accent ?? (given && under?.onset.note?.accent) ?? false,
      triplet: note.triplet,
      stop: note.stopped ? note.end : undefined,
      technique: note.written && techniqueOf(note.written),
    });
  }

  private melodyTone(place: ChordPlace, voicing: Voicing, note: MelodyNote, { steps }: Over): Tone {
    const { string } = note;
    const held = voicing.strings.find((each) => each.string === string && each.fret === note.fret);
    const shape = midi(note.shapePitch);
    const finger = steps.get(note)?.finger ?? held?.finger ?? (note.fret === 0 ? 0 : undefined);
    return {
      string,
      fret: note.fret,
      midi: shape + this.neck.shift,
      pitch: sounded(note.shapePitch, this.shift),
      shapePitch: note.shapePitch,
      degree: degreeOver(place.plan.chord!, ((shape % 12) + 12) % 12, this.plan.key).degree,
      finger,
    };
  }

  private emit(at: number, place: ChordPlace, tone: Tone, how: How): void {
    const bar = barAt(this.timeline, how.start);
    const early = bar !== place.bar;
    const start = minus(how.start, this.timeline.bars[bar]);
    // Written out, since there are thousands of them: spread objects would cost more than all the rest.
    const event: Draft = {
      string: tone.string,
      fret: tone.fret,
      midi: tone.midi,
      pitch: tone.pitch,
      shapePitch: tone.shapePitch,
      degree: tone.degree,
      start,
      length: early ? this.withinBar(bar, start, how.length) : how.length,
      ringing: ZERO,
      voice: how.voice,
      finger: tone.finger,
      how: how.how,
      pluck: how.pluck,
      stroke: how.stroke,
      accent: how.accent,
      triplet: how.triplet,
      chord: early ? Math.max(0, this.plan.bars[bar].chords.length - 1) : place.chord,
      pushed: early ? true : undefined,
    };
    if (how.technique) event.technique = how.technique;
    this.placed.push({ at: how.start, bar, place: at, event, stop: how.stop });
  }

  private withinBar(bar: number, start: Fraction, length: Fraction): Fraction {
    const left = minus(this.plan.bars[bar].length, start);
    return compare(length, left) < 0 ? length : left;
  }

  private missed({ bar, chord }: ChordPlace, { cell, index }: Onset, { string }: Aim): void {
    const missed = this.silentPlucks[bar];
    const known = (each: SilentPluck): boolean =>
      each.cell === cell && each.note === index && each.string === string && each.chord === chord;
    if (missed.some(known)) return;
    missed.push({ cell, note: index, ...(string !== undefined && { string }), chord });
  }
}

type Tone = Pick<NoteEvent, 'string' | 'fret' | 'midi' | 'pitch' | 'shapePitch' | 'degree' | 'finger'>;

/** When and how a string is sounded; times on the section's line. */
interface How {
  readonly start: Fraction;
  readonly length: Fraction;
  readonly voice: NoteEvent['voice'];
  readonly how?: MelodyStep | undefined;
  readonly pluck: NoteEvent['pluck'];
  readonly stroke: NoteEvent['stroke'];
  readonly accent: boolean;
  readonly triplet: boolean;
  /** Where the note is silenced by itself. */
  readonly stop: Fraction | undefined;
  readonly technique?: Technique | undefined;
}

/** The melody over a chord, with how the hand has each note. */
interface Over {
  /** Undefined for a melody that is written out. */
  readonly placed?: PlacedContour;
  readonly melody: Melody;
  readonly steps: ReadonlyMap<MelodyNote, MelodyStep | undefined>;
}

function outcomeOf(
  { melody, steps }: Over,
  { start, string, unreachable }: PlacedContour,
  missed: MissedNote | undefined,
): ContourOutcome {
  const reach = farthestReach(melody, steps);
  const frets = melody.notes.map(({ fret }) => fret);
  return {
    start,
    string,
    frets,
    cut: melody.cut,
    ...(unreachable !== undefined && { unreachable }),
    ...(reach && { reach }),
    ...(missed && { missed }),
  };
}

/** What is hard in a melody that is written out; where a note is out of reach, only that is told. */
function lineTroubles(
  { melody, steps }: Over,
  chord: number,
  missed: MissedNote | undefined,
): readonly WrittenTrouble[] {
  if (missed) return [{ kind: 'missed', voice: 'melody', note: missed.note, chord, missed }];
  const reach = farthestReach(melody, steps);
  return reach ? [{ kind: 'reach', voice: 'melody', note: reach.note, zone: reach.zone, pair: reach.pair }] : [];
}

function farthestReach({ notes }: Melody, steps: Over['steps']): MelodyReach | undefined {
  let farthest: MelodyReach | undefined;
  for (const note of notes) {
    const step = steps.get(note);
    if (!step || step.zone === 'comfortable') continue;
    const { zone, widest } = step;
    if (farthest && widerZone(farthest.zone, zone) === farthest.zone) {
      const isFarther = (widest?.millimetres ?? 0) > (farthest.pair?.millimetres ?? 0);
      if (zone !== farthest.zone || !isFarther) continue;
    }
    farthest = { zone, note: note.index, string: note.string, fret: note.fret, ...(widest && { pair: widest }) };
  }
  return farthest;
}

/** Melody notes that name no plucking finger get one where the cell beside them names its own. */
function givePluckFingers(inOrder: readonly PlacedEvent[], tempo: Tempo): void {
  const picked = new Set<number>();
  for (const { event, place } of inOrder) if (event.voice === 'picking' && event.pluck) picked.add(place);
  const played = inOrder.filter(({ event, place }) => event.pluck ?? (event.voice === 'melody' && picked.has(place)));
  if (played.every(({ event }) => event.pluck)) return;
  const second = secondsOfWhole(tempo);
  const fingers = choosePluckFingers(
    played.map(({ event, at }) => ({ finger: event.pluck, string: event.string, onset: times(at, second) })),
  );
  played.forEach(({ event }, index) => {
    event.pluck = fingers[index];
  });
}

/** Tells whether no string rings on at a time. What is asked for must come in order of time, as the events do. */
function quietAfter(inOrder: readonly PlacedEvent[]): (time: Fraction) => boolean {
  let next = 0;
  let end = ZERO;
  return (time) => {
    for (; next < inOrder.length && compare(inOrder[next].at, time) <= 0; next++) {
      const { at, event } = inOrder[next];
      const stops = plus(at, event.ringing);
      if (compare(stops, end) > 0) end = stops;
    }
    return compare(end, time) <= 0;
  };
}

/** The stretches of a bar in which nothing new is struck and no note as written goes on. */
function restsIn(events: readonly NoteEvent[], length: Fraction): readonly Rest[] {
  const rests: Rest[] = [];
  let covered = ZERO;
  const leaveTo = (start: Fraction): void => {
    if (compare(start, covered) > 0) rests.push({ start: covered, length: minus(start, covered) });
  };
  for (const event of events) {
    leaveTo(event.start);
    const end = plus(event.start, event.length);
    if (compare(end, covered) > 0) covered = end;
  }
  leaveTo(length);
  return rests;
}
