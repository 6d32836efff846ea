/** Draws a section: its systems, one below the other, and a diagram for every shape that it uses. */
import type { Instrument } from '../fretboard/instrument.ts';
import type { SectionPlan } from '../lesson/lesson.ts';
import type { ChordScore, SectionScore, Voicing } from '../realise/score.ts';
import { formatFretList } from '../fretboard/frets.ts';
import type { Drawing } from './drawing.ts';
import { breakIntoSystems, measureBar, placeSystems, spaceEasily } from './layout.ts';
import { drawSystem, marginOf } from './system.ts';

export interface SectionToDraw {
  readonly name: string;
  readonly plan: SectionPlan;
  readonly score: SectionScore;
  readonly instrument: Instrument;
}

/** A drawn system and the bars in it. */
export interface DrawnSystem {
  readonly drawing: Drawing;
  readonly bars: readonly number[];
}

/** `width` in pixels; bars that cannot be squeezed into it are drawn wider. */
export function drawSystems(section: SectionToDraw, width: number): readonly DrawnSystem[] {
  const { name, instrument } = section;
  if (section.score.bars.length === 0) return [];
  const measures = spaceEasily(section.score.bars.map((bar) => measureBar(bar, section.plan.meter)));
  const margin = marginOf(instrument);
  const room = width - margin - 1;
  const systems = placeSystems(breakIntoSystems(measures, room), margin, room);
  return systems.map((bars, index) => ({
    drawing: drawSystem({ bars, instrument, width, name, ends: index === systems.length - 1 }),
    bars: bars.map((bar) => bar.measure.bar.number),
  }));
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
