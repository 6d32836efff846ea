/** A melody over one way of holding a chord: in which octave it lies, how the hand has each note, and what to do where it cannot. */
import type { Chord } from '../theory/chord.ts';
import { scaleOver } from '../theory/key.ts';
import type { Contour, SectionPlan, Tone } from '../lesson/lesson.ts';
import type { FretList } from '../fretboard/frets.ts';
import {
  fingerFor,
  hindranceOf,
  isAtEase,
  melodyOver,
  melodySum,
  nearestOnString,
  sameOnAnotherString,
  type HeldMelody,
  type HeldShape,
  type MelodyNote as AskedNote,
  type MelodySum,
} from '../hand/melody.ts';
import { toNumber } from '../util/fraction.ts';
import { placesOf, stringOf, vicinityOf, type ContourOver, type PlacedContour, type Vicinity } from './contour.ts';
import type { HandState } from './hand-states.ts';
import { melodyOf, roomOver, type Melody, type MelodyNote, type Room } from './melody-notes.ts';
import { stoppedOn, type Neck } from './neck.ts';
import type { Onset } from './picking.ts';
import type { MissedNote } from './score.ts';
import type { Timeline } from './timeline.ts';

/** A chord of a section with a contour over it, or with notes that a melody writes out. */
export interface SungChord {
  readonly plan: SectionPlan;
  readonly timeline: Timeline;
  /** Index of the chord in the timeline. */
  readonly at: number;
  readonly chord: Chord;
  readonly contour?: Contour;
  /** In place of a contour: notes that lie where they are written, whatever shape is held. */
  readonly line?: readonly MelodyNote[];
  readonly onsets: readonly Onset[];
  readonly neck: Neck;
}

/** One place of the contour over a shape: what is to be played, whatever fingers hold the shape. */
interface Lying {
  /** Undefined for a melody that is written out. */
  readonly placed?: PlacedContour;
  readonly melody: Melody;
  /** Parallel to the notes of the melody. */
  readonly asked: readonly AskedNote[];
  readonly starts: readonly number[];
}

/** The melody as it is sung over one way of holding the chord. */
export class Sung {
  private cachedHeld: HeldMelody | undefined;

  constructor(
    private readonly lying: Lying,
    /** Its place among those where the contour could lie: starts in turn, the octaves nearest to the shape first. */
    readonly turn: number,
    private readonly shape: HeldShape | undefined,
    readonly sum: MelodySum,
  ) {}

  get placed(): PlacedContour | undefined {
    return this.lying.placed;
  }

  /** The strings that the melody has, as bits `1 << string`. */
  get strings(): number {
    const { placed, melody } = this.lying;
    return placed ? 1 << placed.string : melody.notes.reduce((all, { string }) => all | (1 << string), 0);
  }

  /** When each note begins, in whole notes from where the chord starts. */
  get starts(): readonly number[] {
    return this.lying.starts;
  }

  /** `steps` run parallel to the notes of the melody; there are none where no hand holds the shape. Of many ways few are asked. */
  get held(): HeldMelody {
    return (this.cachedHeld ??= this.shape ? melodyOver(this.shape, this.lying.asked) : NOTHING_HELD);
  }

  /** The finger that stops a note, 0 for an open string; undefined where the hand cannot have it. */
  fingerFor(note: number): number | undefined {
    return this.shape && fingerFor(this.shape, this.lying.asked[note]);
  }
}

const NOTHING_HELD: HeldMelody = { steps: [], unreachable: 0, cost: 0 };
const NOTHING_SUNG: MelodySum = { unreachable: 0, cost: 0, isExtreme: false };

/** Sings one contour over one chord, however it is held. What depends on the shape alone is worked out once for all its fingerings. */
export class Singer {
  private readonly places = new Map<FretList, readonly Lying[]>();
  private readonly contours = new Map<string, readonly PlacedContour[]>();
  private readonly over: ContourOver;

  constructor(private readonly sung: SungChord) {
    const { plan, timeline, at, chord, contour, neck } = sung;
    const scale = contour?.scale ? scaleOver(contour.scale, chord) : timeline.chords[at].plan.scale;
    this.over = { chord, key: plan.key, scale, neck };
  }

  /** Undefined where the shape does not have the contour's string. */
  sing({ frets, shape }: HandState): Sung | undefined {
    const places = this.placesIn(frets);
    if (!shape) return places.length > 0 ? new Sung(places[0], 0, undefined, NOTHING_SUNG) : undefined;
    // Nothing is better than what the hand has at ease. A start further down the list is only for where it has none from those before.
    for (let turn = 0; turn < places.length; turn++) {
      const lying = places[turn];
      if (isAtEase(shape, lying.asked)) return new Sung(lying, turn, shape, melodySum(shape, lying.asked));
    }
    let best: Sung | undefined;
    for (let turn = 0; turn < places.length; turn++) {
      const other = new Sung(places[turn], turn, shape, melodySum(shape, places[turn].asked));
      if (!best || isBetterSung(other, best)) best = other;
    }
    return best;
  }

