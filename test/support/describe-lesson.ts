/** Says in a musician's words what a lesson was understood to mean, so that tests can be read as music. */
import type { BarPlan, ChordPlan, Lesson, SectionPlan, ShapeRule } from '../../server/src/lesson/lesson.ts';
import { buildLesson } from '../../server/src/lesson/build.ts';
import { readDocument } from '../../server/src/syntax/document.ts';
import { formatFretList } from '../../server/src/fretboard/frets.ts';
import { formatNoteName } from '../../server/src/theory/note.ts';
import { formatKey } from '../../server/src/theory/key.ts';
import { formatFraction } from '../../server/src/util/fraction.ts';
import { LineMap } from '../../server/src/util/line-map.ts';

export function lessonOf(text: string): Lesson {
  return buildLesson(readDocument(text), new LineMap(text));
}

/** `G 1/2 at 8 [lamp]` for each chord, bars apart. */
export function describeBars(plan: SectionPlan): string[] {
  return plan.bars.map((bar) => `${bar.number}: ${describeBar(plan, bar)}`);
}

function describeBar(plan: SectionPlan, bar: BarPlan): string {
  const parts = bar.chords.map((chord) => describeChord(plan, chord));
  if (bar.broken) parts.push('broken');
  if (bar.cell !== undefined) parts.push(`cell ${plan.cells[bar.cell].name}`);
  if (bar.contour !== undefined) parts.push(`contour ${plan.contours[bar.contour].name}`);
  return parts.join(', ');
}

function describeChord(plan: SectionPlan, chord: ChordPlan): string {
  const words = [chord.silent ? 'silent' : (chord.chord?.symbol ?? 'no chord'), formatFraction(chord.length)];
  if (chord.lowestFret !== undefined) words.push(`at ${chord.lowestFret}`);
  if (chord.frets) words.push(formatFretList(chord.frets));
  if (chord.rule !== undefined) words.push(`[${plan.rules[chord.rule].name}]`);
  if (chord.cell !== undefined) words.push(`with ${plan.cells[chord.cell].name}`);
  if (chord.held) words.push('held');
  if (chord.pushed) words.push('pushed');
  return words.join(' ');
}

export function describeRule(rule: ShapeRule): string {
  const tones = rule.tones?.map((tone) => (tone === 'any' ? 'any' : tone.text)).join(' ') ?? rule.spacing ?? 'any';
  const open = rule.open === 'any' ? 'any' : rule.open.join(' ') || 'none';
  return `strings ${rule.strings.join(' ')} tones ${tones} open ${open} frets ${rule.lowestFret}-${rule.highestFret} reach ${rule.reach ?? 'free'}`;
}

export function describeSettings({ settings }: Lesson): string {
  const { instrument, key, meter, tempo, hand } = settings;
  const capo = instrument.capo ? ` capo ${instrument.capo.fret}` : '';
  const strings = instrument.tuning.strings.map((pitch) => `${formatNoteName(pitch)}${pitch.octave}`).join(' ');
  return `${formatKey(key)}, ${meter.beats}/${meter.unit}, ${tempo.perMinute} x ${formatFraction(tempo.beat)}, ${strings}${capo}, ${hand} hand`;
}

/** `kind "words it points to"`, for each problem. */
export function describeProblems(text: string): string[] {
  return lessonOf(text).problems.map(({ kind, span }) => `${kind} "${text.slice(span.start, span.end)}"`);
}
