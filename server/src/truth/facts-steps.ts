/** The way to a fact, step by step: what may follow, and what to say where something else does. */
import { nearest } from '../util/nearest.ts';
import { listed, quoted } from './words.ts';

/** What stands for a fact that the music does not answer, because of something that has a finding of its own. */
export const UNTOLD = '–';

/** The fact in words; undefined where something that has its own finding leaves it open. */
export type Answer = string | undefined | { readonly unknown: string; readonly near?: readonly string[] };

export interface Step {
  readonly name: string;
  /** What it is, in a few words. */
  readonly says: string;
  /** The fact, or where its path goes on. */
  readonly leads: Node | (() => Answer);
}

export interface Unanswered {
  readonly unknown: string;
  readonly near: readonly string[];
}

export interface Node {
  find(part: string): Step | undefined;
  /** What may follow, in the order in which a list shows it. */
  list(): readonly Step[];
  /** Where `part` is none of the steps; `next` is what stands behind it. */
  missing(part: string, next: string | undefined): Unanswered;
  /** Where the path ends here, at `part`. */
  open(part: string): Unanswered;
}

export const isNode = (leads: Step['leads']): leads is Node => typeof leads !== 'function';

/** More of them than these are no help in a message. */
const MOST_NAMED = 12;
const LONGEST_SHOWN = 40;

/** A part of a path as a message shows it. */
export const shown = (part: string): string =>
  quoted(part.length > LONGEST_SHOWN ? `${part.slice(0, LONGEST_SHOWN)}…` : part);

/** `do you mean …?` where one name is near; else which there are, as far as that helps. */
export function meant(part: string, names: readonly string[], what: string): Unanswered {
  const right = nearest(part, names);
  if (right !== undefined) return { unknown: `${what}; do you mean ${quoted(right)}?`, near: [right] };
  const listedNames = names.length > 0 && names.length <= MOST_NAMED ? `; there is ${listed(names.map(quoted))}` : '';
  return { unknown: `${what}${listedNames}.`, near: [] };
}

/** A node whose steps are few and named. */
export function nodeOf(steps: readonly Step[], missing: Node['missing'], open: Node['open']): Node {
  return { find: (part) => steps.find(({ name }) => name === part), list: () => steps, missing, open };
}
