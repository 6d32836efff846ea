/** Who uses a lesson or a part of one, and what it uses itself: the chain of `use` from file to file. */
import type { Analysis } from '../analyze.ts';
import type { Definition, PartKind } from '../lesson/lesson.ts';
import { leaf } from '../syntax/tree.ts';
import { covers, shifted, type Span } from '../util/span.ts';
import { namedAt, occurrencesIn } from './occurrences.ts';
import { definitionsOf, statementAt, wholeOf } from './place.ts';

/** A whole file, or a part that is given in it. */
export interface Callee {
  /** From the root; undefined for a text that stands alone. */
  readonly path: string | undefined;
  /** Undefined for the whole file. */
  readonly part?: { readonly kind: PartKind; readonly name: string };
}

/** One thing that is used, and the places where. */
export interface Call {
  readonly to: Callee;
  /** At least one, in the order of the text. */
  readonly spans: readonly Span[];
}

/** How a file or a part shows itself in a list. */
export interface CallSign {
  readonly name: string;
  readonly kind: 'lesson' | 'section' | 'part';
  /** What it is: `shape`, `lesson`. */
  readonly detail: string;
  readonly whole: Span;
  /** Inside `whole`. */
  readonly named: Span;
}

/** Statements that name the file itself. */
const HEADS: ReadonlySet<string> = new Set(['lesson', 'course', 'library']);

/** What is meant at an offset: the file that a `use` brings, the part whose name stands there, or, at its head, the file itself. */
export function calleeAt(analysis: Analysis, offset: number): Callee | undefined {
  const found = namedAt(analysis, offset);
  if (found) {
    const { kind, name, path, exists } = found.named;
    return exists ? { path, part: { kind, name } } : undefined;
  }
  const statement = statementAt(analysis, offset);
  if (!statement || !covers(wholeOf(statement), offset)) return undefined;
  const { keyword, head } = statement.tree;
  if (keyword === 'use') {
    const at = leaf(head, 'path');
    const span = at && shifted(at, statement.start);
    const used = analysis.lesson.imports.find((one) => one.span.start === span?.start);
    return used?.to === undefined ? undefined : { path: used.to };
  }
  return HEADS.has(keyword ?? '') && covers(shifted(head, statement.start), offset)
    ? { path: analysis.files.path }
    : undefined;
}

/** Where a file uses something; empty where it does not. */
export function callsIn(analysis: Analysis, { path, part }: Callee): readonly Span[] {
  if (part) {
    const named = { ...part, path, exists: true };
    return occurrencesIn(analysis, named).flatMap(({ span, gives }) => (gives ? [] : span));
  }
  return path === undefined ? [] : analysis.lesson.imports.filter(({ to }) => to === path).map(({ span }) => span);
}

/** What the whole file brings in, or what one of its parts calls for, in the order of the text. */
export function callsOf(analysis: Analysis, part: Callee['part']): readonly Call[] {
  const calls = new Map<string, { to: Callee; spans: Span[] }>();
  const add = (to: Callee, span: Span): void => {
    const key = `${to.path ?? ''}\n${to.part?.kind ?? ''}\n${to.part?.name ?? ''}`;
    const call = calls.get(key);
    if (!call) calls.set(key, { to, spans: [span] });
    else if (call.spans.every(({ start }) => start !== span.start)) call.spans.push(span);
  };
  const pathOf = (definition: Definition): string | undefined => definition.from?.path ?? analysis.files.path;
  if (!part) {
    for (const { to, span, names, brought } of analysis.lesson.imports) {
      if (to !== undefined) add({ path: to }, span);
      for (const { name, span: at } of names) {
        for (const one of brought.filter((definition) => definition.name === name))
          add({ path: pathOf(one), part: { kind: one.kind, name } }, at);
      }
    }
    return [...calls.values()];
  }
  const own = givenIn(analysis, part);
  const uses = analysis.lesson.uses.filter(
    ({ span }) => own && own.whole.start <= span.start && span.end <= own.whole.end,
  );
  for (const { span, definition } of [...uses].sort((a, b) => a.span.start - b.span.start)) {
    if (definition) add({ path: pathOf(definition), part: { kind: definition.kind, name: definition.name } }, span);
  }
  return [...calls.values()];
}

/** A part as it is given in its own file; the file itself by its title. Undefined where the part is not there any more. */
export function signOf(analysis: Analysis, part: Callee['part']): CallSign | undefined {
  if (part) {
    const own = givenIn(analysis, part);
    const kind = part.kind === 'section' ? 'section' : 'part';
    return own && { name: own.name, kind, detail: own.kind, whole: own.whole, named: own.span };
  }
  const { text, files } = analysis;
  const whole = { start: 0, end: text.length };
  const head = analysis.document.statements.find(({ tree }) => HEADS.has(tree.keyword ?? ''));
  const title = head && leaf(head.tree.head, 'title');
  const name = title?.text || (files.path?.slice(files.path.lastIndexOf('/') + 1) ?? 'lesson');
  const named = head ? shifted(title ?? head.tree.head.keyword, head.start) : { start: 0, end: 0 };
  return { name, kind: 'lesson', detail: files.path ?? '', whole, named };
}

const givenIn = (analysis: Analysis, { kind, name }: NonNullable<Callee['part']>): Definition | undefined =>
  definitionsOf(analysis).find((one) => !one.from && one.kind === kind && one.name === name);
