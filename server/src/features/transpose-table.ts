/** What a lesson wins and loses in another key: the colours that open strings add to each chord, and the findings. */
import type { Analysis } from '../analyze.ts';
import type { ChordScore, Voicing } from '../realise/score.ts';
import { formatDegree } from '../theory/interval.ts';
import type { Finding } from '../util/finding.ts';
import { line, table, type Block } from './page.ts';

/** A chord as it is played in one of the two keys. */
export interface ColourSide {
  /** As written, `N.C.` among them. */
  readonly symbol: string;
  /** From the lowest string to the highest; undefined where nothing holds the chord. */
  readonly frets?: Voicing['frets'];
  /** Strings that ring open, from the lowest, with what each is to the chord: `3: 11`. */
  readonly open: readonly { readonly string: number; readonly degree: string }[];
  /** The name of what sounds, capo counted; undefined for silence. */
  readonly sounds?: string;
}

export interface ColourRow {
  readonly section: string;
  readonly bar: number;
  /** From 1, in its bar. */
  readonly chord: number;
  readonly before: ColourSide;
  readonly after: ColourSide;
  /** Degrees that the open strings add after and not before, in the order of the strings. */
  readonly won: readonly string[];
  readonly lost: readonly string[];
}

export interface ColourComparison {
  /** Every chord over which an open string rings in one of the keys, in the order of the text. */
  readonly rows: readonly ColourRow[];
  /** Findings that are not there before. */
  readonly arise: readonly Finding[];
  /** Findings that are no longer there after. */
  readonly vanish: readonly Finding[];
}

/** `before` and `after` are one lesson in two keys: the same sections, bars and chords. What only one of them has is passed over. */
export const compareColours = (before: Analysis, after: Analysis): ColourComparison => ({
  rows: colourRows(before, after),
  arise: missingIn(before, after),
  vanish: missingIn(after, before),
});

/** The same without the findings, which are dearer than the music. */
export function colourRows(before: Analysis, after: Analysis): readonly ColourRow[] {
  const rows: ColourRow[] = [];
  for (const [index, section] of before.lesson.sections.entries()) {
    const played = after.score.sections[index];
    for (const [barIndex, bar] of (before.score.sections[index]?.bars ?? []).entries()) {
      for (const [chordIndex, chord] of bar.chords.entries()) {
        const other = played?.bars[barIndex]?.chords[chordIndex];
        if (!other) continue;
        const [was, is] = [sideOf(chord), sideOf(other)];
        if (was.open.length === 0 && is.open.length === 0) continue;
        const [had, has] = [coloursOf(chord), coloursOf(other)];
        rows.push({
          section: section.name,
          bar: bar.number,
          chord: chordIndex + 1,
          before: was,
          after: is,
          won: has.filter((degree) => !had.includes(degree)),
          lost: had.filter((degree) => !has.includes(degree)),
        });
      }
    }
  }
  return rows;
}

function sideOf({ written, voicing }: ChordScore): ColourSide {
  const open = (voicing?.strings ?? []).filter(({ fret }) => fret === 0);
  return {
    symbol: written,
    ...(voicing && { frets: voicing.frets }),
    open: open.map(({ string, degree }) => ({ string, degree: formatDegree(degree, 'R') })),
    ...(voicing?.sounding[0] !== undefined && { sounds: voicing.sounding[0] }),
  };
}

/** What open strings add to the chord that it does not name, each once. */
const coloursOf = ({ voicing }: ChordScore): readonly string[] => [
  ...new Set(
    (voicing?.strings ?? [])
      .filter(({ fret, role }) => fret === 0 && role === 'colour')
      .map(({ degree }) => formatDegree(degree, 'R')),
  ),
];

/** The findings of `all` that `known` has not: first those of one line are taken for the same, then those of one code. */
function missingIn(known: Analysis, all: Analysis): readonly Finding[] {
  const place = ({ lines }: Analysis, { code, span }: Finding): string => `${code} ${lines.lineAt(span.start)}`;
  const left = without(
    all.findings,
    known.findings,
    (finding) => place(all, finding),
    (finding) => place(known, finding),
  );
  const others = without(
    known.findings,
    all.findings,
    (finding) => place(known, finding),
    (finding) => place(all, finding),
  );
  const code = (finding: Finding): string => finding.code;
  return without(left, others, code, code);
}

/** `from` less as many of each mark as `taken` has. */
function without(
  from: readonly Finding[],
  taken: readonly Finding[],
  markFrom: (finding: Finding) => string,
  markTaken: (finding: Finding) => string,
): readonly Finding[] {
  const counts = new Map<string, number>();
  for (const finding of taken) counts.set(markTaken(finding), (counts.get(markTaken(finding)) ?? 0) + 1);
  return from.filter((finding) => {
    const count = counts.get(markFrom(finding)) ?? 0;
    counts.set(markFrom(finding), count - 1);
    return count <= 0;
  });
}

/** The comparison as a page: a row for each chord whose open strings change, rows that say the same again left out. */
export function colourPage({ rows, arise, vanish }: ColourComparison): readonly Block[] {
  const said = new Set<string>();
  const shown = rows.flatMap((row) => {
    const { before, after, won, lost } = row;
    const cells = [
      before.symbol,
      openWords(before),
      before.sounds ?? '',
      after.symbol,
      openWords(after),
      after.sounds ?? '',
      won.join(' '),
      lost.join(' '),
    ];
    const mark = cells.join('|');
    if (said.has(mark)) return [];
    said.add(mark);
    return [[placeOf(row), ...cells]];
  });
  const head = ['bar', 'before', 'open', 'sounds', 'after', 'open', 'sounds', 'won', 'lost'];
  return [
    ...(shown.length > 0 ? [table(head, shown)] : [line('No open string rings, before or after.')]),
    ...findingLines('New', arise),
    ...findingLines('Gone', vanish),
  ];
}

const placeOf = ({ section, bar, chord }: ColourRow): string => `${section} ${bar}${chord > 1 ? `.${chord}` : ''}`;

const openWords = ({ open }: ColourSide): string => open.map(({ string, degree }) => `${string}: ${degree}`).join(', ');

/** Each message once: what is said of many bars is often the same. */
const findingLines = (what: string, findings: readonly Finding[]): readonly Block[] =>
  [...new Set(findings.map(({ severity, message }) => `${what}, ${severity}: ${message}`))].map((said) => line(said));
