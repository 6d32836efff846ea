/** A pattern as people read it: `capo FRET [on STRING …]`. What may be left out stands in brackets, what comes again has dots. */
import type { Pattern } from './patterns.ts';
import type { LineForm, StatementForm } from './statements.ts';
import type { Span } from '../util/span.ts';

/** Of a statement's first line: one for each way of saying it. */
export const signaturesOf = ({ keyword, head }: Pick<StatementForm, 'keyword' | 'head'>): readonly string[] =>
  waysOf(head).map((way) => joined([keyword, ...way.map(written)]));

/** Of a line of its body: one for each way of saying it. */
export const lineSignatures = ({ keyword, pattern }: Pick<LineForm, 'keyword' | 'pattern'>): readonly string[] =>
  waysOf(pattern).map((way) => joined([keyword ?? '', ...way.map(written)]));

/** One way of saying a line, as the row of what stands behind one another in it. */
export type Way = readonly Pattern[];

/** Ways that have nothing but their keyword in common are told apart. */
export function waysOf(pattern: Pattern): readonly Way[] {
  if (pattern.is === 'either') return pattern.of.flatMap(waysOf);
  if (pattern.is === 'group') return waysOf(pattern.of);
  if (pattern.is !== 'sequence' || pattern.of.length === 0) return [[pattern]];
  const [first, ...rest] = pattern.of;
  const ways = first.is === 'either' || first.is === 'group' || first.is === 'sequence' ? waysOf(first) : [[first]];
  return ways.map((way) => [...way, ...rest]);
}

/** The same with every choice on the way made, as far as one row tells it: what may be left out stays a piece. */
export function everyWay(pattern: Pattern): readonly Way[] {
  switch (pattern.is) {
    case 'either':
      return pattern.of.flatMap(everyWay);
    case 'group':
      return everyWay(pattern.of);
    case 'sequence':
      return pattern.of.reduce<readonly Way[]>(
        (ways, next) => everyWay(next).flatMap((end) => ways.map((way) => [...way, ...end])),
        [[]],
      );
    default:
      return [[pattern]];
  }
}

/** What of a signature each piece of its way takes; nothing is taken by a piece without words. */
export interface WrittenWay {
  readonly text: string;
  /** Parallel to the way: where each piece stands in `text`. */
  readonly pieces: readonly Span[];
}

export function writtenWay(keyword: string | undefined, way: Way): WrittenWay {
  const text = joined([keyword ?? '', ...way.map(written)]);
  let end = keyword?.length ?? 0;
  const pieces = way.map((pattern) => {
    const piece = joined([written(pattern)]);
    const start = Math.max(text.indexOf(piece, end), end);
    end = start + piece.length;
    return { start, end };
  });
  return { text, pieces };
}

/** `first`, `last` and the like are what a pattern calls its slots; the trade's own words stand for themselves. */
const slotName = (label: string): string => label.toUpperCase();

function written(pattern: Pattern): string {
  switch (pattern.is) {
    case 'word':
      return pattern.word;
    case 'choice':
      return oneOf(pattern.words);
    case 'slot':
      return slotName(pattern.label);
    case 'mark':
      return { comma: ',', colon: ':', bar: '|' }[pattern.kind];
    case 'optional':
      return bracketed(written(pattern.of));
    case 'group':
      return written(pattern.of);
    case 'sequence':
      return joined(pattern.of.map(written));
    case 'anyOrder':
      return joined(pattern.of.map((inner) => bracketed(written(inner))));
    case 'either':
      return oneOf(pattern.of.map(written));
    case 'repeat': {
      const music = musicIn(pattern.of);
      if (music) return `${music} …, in bars`;
      const once = written(pattern.of);
      const again = pattern.between ? `${once}${written(pattern.between)} …` : `${once} …`;
      return pattern.least === 0 ? bracketed(again) : again;
    }
  }
}

const joined = (pieces: readonly string[]): string =>
  pieces
    .filter((piece) => piece !== '')
    .join(' ')
    .replaceAll(' ,', ',')
    .replaceAll(' :', ':')
    .replaceAll('triplet( ', 'triplet(')
    .replaceAll(' )', ')');

const oneOf = (ways: readonly string[]): string => {
  const distinct = [...new Set(ways)].flatMap((way) => /^\{(.*)\}$/.exec(way)?.[1] ?? way);
  return distinct.length === 1 ? distinct[0] : `{${distinct.join(' or ')}}`;
};

const bracketed = (piece: string): string => {
  if (piece === '' || piece.startsWith('[')) return piece;
  // Brackets hold the ways together as well as braces would.
  const inner = /^\{([^{}]*)\}$/.exec(piece)?.[1] ?? piece;
  return `[${inner}]`;
};

/** What stands between the bar lines of a line that has them. */
function musicIn(pattern: Pattern): string | undefined {
  if (pattern.is !== 'either' || !pattern.of.some((way) => way.is === 'mark' && way.kind === 'bar')) return undefined;
  // Commas and colons may stand in words that are sung; nobody needs to be told.
  return oneOf(pattern.of.filter((way) => way.is !== 'mark').map(written));
}
