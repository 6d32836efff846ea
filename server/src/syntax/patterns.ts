/** Patterns of words, and their matching: the means by which the table of statements is grammar, completion and message. */
import type { Word } from './words.ts';
import type { Group, Leaf, Part } from './tree.ts';
import { slotKinds, type SlotForm, type SlotKind } from './slots.ts';

export type Pattern =
  | { readonly is: 'word'; readonly word: string; readonly label?: string }
  | { readonly is: 'choice'; readonly label: string; readonly words: readonly string[] }
  | { readonly is: 'slot'; readonly label: string; readonly kind: SlotKind }
  | { readonly is: 'mark'; readonly kind: 'comma' | 'colon' | 'bar'; readonly label?: string }
  | { readonly is: 'sequence'; readonly of: readonly Pattern[] }
  | { readonly is: 'optional'; readonly of: Pattern }
  | { readonly is: 'either'; readonly of: readonly Pattern[] }
  | { readonly is: 'repeat'; readonly of: Pattern; readonly least: number; readonly between?: Pattern }
  | { readonly is: 'anyOrder'; readonly of: readonly Pattern[] }
  | { readonly is: 'group'; readonly label: string; readonly of: Pattern };

/** A keyword; with a label it is also kept in the tree. */
export const word = (text: string, label?: string): Pattern => ({ is: 'word', word: text, label });
/** One of several words, kept in the tree under `label`. */
export const choice = (label: string, ...words: readonly string[]): Pattern => ({ is: 'choice', label, words });
export const slot = (label: string, kind: SlotKind): Pattern => ({ is: 'slot', label, kind });
/** A mark kept in the tree under its own name. */
export const mark = (kind: 'comma' | 'colon'): Pattern => ({ is: 'mark', kind, label: kind });
export const comma: Pattern = { is: 'mark', kind: 'comma' };
export const colon: Pattern = { is: 'mark', kind: 'colon' };
export const barLine: Pattern = { is: 'mark', kind: 'bar', label: 'bar-line' };
export const sequence = (...of: readonly Pattern[]): Pattern => ({ is: 'sequence', of });
export const optional = (...of: readonly Pattern[]): Pattern => ({
  is: 'optional',
  of: of.length === 1 ? of[0] : sequence(...of),
});
export const either = (...of: readonly Pattern[]): Pattern => ({ is: 'either', of });
export const many = (of: Pattern, least = 1): Pattern => ({ is: 'repeat', of, least });
export const list = (of: Pattern): Pattern => ({ is: 'repeat', of, least: 1, between: comma });
/** Each of the patterns at most once, in any order. */
export const anyOrder = (...of: readonly Pattern[]): Pattern => ({ is: 'anyOrder', of });
export const group = (label: string, ...of: readonly Pattern[]): Pattern => ({
  is: 'group',
  label,
  of: sequence(...of),
});
export const nothing: Pattern = sequence();

/** What could have stood at the place where matching went furthest. */
export type Expectation = Extract<Pattern, { is: 'word' | 'choice' | 'slot' | 'mark' }>;

export interface Match {
  readonly parts: readonly Part[];
  /** How many words were read. */
  readonly read: number;
  /** The word, by number, at which nothing fitted any more; the count of words where the line ended too early. */
  readonly furthest: number;
  readonly expected: readonly Expectation[];
  /** False where the pattern did not match at all; `parts` is empty then. */
  readonly matched: boolean;
}

interface State {
  readonly words: readonly Word[];
  furthest: number;
  expected: Expectation[];
}

interface Step {
  readonly next: number;
  readonly parts: readonly Part[];
}

/** Matches `pattern` from word number `from` on. The words behind the match are the caller's business. */
export function match(pattern: Pattern, words: readonly Word[], from = 0): Match {
  const state: State = { words, furthest: from, expected: [] };
  const step = take(pattern, from, state);
  return {
    parts: step?.parts ?? [],
    read: step?.next ?? from,
    furthest: state.furthest,
    expected: state.expected,
    matched: step !== undefined,
  };
}

