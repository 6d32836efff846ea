/** What a text says once nobody asks where: two layouts of one lesson have the same meaning. */
import { analyze, type Analysis } from '../../server/src/analyze.ts';
import { Source } from '../../server/src/lesson/reader.ts';

/** Slips that formatting may put right: an indent that was lost, a keyword in capitals. */
const MENDED = ['line-not-indented', 'misspelt-word'];

export interface Meaning {
  readonly lesson: unknown;
  readonly score: unknown;
  /** Codes and messages, in an order of their own: a chord's modifiers may have changed places. */
  readonly findings: readonly string[];
}

export function meaningOf(text: string): Meaning {
  const analysis = analyze(text);
  return {
    lesson: withoutPlaces(analysis.lesson),
    score: withoutPlaces(analysis.score),
    findings: findingsOf(analysis),
  };
}

/** A message may quote a line, blanks, capitals and all, and frets as they are written. */
const findingsOf = ({ text, findings }: Analysis): readonly string[] =>
  findings
    .filter(({ code, span, fixes }) => {
      if (!MENDED.includes(code)) return true;
      const right = fixes[0]?.edits[0]?.text ?? '';
      return code === 'misspelt-word' && right.toLowerCase() !== text.slice(span.start, span.end).toLowerCase();
    })
    .map(({ code, message }) => inOneSpelling(`${code}: ${message}`).toLowerCase())
    .sort();

/** The data alone, less offsets, lines and whatever is told of places. */
const withoutPlaces = (value: unknown): unknown =>
  JSON.parse(
    JSON.stringify(value, (name, inner: unknown) => {
      if (/(?:^s|S)pans?$/.test(name) || PLACES.has(name)) return undefined;
      // The words of a statement are not what it says but how it is written.
      if (inner instanceof Source || isTree(inner)) return undefined;
      if ((name === 'start' || name === 'end') && typeof inner === 'number') return undefined;
      return typeof inner === 'string' ? inOneSpelling(inner) : inner;
    }) ?? 'null',
  );

/** A line of a statement, or words of it that belong together. */
const isTree = (value: unknown): boolean =>
  typeof value === 'object' && value !== null && 'parts' in value && ('label' in value || 'keyword' in value);

/** Problems are compared as findings; an allowance stands at a line. */
const PLACES = new Set(['problems', 'allowed', 'modifiers', 'uses']);

const inOneSpelling = (text: string): string =>
  text
    .replaceAll('♯', '#')
    .replaceAll('♭', 'b')
    .replace(/\s+/g, ' ')
    .replace(/\b[xX\d](?:-[xX\d]){2,11}\b/g, (list) => list.toLowerCase().replaceAll('-', ''));
