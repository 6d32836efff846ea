/**
 * Writes a lesson as JSON: what is played, string by string, and what was found. For programs that read lessons.
 *
 * The document, version 1. Keys always stand in this order; what is not known is null, and lists may be empty.
 *
 *     version      1. It is raised when a key changes its meaning or goes; new keys may come without that.
 *     title        the lesson's title or null
 *     settings     key, meter, tempo {beat, perMinute}, tuning (notes, low string first), capo {fret, strings} or null,
 *                  hand, level or null
 *     sections     in the order written; each has
 *       name, title, key, meter, difficulty (0 to 10)
 *       bars       each has number (0 is a pick-up), length, broken (true where it could not be read in full), and
 *         chords   symbol, start, length, sounding (the strictest name), names (all of them), frets (`x-7-9-9-0-0`, low string
 *                  first), fingers (the same places: 1 to 4, 0 open, x silent), notes (`D4`, low string first), intervals (over
 *                  the chord's root: `1`, `b3`, `5`), difficulty, zone (comfortable, stretch, extreme, unplayable)
 *         events   start, length, ringing, string (1 the highest), fret, note, midi, voice (picking, stroke, melody), finger
 *                  (1 to 4, 0 open, or null), pluck (p i m a c, or null), stroke (down, up, roll, mute, or null), accent
 *     form         the sections' names in the order played
 *     passages     prose and what `show` sets between it, in the order written; each has kind (text, note, show), and
 *       text, note   markdown (as written, without the common indent), facts (path, value or null, start and end in markdown),
 *                    plain (as plain text, facts filled in, each paragraph one line)
 *       show         section, first, last (bars), view (tab, diagrams, neck, all)
 *     practice     the steps in order; each has title, tempi (in the order played), minutes or null, section, first, last (bars),
 *                  or null for the whole lesson
 *     findings     code, severity (error, warning, hint, information), message, range {start, end} of line and character,
 *                  both from 0, characters in UTF-16 units
 *     variants     in the order written; each has its name and all of the above but the version. Findings of a lesson include
 *                  those of its variants that it does not have itself; a variant's are all that is found in it
 *
 * Times are fractions of a whole note, as strings (`3/8`). Frets count from the capo, notes are what sounds.
 */
import type { WorkedOut } from './worked-out.ts';
import { formatFretList } from '../fretboard/frets.ts';
import type { Lesson, Section } from '../lesson/lesson.ts';
import type { PracticeStep } from '../lesson/practice.ts';
import type { Passage } from '../lesson/prose.ts';
import { filledProse } from '../prose/filled.ts';
import { proseText } from '../prose/plain.ts';
import type { BarScore, ChordScore, NoteEvent, SectionScore } from '../realise/score.ts';
import { formatDegree } from '../theory/interval.ts';
import { formatKey } from '../theory/key.ts';
import { formatPitch } from '../theory/note.ts';
import type { Finding } from '../util/finding.ts';
import { formatFraction } from '../util/fraction.ts';
import type { LineMap } from '../util/line-map.ts';

export const JSON_VERSION = 1;

/** With a line end; indented by two. */
export function lessonJson(worked: WorkedOut): string {
  const document = {
    version: JSON_VERSION,
    ...contentJson(worked),
    variants: worked.variants.map((variant) => ({
      name: variant.definition.name,
      ...contentJson(variant),
    })),
  };
  return `${JSON.stringify(document, null, 2)}\n`;
}

/** All but the variants: of a lesson, or of one of them. */
function contentJson(worked: WorkedOut) {
  const { lesson, score, findings, lines } = worked;
  return {
    title: lesson.title ?? null,
    settings: settingsJson(lesson),
    sections: lesson.sections.map((section, index) => sectionJson(section, score.sections[index])),
    form: lesson.form.map((index) => lesson.sections[index]?.name ?? null),
    passages: lesson.passages.map((passage) => passageJson(passage, worked)),
    practice: lesson.practice.map((step) => practiceJson(step, lesson)),
    findings: findings.map((finding) => findingJson(finding, lines)),
  };
}