  /** The first note that the hand cannot have, with the reason and what it could have instead; undefined where it has them all. */
  missedIn(state: HandState, { turn, held }: Sung): MissedNote | undefined {
    const at = held.steps.findIndex((step) => !step);
    const { shape } = state;
    if (at < 0 || !shape) return undefined;
    const { melody, asked } = this.placesIn(state.frets)[turn];
    const note = asked[at];
    const told = { note: melody.notes[at].index, string: note.string, fret: note.fret, why: hindranceOf(shape, note) };
    const start = this.otherStart(state);
    if (start !== undefined) return { ...told, instead: { kind: 'start', tone: start } };
    const same = sameOnAnotherString(shape, note);
    if (same) return { ...told, instead: { kind: 'string', string: same.string, fret: same.fret } };
    const near = nearestOnString(shape, note);
    return near ? { ...told, instead: { kind: 'fret', string: near.string, fret: near.fret } } : told;
  }

  /** A tone of the chord from which the hand can keep the whole contour without an extreme reach. */
  private otherStart(state: HandState): string | undefined {
    if (!this.sung.contour) return undefined;
    for (const { degree } of this.sung.chord.tones) {
      const text = degree.number === 1 ? 'R' : String(degree.number);
      const tone: Tone = { degree: { number: degree.number, accidental: 0 }, absolute: false, text };
      const contour = { ...this.sung.contour, starts: [tone] };
      const other = new Singer({ ...this.sung, contour }).sing(state);
      const isKept = other && other.placed?.unreachable === undefined && other.sum.unreachable === 0;
      if (isKept && !other.sum.isExtreme) return text;
    }
    return undefined;
  }

  private placesIn(frets: FretList): readonly Lying[] {
    let places = this.places.get(frets);
    if (!places) this.places.set(frets, (places = this.layOver(frets)));
    return places;
  }

  /** Shapes of one chord lie about the same places. */
  private placesNear(contour: Contour, string: number, near: Vicinity): readonly PlacedContour[] {
    const name = `${string} ${near.fret} ${near.open}`;
    let places = this.contours.get(name);
    if (!places) this.contours.set(name, (places = placesOf(contour, this.over, string, near)));
    return places;
  }

  private layOver(frets: FretList): readonly Lying[] {
    const { contour, line, neck, plan, timeline, at, onsets } = this.sung;
    const strings = stoppedOn(neck, frets);
    const room = roomOver(plan, timeline, at, onsets, strings);
    const beat = toNumber(plan.meter.beat);
    const start = toNumber(room.start);
    const lyingAs = (melody: Melody, placed?: PlacedContour): Lying => ({
      melody,
      ...(placed && { placed }),
      asked: askedNotes(melody, room, beat),
      starts: melody.notes.map((note) => toNumber(note.start) - start),
    });
    if (line) return [lyingAs({ notes: line, cut: 0 })];
    const string = contour && stringOf(contour, strings, neck);
    if (!contour || string === undefined) return [];
    const places = this.placesNear(contour, string, vicinityOf(strings, string));
    return places.map((placed) => lyingAs(melodyOf(contour, placed, room), placed));
  }
}

/** Fewer notes left out, then no extreme reach, then the start that comes before, then the nearer octave. */
export function isBetterSung(one: Sung, other: Sung): boolean {
  if (one.sum.unreachable !== other.sum.unreachable) return one.sum.unreachable < other.sum.unreachable;
  if (one.sum.isExtreme !== other.sum.isExtreme) return other.sum.isExtreme;
  return one.turn < other.turn;
}

/** A string must ring if it is plucked again while the chord lasts, or was plucked less than a beat ago and not silenced since. */
function askedNotes({ notes }: Melody, { onsets }: Room, beat: number): readonly AskedNote[] {
  const moments = onsets.map(({ onset, aims }) => ({
    at: toNumber(onset.start),
    strings: aims.reduce((all, aim) => (aim.stroke === 'mute' ? all : all | (1 << (aim.string ?? 0))), 0),
    silences: onset.note?.rest ?? false,
  }));
  return notes.map(({ start, string, fret }) => {
    const at = toNumber(start);
    let mustRing = 0;
    for (const moment of moments) {
      if (moment.at >= at) mustRing |= moment.strings;
      else if (moment.silences) mustRing = 0;
      else if (at - moment.at < beat) mustRing |= moment.strings;
    }
    return { string, fret, mustRing };
  });
}
