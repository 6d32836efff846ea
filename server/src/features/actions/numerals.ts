/** Writes symbols as numerals of the key, and numerals as symbols: for one chord or for all of a progression. */
import type { Analysis } from '../../analyze.ts';
import type { ProgressionDefinition } from '../../lesson/lesson.ts';
import type { Progression } from '../../lesson/progressions.ts';
import { counted } from '../../rules/shared/words.ts';
import { parseChord, type Chord } from '../../theory/chord.ts';
import { formatKey, type Key } from '../../theory/key.ts';
import { looksLikeNumeral, parseNumeral } from '../../theory/numeral.ts';
import type { Edit } from '../../util/finding.ts';
import { refusal, type Action, type Actions, type Asked } from './action.ts';
import { chordsWritten, progressionAt, type WrittenOut } from './chord-places.ts';
import { asNumeral, asSymbol } from './written-symbol.ts';

const KIND = 'refactor.rewrite.symbol';

export const numerals: Actions = { kind: KIND, at: ({ analysis, place }) => numeralActions(analysis, place) };

function numeralActions(analysis: Analysis, place: Asked['place']): readonly Action[] {
  const progression = progressionAt(analysis, place);
  if (!progression) return [];
  const chords = chordsWritten(analysis, progression);
  const key = keyOf(analysis, progression);
  const one = chords.find((chord) => chord.place.span.start === place.chord?.span.start);
  if (key === 'several') {
    if (chords.length === 0) return [];
    const title = `Write ${progression.name} in ${chords.some(isNumeral) ? 'symbols' : 'numerals'}`;
    return [
      refusal('numerals', KIND, title, 'Sections play it in several keys: a numeral means another chord in each.'),
    ];
  }
  return [...(one ? ofChord(analysis, one, key) : []), ...ofAll(analysis, progression, chords, key)];
}

function ofChord(analysis: Analysis, one: WrittenOut, key: Key): readonly Action[] {
  const chord = chordOf(one, key);
  if (!chord) return [];
  const edits = editsFor(analysis, one, chord, key);
  const [id, title] = isNumeral(one)
    ? ['symbol', `Write ${one.symbol} as ${chord.symbol}`]
    : ['numeral', `Write ${one.symbol} as ${edits?.[0].text ?? 'a numeral'}`];
  if (!edits) return [refusal(id, KIND, title, `No numeral of ${formatKey(key)} says ${one.symbol}.`)];
  return [{ id, kind: KIND, title, carryOut: () => ({ edits }) }];
}

function ofAll(
  analysis: Analysis,
  { name }: ProgressionDefinition,
  chords: readonly WrittenOut[],
  key: Key,
): readonly Action[] {
  const all: Action[] = [];
  const add = (id: string, words: string, which: readonly WrittenOut[]): void => {
    if (which.length === 0) return;
    const title = `Write ${name} in ${words} (${counted(which.length, 'chord')})`;
    const edits = (): readonly Edit[] =>
      which.flatMap((one) => {
        const chord = chordOf(one, key);
        return (chord && editsFor(analysis, one, chord, key)) ?? [];
      });
    all.push({ id, kind: KIND, title, carryOut: () => ({ edits: edits() }) });
  };
  add(
    'all-numerals',
    `numerals of ${formatKey(key)}`,
    chords.filter((one) => !isNumeral(one)),
  );
  add('all-symbols', 'symbols', chords.filter(isNumeral));
  return all;
}

const isNumeral = ({ symbol }: WrittenOut): boolean => looksLikeNumeral(symbol);

const editsFor = (analysis: Analysis, one: WrittenOut, chord: Chord, key: Key): readonly Edit[] | undefined =>
  isNumeral(one) ? asSymbol(chord, one.place, analysis.text) : asNumeral(chord, key, one.place);

function chordOf({ symbol, here }: WrittenOut, key: Key): Chord | undefined {
  if (here) return here.plan.chord;
  return looksLikeNumeral(symbol) ? parseNumeral(symbol, key) : parseChord(symbol);
}

/** What its numerals count from: its own key, or that of the sections that play it, or the lesson's. */
function keyOf({ lesson }: Analysis, progression: ProgressionDefinition): Key | 'several' {
  const { key } = progression as Progression;
  if (key) return key;
  const keys = new Map<string, Key>();
  for (const { places, plan } of lesson.sections) {
    const first = places.find(({ chords }) => chords.length > 0 && within(progression, chords[0].span.start));
    if (first) keys.set(formatKey(plan.key), plan.key);
  }
  const [one, ...others] = keys.values();
  return others.length > 0 ? 'several' : (one ?? lesson.settings.key);
}

const within = ({ whole }: ProgressionDefinition, offset: number): boolean =>
  whole.start <= offset && offset < whole.end;