function settingsJson({ settings }: Lesson) {
  const { instrument } = settings;
  return {
    key: formatKey(settings.key),
    meter: `${settings.meter.beats}/${settings.meter.unit}`,
    tempo: { beat: formatFraction(settings.tempo.beat), perMinute: settings.tempo.perMinute },
    tuning: instrument.tuning.strings.map(formatPitch),
    capo: instrument.capo ? { fret: instrument.capo.fret, strings: instrument.capo.strings ?? null } : null,
    hand: settings.hand,
    level: settings.level ?? null,
  };
}

const practiceJson = ({ title, tempi, minutes, section, first, last }: PracticeStep, { sections }: Lesson) => ({
  title,
  tempi,
  minutes: minutes ?? null,
  section: section === undefined ? null : sections[section].name,
  first: first ?? null,
  last: last ?? null,
});

function passageJson(passage: Passage, { lesson, score }: WorkedOut) {
  const { kind } = passage;
  if (kind === 'show') {
    const section = passage.section === undefined ? undefined : lesson.sections[passage.section];
    return {
      kind,
      section: section?.name ?? null,
      first: passage.first ?? null,
      last: passage.last ?? null,
      view: passage.view,
    };
  }
  const filled = filledProse(passage, lesson, score);
  return {
    kind,
    markdown: filled.text.markdown,
    facts: filled.text.braces.map(({ path, start, end }, i) => ({
      path,
      value: filled.facts[i].value ?? null,
      start,
      end,
    })),
    plain: proseText(filled, { width: Infinity, columns: (text) => text.length }),
  };
}

const sectionJson = (section: Section, score: SectionScore) => ({
  name: section.name,
  title: section.title ?? null,
  key: formatKey(section.plan.key),
  meter: `${section.plan.meter.beats}/${section.plan.meter.unit}`,
  difficulty: Math.round(score.difficulty * 10) / 10,
  bars: score.bars.map(barJson),
});

const barJson = (bar: BarScore) => ({
  number: bar.number,
  length: formatFraction(bar.length),
  broken: bar.broken,
  chords: bar.chords.map(chordJson),
  events: bar.events.map(eventJson),
});

function chordJson(chord: ChordScore) {
  const { voicing } = chord;
  return {
    symbol: chord.silent ? 'N.C.' : (chord.chord?.symbol ?? chord.written),
    start: formatFraction(chord.start),
    length: formatFraction(chord.length),
    sounding: voicing?.sounding[0] ?? null,
    names: voicing?.sounding ?? [],
    frets: voicing ? formatFretList(voicing.frets) : null,
    fingers: voicing?.fingering ? formatFretList(voicing.fingering.fingers) : null,
    notes: voicing?.strings.map((string) => formatPitch(string.pitch)) ?? [],
    intervals: voicing?.strings.map((string) => formatDegree(string.degree, '1')) ?? [],
    difficulty: voicing?.verdict.difficulty ?? null,
    zone: voicing?.verdict.zone ?? null,
  };
}

const eventJson = (event: NoteEvent) => ({
  start: formatFraction(event.start),
  length: formatFraction(event.length),
  ringing: formatFraction(event.ringing),
  string: event.string,
  fret: event.fret,
  note: formatPitch(event.pitch),
  midi: event.midi,
  voice: event.voice,
  finger: event.finger ?? null,
  pluck: event.pluck ?? null,
  stroke: event.stroke ?? null,
  accent: event.accent,
});

/** A finding as every JSON output of ours has it. */
export const findingJson = (finding: Finding, lines: LineMap) => ({
  code: finding.code,
  severity: finding.severity,
  message: finding.message,
  range: { start: lines.positionAt(finding.span.start), end: lines.positionAt(finding.span.end) },
});
