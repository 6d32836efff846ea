/** Says in a musician's words what a lesson was understood to mean, so that tests can be read as music. */
import type { BarPlan, ChordPlan, Lesson, SectionPlan, ShapeRule } from '../../server/src/lesson/lesson.ts';
import type { Syllable, WrittenBar, WrittenNote } from '../../server/src/lesson/written.ts';
import { buildLesson } from '../../server/src/lesson/build.ts';
import { readDocument } from '../../server/src/syntax/document.ts';
import { formatFretList } from '../../server/src/fretboard/frets.ts';
import { formatNoteName } from '../../server/src/theory/note.ts';
import { formatKey } from '../../server/src/theory/key.ts';
import { compare, equal, formatFraction } from '../../server/src/util/fraction.ts';
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
  if (bar.ending !== undefined) parts.push(`ending ${bar.ending}`);
  if (bar.cell !== undefined) parts.push(`cell ${plan.cells[bar.cell].name}`);
  if (bar.contour !== undefined) parts.push(`contour ${plan.contours[bar.contour].name}`);
  if (bar.melody) parts.push(`melody: ${describeWritten(bar.melody)}`);
  if (bar.tab) parts.push(`tab: ${describeWritten(bar.tab)}`);
  if (bar.words) parts.push(`words: ${bar.words.map(describeSyllable).join(' ')}`);
  return parts.join(', ');
}

const describeSyllable = ({ text, joined }: Syllable): string => `${text === '' ? '_' : text}${joined ? '-' : ''}`;

/** Each bar of the melody or tab of that name. */
export function writtenBars(text: string, name: string): string[] {
  const { melodies, tabs } = lessonOf(text);
  const found = [...melodies, ...tabs].find((one) => one.name === name);
  return (found?.bars ?? []).map(describeWritten);
}

/** `held 1 1/4 | 2:h3 1/8, r 1/4, stop 1 at 3/8 | G 1/2`: what goes on, what begins, in order, and the chords over it. */
export function describeWritten(bar: WrittenBar): string {
  const begun = [
    ...bar.notes.map((note) => ({ start: note.start, says: describeNote(note) })),
    ...bar.rests.map(({ start, length }) => ({ start, says: `r ${formatFraction(length)}` })),
    ...bar.stops.map(({ start, string }) => ({ start, says: `stop ${string}` })),
  ];
  begun.sort((a, b) => compare(a.start, b.start));
  const parts = bar.held.map((one) => `held ${one.string} ${formatFraction(one.length)}`);
  begun.forEach(({ start, says }, i) => {
    const together = i > 0 && equal(begun[i - 1].start, start);
    parts.push(together ? `+ ${says}` : `${formatFraction(start)}> ${says}`);
  });
  if (bar.broken) parts.push('broken');
  const chords = bar.chords.map(
    (one) => `${one.silent ? 'N.C.' : (one.chord?.symbol ?? '?')} ${formatFraction(one.length)}`,
  );
  return `${parts.join(' ')} = ${formatFraction(bar.length)}${chords.length > 0 ? ` over ${chords.join(' ')}` : ''}`;
}

function describeNote(note: WrittenNote): string {
  const words = [`${note.string}:${note.dead ? 'x' : note.fret}`];
  if (!note.grace) words.push(formatFraction(note.length));
  if (note.grace) words.push('grace');
  if (note.attack !== 'plucked') words.push(note.attack);
  if (note.ghost) words.push('ghost');
  if (note.harmonic !== undefined) words.push(`harmonic ${note.harmonic}`);
  if (note.bend)
    words.push(
      `${note.bend.before ? 'pre-bend' : 'bend'} ${note.bend.quarters}/4${note.bend.release ? ' and release' : ''}`,
    );
  if (note.vibrato) words.push('vibrato');
  if (note.accent) words.push('accent');
  if (note.palmMuted) words.push('palm');
  if (note.triplet) words.push('triplet');
  if (note.finger !== undefined) words.push(`finger ${note.finger}`);
  if (note.pluck) words.push(note.pluck);
  return words.join(' ');
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
