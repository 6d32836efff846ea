/** The open-string map: a section's chords down, the open strings across, and what each string would be to each chord. */
import type { Analysis } from '../analyze.ts';
import { intervalWord, formatDegree } from '../theory/interval.ts';
import { formatNoteName } from '../theory/note.ts';
import { spokenChord } from '../draw/spoken.ts';
import { escaped } from '../draw/svg.ts';
import { formatFretList, indexOfString, type FretList } from '../fretboard/frets.ts';
import { stringCount } from '../fretboard/instrument.ts';
import type { Clash, Voicing } from '../realise/score.ts';
import { exactVoicing } from '../realise/voicings.ts';
import { openLineWith } from './chord-change.ts';
import { block, type OpenPanel } from './preview-block.ts';
import { symbolOf } from './preview-music.ts';
import { cacheFor, chordHere, said, type ChordHere } from './preview-chord.ts';
import { namesOf } from './preview-places.ts';

/** A section with more different chords is read in parts. */
const MOST_ROWS = 24;
/** A string alone is no shape. */
const FEWEST_SOUNDING = 2;

/** Of the section with this index, or else of the first that has shapes. */
export function openStringsPanel(analysis: Analysis, section: number | undefined): OpenPanel {
  const { lesson } = analysis;
  const index = section ?? lesson.sections.findIndex((_, each) => rowsOf(analysis, each).length > 0);
  const rows = index < 0 ? [] : rowsOf(analysis, index);
  const named = lesson.sections[index];
  const title = named ? `Open strings over ${named.title ?? named.name}` : 'Open strings';
  if (rows.length === 0)
    return {
      kind: 'open-strings',
      title,
      blocks: [said('open', 'No shape is held here that a string could ring beside.')],
    };
  const { instrument } = lesson.settings;
  const strings = Array.from({ length: stringCount(instrument) }, (_, each) => stringCount(instrument) - each);
  const heads = strings.map((string) => {
    const note = instrument.tuning.strings[indexOfString(string, strings.length)];
    return `<th scope="col">${string} · ${escaped(formatNoteName(note))}</th>`;
  });
  const name = namesOf(lesson)[index];
  const lines = rows.map((row, at) => {
    const cells = strings.map((string) => cellOf(analysis, row, string, `${name}.${row.bar.number}`, at));
    return `<tr><th scope="row">${escaped(symbolOf(row.score))}</th>${cells.join('')}</tr>`;
  });
  const table =
    `<table class="open-strings"><thead><tr><th scope="col">over</th>${heads.join('')}</tr></thead>` +
    `<tbody>${lines.join('')}</tbody></table>`;
  const key =
    '<p class="quiet">What each open string is to the chord. <span class="adds">9 → Gadd9</span> adds a colour, ' +
    '<span class="rub">⌇</span> rubs against a note beside it.</p>';
  return {
    kind: 'open-strings',
    title,
    blocks: [block('panel/open-strings', table), block('panel/open-strings/key', key)],
  };
}

/** The section's chords with a shape, each symbol and shape once, where it is first played. */
function rowsOf(analysis: Analysis, section: number): readonly ChordHere[] {
  const rows = new Map<string, ChordHere>();
  const bars = analysis.score.sections[section]?.bars ?? [];
  bars.forEach(({ chords }, bar) =>
    chords.forEach(({ voicing }, chord) => {
      const here = voicing && rows.size < MOST_ROWS ? chordHere(analysis, { section, bar, chord }) : undefined;
      const key = here && `${symbolOf(here.score)} ${formatFretList(voicing!.frets)}`;
      if (key !== undefined && here!.plan.chord && !rows.has(key)) rows.set(key, here!);
    }),
  );
  return [...rows.values()];
}

function cellOf(analysis: Analysis, here: ChordHere, string: number, bar: string, row: number): string {
  const { lesson } = analysis;
  const { section, plan, address } = here;
  const voicing = here.score.voicing!;
  const index = indexOfString(string, voicing.frets.length);
  const rings = voicing.frets[index] === 0;
  const frets = replaced(voicing.frets, index, 0);
  const cache = cacheFor(analysis, address.section);
  const exact = exactVoicing(plan.chord!, frets, undefined, section.plan.key, lesson.settings, cache);
  const opened = exact?.voicingOf(exact.states[0]);
  const sounding = opened?.strings.find((one) => one.string === string);
  if (!opened || !sounding) return '<td></td>';
  const degree = formatDegree(sounding.degree, 'R');
  const clash = opened.clashes.find(({ open, against }) => open.string === string || against.string === string);
  const adds = sounding.role === 'colour';
  const name = opened.sounding[0];
  const change = rings ? replaced(voicing.frets, index, null) : frets;
  const isShape = change.filter((fret) => fret !== null).length >= FEWEST_SOUNDING;
  const everywhere = openLineWith(analysis, here, string, !rings);
  const data = [
    `data-key="${row}.${string}" data-bar="${escaped(bar)}" data-chord="${address.chord}" data-string="${string}"`,
    `data-rings="${rings}"`,
    ...(isShape && (rings || opened.verdict.playable) ? [`data-frets="${escaped(formatFretList(change))}"`] : []),
    ...(everywhere ? [`data-line="${escaped(everywhere.line)}" data-shape="${escaped(everywhere.shape)}"`] : []),
  ].join(' ');
  const says = wordsOf(here, string, rings, voicing.frets[index], intervalWord(sounding.degree), name, clash, opened);
  const text = `${degree}${adds && !rings && name !== undefined ? ` → ${name}` : ''}${rings ? ' · rings' : ''}${clash ? ' ⌇' : ''}`;
  const look = clash ? 'rub' : adds ? 'adds' : 'same';
  return `<td><button type="button" class="cell ${look}" ${data} aria-label="${escaped(says)}">${escaped(text)}</button></td>`;
}

const replaced = (frets: FretList, index: number, fret: number | null): FretList =>
  frets.map((own, at) => (at === index ? fret : own));

/** `String 1 open over G: sixth. It would sound G 6. Its finger would leave fret ten.` */
function wordsOf(
  { score }: ChordHere,
  string: number,
  rings: boolean,
  fret: number | null,
  interval: string,
  name: string | undefined,
  clash: Clash | undefined,
  opened: Voicing,
): string {
  const parts = [`String ${string} open over ${spokenChord(symbolOf(score))}: ${interval}`];
  if (rings) parts.push('it rings already');
  else if (name !== undefined) parts.push(`the chord would sound ${spokenChord(name)}`);
  if (!rings && fret !== null) parts.push(`the finger at fret ${fret} would leave the string`);
  if (clash) {
    const other = clash.open.string === string ? clash.against : clash.open;
    parts.push(`it rubs against the ${intervalWord(other.degree)} on string ${other.string}`);
  }
  if (!rings && !opened.verdict.playable) parts.push('no hand could hold the rest');
  return `${parts.join('; ')}.`;
}
