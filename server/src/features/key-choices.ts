/** The other keys that a lesson can be taken to, and what its open strings win and lose in each. */
import type { Analysis } from '../analyze.ts';
import { keyWords } from '../draw/facts.ts';
import { soundingKey } from '../realise/sounding.ts';
import { counted, listed } from '../truth/words.ts';
import { formatKey, type Key } from '../theory/key.ts';
import { byCapo, capoFor, HIGHEST_USUAL_CAPO } from '../transpose/by-capo.ts';
import { keysNearby } from '../transpose/target-key.ts';
import { transposition, type Transposition } from '../transpose/transpose.ts';
import { compareColours, type ColourComparison, type ColourRow } from './transpose-table.ts';

export interface KeyChoice {
  /** What it does, as an order. */
  readonly title: string;
  readonly transposition: Transposition;
}

/** A key that has not been gone to yet. */
export interface OtherKey {
  /** The key as the lesson sounds in it, or as it is written in it. */
  readonly key: Key;
  readonly by: 'text' | 'capo';
  readonly title: string;
  transposition(): Transposition;
}

/** Of the same mode, the nearest first: those that the text is moved to, then those that a capo gives. None for a lesson without music. */
export function otherKeys({ document, lesson }: Analysis): readonly OtherKey[] {
  if (lesson.sections.length === 0 && lesson.progressions.length === 0) return [];
  const { key, instrument } = lesson.settings;
  const sounding = soundingKey(key, instrument);
  const moved = keysNearby(key).map((to): OtherKey => ({
    key: to,
    by: 'text',
    title: `Transpose to ${keyWords(to, instrument)}`,
    transposition: () => transposition(document, key, to, instrument),
  }));
  const capoed = keysNearby(sounding).flatMap((to): readonly OtherKey[] => {
    const fret = capoFor(key, to, instrument);
    if (fret === undefined || fret > HIGHEST_USUAL_CAPO) return [];
    const how = fret === 0 ? 'without the capo' : `with the capo on fret ${fret}`;
    const title = `Let it sound in ${formatKey(to)} ${how}`;
    return [{ key: to, by: 'capo', title, transposition: () => byCapo(document, key, to, instrument) }];
  });
  return [...moved, ...capoed];
}

/** The same, with all of them gone to. */
export const keyChoices = (analysis: Analysis): readonly KeyChoice[] =>
  otherKeys(analysis)
    .map(({ title, transposition: goTo }) => ({ title, transposition: goTo() }))
    .filter(({ transposition: { edits } }) => edits.length > 0);

/** More than these are no line any more: of degrees that are told, and of chords for each. */
const MOST_DEGREES = 2;
const MOST_CHORDS = 2;

/** `1 new error; wins 9 over A; loses 11 over D/Em`: the worst first, since a list shows no more than a line. `losses` stay in the old key. */
export function colourLine(before: Analysis, after: Analysis, losses: Transposition['losses']): string {
  const comparison = compareColours(before, after);
  const won = degreesOver(comparison.rows, 'won', 'after');
  const lost = degreesOver(comparison.rows, 'lost', 'before');
  const colours = [...(won === '' ? [] : [`wins ${won}`]), ...(lost === '' ? [] : [`loses ${lost}`])];
  const rings = comparison.rows.length > 0;
  const said = colours.length > 0 ? colours.join('; ') : rings ? 'no colour changes' : 'no open string rings';
  const left = losses.filter(({ kind }) => kind === 'neck' || kind === 'unread').length;
  return [...findingWords(comparison), ...(left > 0 ? [`${counted(left, 'part')} cannot move`] : []), said].join('; ');
}

function degreesOver(rows: readonly ColourRow[], which: 'won' | 'lost', side: 'before' | 'after'): string {
  const chords = new Map<string, Set<string>>();
  for (const row of rows)
    for (const degree of row[which]) chords.set(degree, (chords.get(degree) ?? new Set()).add(row[side].symbol));
  const told = [...chords]
    .slice(0, MOST_DEGREES)
    .map(([degree, symbols]) => `${degree} over ${chordWords([...symbols])}`);
  return listed(chords.size > MOST_DEGREES ? [...told, `${chords.size - MOST_DEGREES} more`] : told);
}

const chordWords = (symbols: readonly string[]): string =>
  symbols.length <= MOST_CHORDS ? symbols.join('/') : `${symbols.slice(0, MOST_CHORDS).join('/')}/…`;

function findingWords({ arise, vanish }: ColourComparison): readonly string[] {
  const errors = arise.filter(({ severity }) => severity === 'error').length;
  const more = arise.length - vanish.length;
  if (errors > 0) return [counted(errors, 'new error')];
  return more === 0 ? [] : [`${counted(Math.abs(more), 'finding')} ${more > 0 ? 'more' : 'less'}`];
}
