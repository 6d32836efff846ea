/** What a hover says of one note of a part: a pluck of a cell, a step of a contour, and what each becomes over the chords it meets. */
import type { Analysis } from '../analyze.ts';
import type { CellDefinition, CellNote, ContourDefinition, ContourNote, Pluck, Section } from '../lesson/lesson.ts';
import type { NoteEvent } from '../realise/score.ts';
import { aimsOf, type Aim } from '../realise/aims.ts';
import { onsetsOf, type Onset } from '../realise/picking.ts';
import { barAt, timelineOf } from '../realise/timeline.ts';
import { tempoWords } from '../draw/facts.ts';
import { chordsOf, type PlacedChord } from '../rules/shared/chords.ts';
import { counted, listed } from '../rules/shared/words.ts';
import { intervalWord } from '../theory/interval.ts';
import { formatPitch } from '../theory/note.ts';
import { equal, minus } from '../util/fraction.ts';
import { covers, type Span } from '../util/span.ts';
import { secondsOf } from './hover-settings.ts';
import { line, strong, table, type Block } from './page.ts';

/** A hover is a glance: so many chords are told apart. */
const MOST_ROWS = 6;

const FINGERS = { p: 'thumb', i: 'index', m: 'middle', a: 'ring', c: 'little' } as const;
const TARGETS = {
  bass: 'the lowest sounding string',
  alt: 'the second lowest sounding string',
  top: 'the highest sounding string',
} as const;

/** Undefined where no pluck and no step stands. */
export function notePage(analysis: Analysis, offset: number): { span: Span; page: Block[] } | undefined {
  const at = (span: Span): boolean => covers(span, offset);
  for (const definition of [...analysis.lesson.cells, ...analysis.lesson.contours]) {
    if (!at(definition.whole)) continue;
    const index = definition.noteSpans.findIndex(at);
    if (index < 0) continue;
    const span = definition.noteSpans[index];
    const words = analysis.text.slice(span.start, span.end);
    const page =
      definition.kind === 'cell'
        ? cellNoteBlocks(analysis, definition, index, words)
        : stepBlocks(analysis, definition, index, words);
    return { span, page };
  }
  return undefined;
}

function cellNoteBlocks(analysis: Analysis, { cell }: CellDefinition, index: number, words: string): Block[] {
  const note = cell.notes[index];
  if (!note) return [];
  const page = [line(strong(words), `: ${saysOf(note)}.`)];
  if (note.rest || (note.plucks.length === 0 && !note.stroke)) return page;
  const using = analysis.lesson.sections.filter(({ plan }) => plan.cells.includes(cell));
  if (cell.length.over > 0)
    for (const finger of fingersOf(note.plucks)) page.push(line(...ratesOf(cell.notes, finger)));
  const rows = using.flatMap((section) => soundsIn(analysis, section, section.plan.cells.indexOf(cell), index));
  return [...page, ...rowsOf(['over', 'string', 'fret', 'sounds', 'interval'], rows, 'No section plays it.')];

  /** `The index plucks 3 times in the cell: 1.4 a second in verse, quarter = 84.` */
  function ratesOf(notes: readonly CellNote[], finger: Pluck['finger']): string[] {
    const count = notes.reduce((sum, one) => sum + one.plucks.filter((pluck) => pluck.finger === finger).length, 0);
    const rate = ({ plan }: Pick<Section, 'plan'>): string =>
      `${(count / secondsOf(cell.length, plan.tempo)).toFixed(1)} a second`;
    const rates = using.map((section) => `${rate(section)} in ${section.name}, ${tempoWords(section.plan.tempo)}`);
    const times = `The ${FINGERS[finger]} plucks ${count === 1 ? 'once' : `${count} times`} in the cell`;
    return [times, rates.length > 0 ? `: ${rates.join('; ')}.` : '.'];
  }
}

const fingersOf = (plucks: readonly Pluck[]): readonly Pluck['finger'][] => [
  ...new Set(plucks.map(({ finger }) => finger)),
];

function saysOf({ plucks, stroke, rest, accent }: CellNote): string {
  if (rest) return 'a rest: silence';
  const says = plucks.map(
    ({ finger, target }) =>
      `${FINGERS[finger]} on ${typeof target === 'number' ? `string ${target}` : TARGETS[target]}`,
  );
  if (stroke) {
    const over = stroke.from === undefined ? '' : ` from string ${stroke.from} to ${stroke.to ?? stroke.from}`;
    says.push({ down: 'a stroke down', up: 'a stroke up', roll: 'a roll', mute: 'a muted stroke' }[stroke.kind] + over);
  }
  if (says.length === 0) return 'nothing new: what sounds rings on';
  return listed(says) + (accent ? ', with an accent' : '');
}

