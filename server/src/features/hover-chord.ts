/** What a hover says of one chord: what it sounds, string by string, how it is held, and what else it might have been. */
import type { Analysis } from '../analyze.ts';
import type { ChordPlan, Section, Settings } from '../lesson/lesson.ts';
import type { ChordScore, Role, Voicing } from '../realise/score.ts';
import { difficultyWord } from '../draw/facts.ts';
import { textDiagram } from '../draw/text-diagram.ts';
import { formatFretList } from '../fretboard/frets.ts';
import { fingerName, counted, listed } from '../rules/shared/words.ts';
import { parseChord, type Chord } from '../theory/chord.ts';
import { formatDegree, intervalWord } from '../theory/interval.ts';
import { formatKey } from '../theory/key.ts';
import { formatNoteName, formatPitch } from '../theory/note.ts';
import { looksLikeNumeral } from '../theory/numeral.ts';
import { code, figure, line, strong, table, type Block, type Words } from './page.ts';
import type { ChordAddress, Place } from './place.ts';

/** So many further places of the same chord are told apart; a long piece has more than anybody reads. */
const MOST_OTHERS = 4;
const OTHER_NAMES = 3;

interface Played {
  readonly section: Section;
  readonly bar: number;
  readonly plan: ChordPlan;
  readonly score: ChordScore;
  /** `as x79900` stands behind the chord. */
  readonly pinned: boolean;
}

/** Undefined where no chord can be read. */
export function chordPage(
  analysis: Analysis,
  { played, symbolSpan }: NonNullable<Place['chord']>,
): Block[] | undefined {
  const all = played.flatMap((address) => playedAt(analysis, address) ?? []);
  const [first, ...others] = all;
  if (!first) {
    const chord = parseChord(analysis.text.slice(symbolSpan.start, symbolSpan.end));
    return chord && [line(strong(chord.symbol), `: ${tonesOf(chord)}`), line('No section plays it.')];
  }
  const { score } = first;
  if (score.silent) return [line(strong('N.C.'), ': no chord; what is held is let go.')];
  if (!score.chord) return undefined;
  const page: Block[] = [titleOf(first)];
  page.push(line(placed(first), ...howItIsChosen(first), '.'));
  if (score.voicing) page.push(...voicingBlocks(analysis.lesson.settings, score, score.voicing));
  else page.push(line(whyNone(score)), line(`${score.chord.symbol}: ${tonesOf(score.chord)}`));
  const elsewhere = others.filter((other) => fretsOf(other.score) !== fretsOf(score)).slice(0, MOST_OTHERS);
  for (const other of elsewhere)
    page.push(line(placed(other), ': ', code(fretsOf(other.score)), soundingWords(other.score)));
  return page;
}

function playedAt({ lesson, score }: Analysis, address: ChordAddress): Played | undefined {
  const section = lesson.sections[address.section];
  const plan = section.plan.bars[address.bar]?.chords[address.chord];
  const played = score.sections[address.section]?.bars[address.bar]?.chords[address.chord];
  if (!plan || !played) return undefined;
  const pinned = section.places[address.bar]?.chords[address.chord]?.modifiers.as !== undefined;
  return { section, bar: section.plan.bars[address.bar].number, plan, score: played, pinned };
}

/** **D** sounds **Dadd11/F#**; a numeral says which chord it is; with a capo, what the shape is called too. */
function titleOf({ score, section }: Played): Block {
  const words: Words[] = [strong(score.written)];
  const { chord, voicing } = score;
  if (chord && looksLikeNumeral(score.written))
    words.push(' is ', strong(chord.symbol), ` in ${formatKey(section.plan.key)}`);
  const sounding = voicing?.sounding[0];
  if (voicing && sounding !== undefined) {
    words.push(
      words.length > 1 ? ', sounds ' : ' sounds ',
      ...(sounding === score.written ? ['as written'] : [strong(sounding)]),
    );
    const shape = voicing.shapeNames[0];
    if (shape !== undefined && shape !== sounding) words.push(', in the shape of ', strong(shape));
    const also = voicing.sounding.slice(1, 1 + OTHER_NAMES);
    if (also.length > 0) words.push(` (also ${also.join(', ')})`);
  }
  return line(...words);
}

const placed = ({ section, bar }: Played): string => `Bar ${bar} of ${section.name}`;

function howItIsChosen({ plan, section, pinned }: Played): readonly Words[] {
  const words: Words[] = [];
  const rule = plan.rule === undefined ? undefined : section.plan.rules[plan.rule];
  if (rule) words.push(', shape ', code(rule.name));
  else if (plan.frets) words.push(pinned ? ', exactly these frets' : ', a grip of the lesson');
  if (plan.lowestFret !== undefined) words.push(`, at fret ${plan.lowestFret}`);
  return words;
}

