/** Draws a section: its systems, one below the other, and a diagram for every shape that it uses. */
import type { Instrument } from '../fretboard/instrument.ts';
import type { Meter, SectionPlan } from '../lesson/lesson.ts';
import type { BarScore, ChordScore, SectionScore, Voicing } from '../realise/score.ts';
import { formatFretList } from '../fretboard/frets.ts';
import { reachesBack, type Neighbours } from './draw-joins.ts';
import type { Drawing } from './drawing.ts';
import { framesOf, PLAIN_FRAME, type BarFrame } from './frames.ts';
import { breakIntoSystems, measureBar, placeSystems, spaceEasily, type BarMeasure, type PlacedBar } from './layout.ts';
import type { Reading } from './look.ts';
import { drawSystem, marginOf, type SystemToDraw } from './system.ts';

export interface SectionToDraw {
  readonly name: string;
  readonly plan: SectionPlan;
  readonly score: SectionScore;
  readonly instrument: Instrument;
  /** Whether the section ends with the last of these bars; it does where nothing is said. */
  readonly ends?: boolean;
  /** Frets where nothing is said. */
  readonly reading?: Reading;
}

/** A drawn system and the bars in it. */
export interface DrawnSystem {
  readonly drawing: Drawing;
  readonly bars: readonly number[];
}

/** `width` in pixels; bars that cannot be squeezed into it are drawn wider. */
export function drawSystems(section: SectionToDraw, width: number): readonly DrawnSystem[] {
  const { name, instrument, ends = true, reading = 'frets' } = section;
  if (section.score.bars.length === 0) return [];
  const { bars } = section.score;
  const frames = new Map(framesOf(section.plan).map((frame, index) => [section.plan.bars[index].number, frame]));
  const measures = spaceEasily(
    bars.map((bar) => measured(bar, section.plan.meter, frames.get(bar.number) ?? PLAIN_FRAME)),
  );
  const margin = marginOf(instrument);
  const room = width - margin - 1;
  const systems = placeSystems(breakIntoSystems(measures, room), margin, room);
  const scores = systems.map((system) => system.map((bar) => bar.measure.bar));
  return systems.map((system, index) => ({
    drawing: drawnBefore({
      bars: system,
      instrument,
      width,
      name,
      ends: ends && index === systems.length - 1,
      reading,
      ...neighbours(scores, index),
    }),
    bars: scores[index].map((bar) => bar.number),
  }));
}

/** Only neighbours that matter: a system need not be drawn again for an edit in one that it has nothing to do with. */
function neighbours(systems: readonly (readonly BarScore[])[], index: number): Neighbours {
  const [first] = systems[index];
  const before = systems[index - 1]?.at(-1);
  const after = systems[index + 1]?.[0];
  return {
    ...(before && reachesBack(first) && { before }),
    ...(after && reachesBack(after) && { after }),
  };
}

/** Bars that an edit leaves as they are stay the same objects: what was measured and drawn of them is looked up. */
const measures = new WeakMap<BarScore, Map<string, BarMeasure>>();
const systemsDrawn = new WeakMap<BarScore, Map<string, { readonly system: SystemToDraw; readonly drawing: Drawing }>>();

function measured(bar: BarScore, meter: Meter, frame: BarFrame): BarMeasure {
  const known = entry(measures, bar);
  const key = `${meter.beats}/${meter.unit} ${frame.key}`;
  let measure = known.get(key);
  if (!measure) known.set(key, (measure = measureBar(bar, meter, frame)));
  return measure;
}

const MOST_WIDTHS = 8;

/** By the first of the system's bars; all the others, and where they stand, must be the same as well. */
function drawnBefore(system: SystemToDraw): Drawing {
  const { bars, instrument, width, name, ends, reading } = system;
  const known = entry(systemsDrawn, bars[0].measure.bar);
  const key = [name, instrument.tuning.name, width, ends, reading].join('|');
  const before = known.get(key);
  if (
    before &&
    bars.length === before.system.bars.length &&
    system.before === before.system.before &&
    system.after === before.system.after &&
    bars.every((bar, index) => sameBar(bar, before.system.bars[index]))
  ) {
    return before.drawing;
  }
  const drawing = drawSystem(system);
  // A panel that is being resized asks for many widths, and for none of them again.
  if (known.size >= MOST_WIDTHS) known.clear();
  known.set(key, { system, drawing });
  return drawing;
}

const sameBar = (a: PlacedBar, b: PlacedBar): boolean =>
  a.measure.bar === b.measure.bar &&
  a.measure.frame.key === b.measure.frame.key &&
  a.x === b.x &&
  a.width === b.width &&
  a.middles.every((middle, index) => middle === b.middles[index]);

function entry<Value>(map: WeakMap<BarScore, Map<string, Value>>, bar: BarScore): Map<string, Value> {
  let known = map.get(bar);
  if (!known) map.set(bar, (known = new Map()));
  return known;
}

/** A chord with a voicing. */
export type VoicedChord = ChordScore & { readonly voicing: Voicing };

/** More diagrams than these in one section are not drawn. */
const MOST_SHAPES = 60;

/** The section's shapes, each once, in the order in which they are first played. */
export function distinctShapes(score: SectionScore): readonly VoicedChord[] {
  const shapes = new Map<string, VoicedChord>();
  for (const bar of score.bars) {
    for (const chord of bar.chords) {
      if (!chord.voicing) continue;
      const key = `${chord.chord?.symbol ?? chord.written} ${formatFretList(chord.voicing.frets)}`;
      if (!shapes.has(key) && shapes.size < MOST_SHAPES) shapes.set(key, chord as VoicedChord);
    }
  }
  return [...shapes.values()];
}
