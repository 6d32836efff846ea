/** What each word of a lesson is, for editors that colour by meaning: names by what they lead to, all else by its place. */
import type { Analysis } from '../analyze.ts';
import { BUILT_IN_NAMES } from '../lesson/chord-plans.ts';
import type { Span } from '../util/span.ts';
import { definitionsOf } from './place.ts';
import { wordsOfStatement, type TokenType } from './semantic-words.ts';

export const TOKEN_MODIFIERS = ['declaration', 'defaultLibrary'] as const;

export type TokenModifier = (typeof TOKEN_MODIFIERS)[number];

export interface SemanticToken extends Span {
  readonly type: TokenType;
  /** `declaration`: the name is given here; `defaultLibrary`: it is built in. */
  readonly modifier?: TokenModifier;
}

/**
 * Those that lie in `span` or touch it, in the order of the text, each within one line. A name that nobody gave is a `variable`,
 * as is one of a file that has not come yet. The music is not worked out for it.
 */
export function semanticTokensIn(analysis: Analysis, span: Span): readonly SemanticToken[] {
  const tokens: SemanticToken[] = [];
  let names: ReadonlyMap<number, NameToken> | undefined;
  for (const { tree, start } of analysis.document.statements) {
    if (start > span.end) break;
    if (start + tree.text.length < span.start) continue;
    for (const word of wordsOfStatement(tree)) {
      const place = { start: start + word.start, end: start + word.end };
      if (place.end < span.start || place.start > span.end) continue;
      if (word.type !== 'name') tokens.push({ ...place, type: word.type });
      else {
        names ??= namesOf(analysis);
        tokens.push({ ...place, ...(names.get(place.start) ?? UNKNOWN) });
      }
    }
  }
  return tokens;
}

type NameToken = Omit<SemanticToken, keyof Span>;

const UNKNOWN: NameToken = { type: 'variable' };
const USED: NameToken = { type: 'function' };
const GIVEN: NameToken = { type: 'function', modifier: 'declaration' };
const BUILT_IN: NameToken = { type: 'function', modifier: 'defaultLibrary' };

/** By where they stand: names that are given, and those that lead somewhere. */
function namesOf(analysis: Analysis): ReadonlyMap<number, NameToken> {
  const { uses, imports } = analysis.lesson;
  const names = new Map<number, NameToken>();
  for (const { kind, name, span, definition } of uses) {
    if (definition) names.set(span.start, USED);
    else if (kind === 'shape' && BUILT_IN_NAMES.includes(name)) names.set(span.start, BUILT_IN);
  }
  for (const { names: called, brought } of imports)
    for (const { name, span } of called) if (brought.some((part) => part.name === name)) names.set(span.start, USED);
  for (const { span, from } of definitionsOf(analysis)) if (!from) names.set(span.start, GIVEN);
  return names;
}