function take(pattern: Pattern, at: number, state: State): Step | undefined {
  switch (pattern.is) {
    case 'sequence': {
      const parts: Part[] = [];
      let next = at;
      for (const inner of pattern.of) {
        const step = take(inner, next, state);
        if (!step) return undefined;
        parts.push(...step.parts);
        next = step.next;
      }
      return { next, parts };
    }
    case 'optional':
      return take(pattern.of, at, state) ?? { next: at, parts: [] };
    case 'either':
      for (const inner of pattern.of) {
        const step = take(inner, at, state);
        if (step) return step;
      }
      return undefined;
    case 'repeat':
      return takeRepeat(pattern, at, state);
    case 'anyOrder':
      return takeAnyOrder(pattern.of, at, state);
    case 'group': {
      const step = take(pattern.of, at, state);
      if (!step) return undefined;
      if (step.next === at) return { next: at, parts: [] };
      const made: Group = {
        label: pattern.label,
        parts: step.parts,
        start: state.words[at].start,
        end: state.words[step.next - 1].end,
      };
      return { next: step.next, parts: [made] };
    }
    default:
      return takeWord(pattern, at, state);
  }
}

function takeRepeat(pattern: Extract<Pattern, { is: 'repeat' }>, at: number, state: State): Step | undefined {
  const parts: Part[] = [];
  let next = at;
  let count = 0;
  for (;;) {
    const between = count > 0 && pattern.between ? take(pattern.between, next, state) : undefined;
    if (count > 0 && pattern.between && !between) break;
    const step = take(pattern.of, between?.next ?? next, state);
    if (!step || step.next === next) break;
    parts.push(...step.parts);
    next = step.next;
    count++;
  }
  return count >= pattern.least ? { next, parts } : undefined;
}

function takeAnyOrder(patterns: readonly Pattern[], at: number, state: State): Step {
  const left = new Set(patterns);
  const parts: Part[] = [];
  let next = at;
  for (let progress = true; progress;) {
    progress = false;
    for (const inner of left) {
      const step = take(inner, next, state);
      if (!step || step.next === next) continue;
      parts.push(...step.parts);
      next = step.next;
      left.delete(inner);
      progress = true;
      break;
    }
  }
  return { next, parts };
}

function takeWord(pattern: Expectation, at: number, state: State): Step | undefined {
  const found = state.words[at];
  if (found && fits(pattern, found)) {
    const label = pattern.label;
    const made: Leaf[] = label === undefined ? [] : [{ label, text: found.text, start: found.start, end: found.end }];
    return { next: at + 1, parts: made };
  }
  if (at > state.furthest) {
    state.furthest = at;
    state.expected = [];
  }
  if (at === state.furthest && !state.expected.includes(pattern)) state.expected.push(pattern);
  return undefined;
}

function fits(pattern: Expectation, found: Word): boolean {
  switch (pattern.is) {
    case 'word':
      return found.kind === 'word' && found.text === pattern.word;
    case 'choice':
      return found.kind === 'word' && pattern.words.includes(found.text);
    case 'mark':
      return found.kind === pattern.kind;
    case 'slot': {
      const kind: SlotForm = slotKinds[pattern.kind];
      return found.kind === (kind.quoted ? 'quoted' : 'word') && kind.fits(found.text);
    }
  }
}

/** Every keyword that a pattern can meet: for the highlighting, the reference and their tests. */
export function wordsOf(pattern: Pattern): readonly string[] {
  switch (pattern.is) {
    case 'word':
      return [pattern.word];
    case 'choice':
      return pattern.words;
    case 'slot':
    case 'mark':
      return [];
    case 'optional':
    case 'group':
      return wordsOf(pattern.of);
    case 'repeat':
      return [...wordsOf(pattern.of), ...(pattern.between ? wordsOf(pattern.between) : [])];
    default:
      return pattern.of.flatMap(wordsOf);
  }
}

/** Every slot that a pattern can meet, with the label it has in the tree; one label has one kind within a line. */
export function slotsOf(pattern: Pattern): readonly Extract<Pattern, { is: 'slot' }>[] {
  switch (pattern.is) {
    case 'slot':
      return [pattern];
    case 'word':
    case 'choice':
    case 'mark':
      return [];
    case 'optional':
    case 'group':
      return slotsOf(pattern.of);
    case 'repeat':
      return [...slotsOf(pattern.of), ...(pattern.between ? slotsOf(pattern.between) : [])];
    default:
      return pattern.of.flatMap(slotsOf);
  }
}