/** A row for each string that the moment sounds over each chord; strings that stay silent are rows as well. */
function soundsIn(analysis: Analysis, section: Section, cell: number, index: number): string[][] {
  const { plan } = section;
  const timeline = timelineOf(plan);
  const onsets = onsetsOf(plan, timeline);
  const chords = new Map(chordsOf(analysis).map((chord) => [chord.plan, chord]));
  const bars = analysis.score.sections[analysis.lesson.sections.indexOf(section)]?.bars ?? [];
  return timeline.chords.flatMap((place, at) => {
    const chord = chords.get(place.plan);
    const onset = onsets[at].find((one) => one.cell === cell && one.index === index);
    if (!chord?.voicing || !onset) return [];
    const bar = barAt(timeline, onset.start);
    const start = minus(onset.start, timeline.bars[bar]);
    const events = bars[bar]?.events.filter((event) => equal(event.start, start)) ?? [];
    return aimsOver(chord, onset).map(({ string }) => {
      const event = events.find((one) => one.string === string);
      return [place.plan.written, string === undefined ? 'none' : `${string}`, ...heard(event)];
    });
  });
}

const aimsOver = ({ voicing, plan }: PlacedChord, onset: Onset): readonly Aim[] =>
  aimsOf(onset, voicing?.strings ?? [], plan.bassStrings);

function heard(event: NoteEvent | undefined): string[] {
  if (!event) return ['', 'silent', ''];
  const melody = event.voice === 'melody' ? ' (melody)' : '';
  return [`${event.fret}`, formatPitch(event.pitch) + melody, event.degree ? intervalWord(event.degree) : ''];
}

function stepBlocks(analysis: Analysis, { contour }: ContourDefinition, index: number, words: string): Block[] {
  const note = contour.notes[index];
  if (!note) return [];
  const page = [line(strong(words), `: ${stepSays(note)}.`)];
  if (note.kind === 'hold' || note.kind === 'rest') return page;
  const isPlayed = ({ kind }: ContourNote): boolean => kind === 'step' || kind === 'tone';
  // Only notes that are struck have a fret of their own.
  const turn = contour.notes.slice(0, index).filter(isPlayed).length;
  const rows = chordsOf(analysis).flatMap(({ section, bar, played, barPlayed }) => {
    const outcome = played.contour;
    if (bar.contour === undefined || section.plan.contours[bar.contour] !== contour || !outcome) return [];
    const isLost = outcome.start < 0 || (outcome.unreachable !== undefined && index >= outcome.unreachable);
    const fret = isLost ? undefined : outcome.frets[turn];
    if (fret === undefined) return [[played.written, '', '', isLost ? 'out of reach' : 'cut', '']];
    const event = barPlayed.events.find(
      (one) => one.voice === 'melody' && one.string === outcome.string && one.fret === fret,
    );
    const sounds = event ? heard({ ...event, voice: 'picking' }).slice(1) : ['', ''];
    return [[played.written, `${outcome.string}`, `${fret}`, ...sounds]];
  });
  return [...page, ...rowsOf(['over', 'string', 'fret', 'sounds', 'interval'], rows, 'No section plays it.')];
}

function stepSays(note: ContourNote): string {
  switch (note.kind) {
    case 'hold':
      return 'nothing new: the note rings on';
    case 'rest':
      return 'a rest: silence';
    case 'tone':
      return `the nearest ${note.tone.text === 'R' ? 'root' : note.tone.text} of the chord`;
    case 'step': {
      const bent = note.bend === 0 ? '' : note.bend > 0 ? ', a semitone higher' : ', a semitone lower';
      if (note.steps === 0) return `the tone that the contour starts on${bent}`;
      const way = note.steps > 0 ? 'above' : 'below';
      return `${counted(Math.abs(note.steps), 'step')} of the scale ${way} the start${bent}`;
    }
  }
}

/** Equal rows are one; beyond a few it is said how many more there are. */
function rowsOf(head: readonly string[], rows: readonly (readonly string[])[], none: string): Block[] {
  if (rows.length === 0) return [line(none)];
  const distinct = [...new Map(rows.map((row) => [row.join(' '), row])).values()];
  const shown = table(head, distinct.slice(0, MOST_ROWS));
  return distinct.length <= MOST_ROWS ? [shown] : [shown, line(`And ${distinct.length - MOST_ROWS} more.`)];
}
