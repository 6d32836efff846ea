/** How one note of a score sounds: how hard and by what it is touched, what damps it, when in a stroke it comes, where it is written. */
import { midiAt, type Instrument } from '../fretboard/instrument.ts';
import type { Section } from '../lesson/lesson.ts';
import type { Attack, Technique, WrittenBar, WrittenPlace } from '../lesson/written.ts';
import type { NoteEvent, Voice } from '../realise/score.ts';
import type { SoundNote, Touch } from '../sound/timeline.ts';
import { equal, toNumber } from '../util/fraction.ts';
import type { Span } from '../util/span.ts';

/** How hard each voice is played: the melody is to be heard over what lies below it. Of 1, set by judgement. */
const FORCE: Readonly<Record<Voice, number>> = { picking: 0.7, stroke: 0.62, melody: 0.85, written: 0.75 };
const ACCENT = 0.22;
const GHOST = 0.4;
const GRACE = 0.75;
const UP_STROKE = 0.85;

/** From string to string of a stroke, in seconds; a roll is heard as single notes. Set by judgement. */
const STROKE_STEP: Readonly<Record<NonNullable<NoteEvent['stroke']>, number>> = {
  down: 0.009,
  up: 0.007,
  roll: 0.04,
  mute: 0.005,
};
/** However many strings it has, a stroke is through by this part of its length. */
const STROKE_PART = 0.4;

/** A grace note comes this long before the one it leads to, in seconds. Set by judgement. */
const GRACE_SECONDS = 0.065;

const TOUCH: Readonly<Record<Attack, Touch>> = {
  plucked: 'pluck',
  'hammer-on': 'hammer',
  'pull-off': 'pull',
  slide: 'slide',
  slap: 'slap',
  tap: 'tap',
};

/** Semitones above the string that each partial sounds, to the nearest: the octave, the twelfth, and so on. */
const PARTIALS: Readonly<Record<number, number>> = { 12: 2, 19: 3, 24: 4, 28: 5, 31: 6 };

type Played = Omit<SoundNote, 'at' | 'until' | 'rings' | 'place' | 'from'>;

/** `events` are those of its bar; `whole` is how long a whole note lasts, in seconds. */
export function soundNote(
  event: NoteEvent,
  events: readonly NoteEvent[],
  instrument: Instrument,
  whole: number,
): Played {
  const { technique, string } = event;
  const pressed = midiAt(instrument, string, event.fret);
  const partial = technique?.harmonic === undefined ? 1 : (PARTIALS[event.midi - pressed] ?? 1);
  return {
    offset: technique?.grace ? -GRACE_SECONDS * leadsBy(event, events) : turnOf(event, events, whole),
    string,
    midi: partial === 1 ? event.midi : pressed,
    partial,
    force: forceOf(event),
    touch: technique ? TOUCH[technique.attack] : 'pluck',
    damping: technique?.dead || event.stroke === 'mute' ? 'dead' : technique?.palmMuted ? 'palm' : 'none',
    fretted: event.fret > 0,
    ...(technique?.bend && { bend: bendOf(technique.bend) }),
    vibrato: technique?.vibrato ?? false,
  };
}

const bendOf = ({ quarters, before, release }: NonNullable<Technique['bend']>): SoundNote['bend'] => ({
  semitones: quarters / 2,
  before,
  release,
});

function forceOf({ voice, accent, technique, stroke }: NoteEvent): number {
  let force = FORCE[voice] + (accent ? ACCENT : 0);
  if (technique?.ghost) force *= GHOST;
  if (technique?.grace) force *= GRACE;
  if (stroke === 'up') force *= UP_STROKE;
  return Math.min(1, force);
}

/** How many grace notes before its main note it comes: 1 for the last of them. */
function leadsBy(event: NoteEvent, events: readonly NoteEvent[]): number {
  const own = events.filter(
    ({ string, start, technique }) => technique?.grace && string === event.string && equal(start, event.start),
  );
  return own.length - own.indexOf(event);
}

/** How long after the first string of its stroke it comes, in seconds. */
function turnOf(event: NoteEvent, events: readonly NoteEvent[], whole: number): number {
  const { stroke, start, length, string } = event;
  if (!stroke) return 0;
  const strings = events.filter((one) => one.stroke === stroke && equal(one.start, start)).map((one) => one.string);
  const before = strings.filter((one) => (stroke === 'up' ? one < string : one > string)).length;
  const most = (toNumber(length) * whole * STROKE_PART) / Math.max(1, strings.length - 1);
  return before * Math.min(STROKE_STEP[stroke], most);
}

/** Where it stands in the text: a note that is written out by itself, any other with the chord that it sounds. */
export function writtenAt(event: NoteEvent, { plan, places, span }: Section, bar: number): Span {
  const { tab, melody } = plan.bars[bar];
  const place = places[bar];
  const own =
    event.voice === 'written'
      ? noteSpan(event, tab, place?.tab)
      : event.voice === 'melody'
        ? noteSpan(event, melody, place?.melody)
        : undefined;
  const chord = event.pushed
    ? (place?.chords[event.chord + 1] ?? places[bar + 1]?.chords[0])
    : place?.chords[event.chord];
  const { start, end } = own ?? chord?.span ?? place?.span ?? span;
  return { start, end };
}

function noteSpan(
  event: NoteEvent,
  written: WrittenBar | undefined,
  place: WrittenPlace | undefined,
): Span | undefined {
  const grace = event.technique?.grace ?? false;
  const index = written?.notes.findIndex(
    (note) =>
      note.string === event.string &&
      note.fret === event.fret &&
      note.grace === grace &&
      equal(note.start, event.start),
  );
  return index === undefined || index < 0 ? undefined : place?.notes[index];
}
