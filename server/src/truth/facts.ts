/** The facts that prose may tell: what stands in its braces, looked up in the lesson and in what is played. */
import type { Lesson } from '../lesson/lesson.ts';
import type { Score } from '../realise/score.ts';
import type { Span } from '../util/span.ts';
import { rootOf } from './facts-lesson.ts';
import { isNode, UNTOLD, type Node } from './facts-steps.ts';

export { UNTOLD } from './facts-steps.ts';

/** A fact in the words of players, ready to stand in a sentence. */
export interface KnownFact {
  /** `untold` where the music has no answer because of something that has its own finding. */
  readonly value: string;
  readonly untold: boolean;
  /** What kind of fact it is, in a few words. */
  readonly says: string;
}

export interface UnknownFact {
  /** What is wrong, and what to do: one short line. */
  readonly unknown: string;
  /** The part of the path that is wrong, in offsets of the path. */
  readonly at: Span;
  /** What would do in the place of that part, the likeliest first; empty where nothing is near. */
  readonly near: readonly string[];
}

export type Fact = KnownFact | UnknownFact;

export const isKnown = (fact: Fact): fact is KnownFact => 'value' in fact;

/** One step further on the way to a fact, as a list to choose from shows it. */
export interface FactStep {
  readonly name: string;
  readonly says: string;
  /** The fact itself; undefined where the path goes on. */
  readonly value?: string;
}

/** What has been told of a score: the same fact is asked for by the findings, the preview and whatever is written of the lesson. */
const told = new WeakMap<Score, { readonly lesson: Lesson; readonly facts: Map<string, Fact> }>();

/** Any path at all has an answer. `path` is what stands between the braces: `verse.1.chord`. */
export function factAt(path: string, lesson: Lesson, score: Score): Fact {
  let known = told.get(score);
  if (known?.lesson !== lesson) told.set(score, (known = { lesson, facts: new Map() }));
  let fact = known.facts.get(path);
  if (!fact) known.facts.set(path, (fact = withDots(path, lesson, score) ?? lookUp(path, lesson, score)));
  return fact;
}

/** `verse 2 chord` lacks its dots; undefined where that is not what is wrong. */
function withDots(path: string, lesson: Lesson, score: Score): UnknownFact | undefined {
  const right = path.replaceAll(/[\s,/]+/g, '.');
  if (right === path || !isKnown(lookUp(right, lesson, score))) return undefined;
  const unknown = `The parts of a fact are joined by dots; write \`${right}\`.`;
  return { unknown, at: { start: 0, end: path.length }, near: [right] };
}

function lookUp(path: string, lesson: Lesson, score: Score): Fact {
  const parts = path.split('.');
  let node: Node = rootOf(lesson, score);
  let start = 0;
  for (const [index, part] of parts.entries()) {
    const at = { start, end: start + part.length };
    if (part === '' && index > 0) return { ...node.open(parts[index - 1]), at: { start: 0, end: path.length } };
    const step = node.find(part);
    if (!step) return { ...node.missing(part, parts[index + 1]), at };
    const last = index === parts.length - 1;
    if (isNode(step.leads)) {
      node = step.leads;
      if (last) return { ...node.open(part), at };
    } else if (!last) {
      const rest = { start: at.end, end: path.length };
      return {
        unknown: `\`${part}\` is the fact itself, so nothing can follow it; take the rest out.`,
        at: rest,
        near: [''],
      };
    } else {
      const value = step.leads();
      if (typeof value === 'object') return { unknown: value.unknown, at, near: value.near ?? [] };
      return { value: value ?? UNTOLD, untold: value === undefined, says: step.says };
    }
    start = at.end + 1;
  }
  return { ...node.missing('', undefined), at: { start: 0, end: path.length } };
}

/** What may follow the whole steps of `path`, each with its value: `verse.1` for what can be told of that bar. Empty where nothing may. */
export function factsBehind(path: string, lesson: Lesson, score: Score): readonly FactStep[] {
  let node: Node = rootOf(lesson, score);
  for (const part of path === '' ? [] : path.split('.')) {
    const step = node.find(part);
    if (!step || !isNode(step.leads)) return [];
    node = step.leads;
  }
  return node.list().flatMap(({ name, says, leads }): FactStep | readonly never[] => {
    if (isNode(leads)) return { name, says };
    const value = leads();
    return typeof value === 'object' ? [] : { name, says, value: value ?? UNTOLD };
  });
}