function voicingBlocks({ hand, instrument }: Settings, score: ChordScore, voicing: Voicing): Block[] {
  const rows = voicing.strings.map((one) => [
    `${one.string}`,
    `${one.fret}`,
    one.fret === 0 ? 'open' : `${one.finger || '?'}`,
    formatPitch(one.pitch),
    intervalWord(one.degree),
    one.role,
  ]);
  const page: Block[] = [table(['string', 'fret', 'finger', 'note', 'interval', 'role'], rows)];
  const open = openWords(voicing);
  if (open !== '') page.push(line(open));
  const clashes = voicing.clashes.map(
    ({ open: one, against }) =>
      `${formatPitch(one.pitch)} on the open string ${one.string} rubs against ${formatPitch(against.pitch)} on string ${against.string}.`,
  );
  if (clashes.length > 0) page.push(line(clashes.join(' ')));
  page.push(figure(textDiagram(voicing.frets, voicing.fingering?.fingers, instrument)));
  page.push(line(handWords(voicing, hand), choiceWords(score)));
  return page;
}

const OPEN_VERBS: Readonly<Record<Role, readonly [one: string, several: string]>> = {
  colour: ['adds', 'add'],
  doubling: ['doubles', 'double'],
  'chord tone': ['sounds', 'sound'],
  root: ['sounds', 'sound'],
};

/** `Open string 3 adds the eleventh. Open strings 4 and 1 double the fifth.`: the colours first. */
function openWords(voicing: Voicing): string {
  const open = voicing.strings.filter((one) => one.fret === 0);
  const sentences: string[] = [];
  for (const [role, verbs] of Object.entries(OPEN_VERBS)) {
    const intervals = [...new Set(open.filter((one) => one.role === role).map((one) => intervalWord(one.degree)))];
    for (const interval of intervals) {
      const strings = open.filter((one) => one.role === role && intervalWord(one.degree) === interval);
      const numbers = listed(strings.map((one) => `${one.string}`));
      const [noun, verb] = strings.length === 1 ? ['string', verbs[0]] : ['strings', verbs[1]];
      sentences.push(`Open ${noun} ${numbers} ${verb} the ${interval}.`);
    }
  }
  return sentences.join(' ');
}

function handWords({ verdict }: Voicing, hand: string): string {
  if (!verdict.playable) return `No ${hand} hand can hold it.`;
  const difficulty = `Difficulty ${verdict.difficulty.toFixed(1)} of 10, ${difficultyWord(verdict.difficulty)}`;
  const { widest, zone } = verdict;
  const reach =
    zone === 'comfortable' ? 'a comfortable reach' : zone === 'stretch' ? 'a stretch' : 'an extreme stretch';
  const pair =
    widest && zone !== 'comfortable'
      ? ` (${listed(widest.fingers.map((finger, i) => `${fingerName(finger)} at fret ${widest.frets[i]}`))}, ${widest.millimetres} mm)`
      : '';
  return `${difficulty}; ${reach} for a ${hand} hand${pair}.`;
}

function choiceWords({ choices, searchCut }: ChordScore): string {
  if (choices === undefined) return '';
  if (choices === 1 && !searchCut) return ' It is the only voicing of the shape.';
  return ` ${searchCut ? 'At least ' : ''}${counted(choices, 'voicing')} to choose from.`;
}

/** What excluded the last voicing, in the author's own words for the rule's lines. */
function whyNone({ none }: ChordScore): string {
  if (!none) return 'It has no shape that can be played.';
  const nearest = none.nearest ? ` The nearest is ${formatFretList(none.nearest)}.` : '';
  if (none.line === 'hand') return `No voicing: no hand can hold any of ${none.before}.${nearest}`;
  return `No voicing: \`${none.line}\` excludes the last of ${none.before}.${nearest}`;
}

const fretsOf = ({ voicing }: ChordScore): string => (voicing ? formatFretList(voicing.frets) : 'no voicing');

const soundingWords = ({ voicing }: ChordScore): string =>
  voicing?.sounding[0] ? `, sounds ${voicing.sounding[0]}` : '';

/** `D F# A: root, major third, fifth`, as the symbol has them. */
function tonesOf(chord: Chord): string {
  const names = chord.tones.map((tone) => formatNoteName(tone.name)).join(' ');
  return `${names} (${chord.tones.map((tone) => formatDegree(tone.degree, 'R')).join(' ')})`;
}
