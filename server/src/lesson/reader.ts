/** What every reader of a statement needs: where it stands in the text, and where to say what is wrong. */
import type { Problem } from '../util/finding.ts';
import { shifted, type Span } from '../util/span.ts';
import type { PlacedStatement } from '../syntax/document.ts';
import type { Leaf, Line, Statement } from '../syntax/tree.ts';
import type { Definition, NameUse, PartKind } from './lesson.ts';

export type Report = (kind: string, span: Span, data?: Readonly<Record<string, string>>) => void;

/** Gathers problems; the same problem at the same place is said once. */
export class Problems {
  readonly all: Problem[] = [];
  private readonly seen = new Set<string>();

  readonly report: Report = (kind, span, data = {}) => {
    const mark = `${kind} ${span.start} ${span.end}`;
    if (this.seen.has(mark)) return;
    this.seen.add(mark);
    this.all.push({ kind, span, data });
  };
}

/** Where a part of another file is brought in, and what the names in it mean there. */
export interface BroughtIn {
  /** From the root of the library. */
  readonly path: string;
  /** The word of `use` that brings it: all that is to be said of the part is said there. */
  readonly span: Span;
  readonly scope: Scope;
}

/** One statement in its place. */
export class Source {
  readonly tree: Statement;

  constructor(
    private readonly placed: PlacedStatement,
    readonly report: Report,
    /** Undefined for what stands in the lesson's own text. */
    readonly from?: BroughtIn,
  ) {
    this.tree = placed.tree;
  }

  /** Where a node of the tree stands in the text; for what another file brings, the word that brings it. */
  at(node: Span): Span {
    return this.from?.span ?? shifted(node, this.placed.start);
  }

  /** A whole number between `least` and `most`, or undefined and a problem. */
  number(leaf: Leaf | undefined, what: string, least: number, most: number): number | undefined {
    if (!leaf) return undefined;
    const value = Number(leaf.text);
    if (value >= least && value <= most) return value;
    this.report('number-out-of-range', this.at(leaf), { what, found: leaf.text, least: `${least}`, most: `${most}` });
    return undefined;
  }

  /** A string's number; `count` strings there are. */
  string(leaf: Leaf, count: number): number | undefined {
    const value = Number(leaf.text);
    if (value >= 1 && value <= count) return value;
    this.report('unknown-string', this.at(leaf), { found: leaf.text, count: `${count}` });
    return undefined;
  }

  /** What stands first of a statement: name, whole and the places of its lines. */
  definition(kind: PartKind, name: Leaf): Definition {
    const lines: Record<string, Span> = {};
    for (const line of this.tree.body) lines[line.form] ??= this.at(line);
    const end = Math.max(this.tree.head.end, ...this.tree.body.map((line) => line.end));
    const { text } = name;
    if (!/^\p{L}[\p{L}\p{N}-]*$/u.test(text)) this.report('bad-name', this.at(name), { name: text });
    else if (/^x[x\d-]*$/i.test(text) && text.length > 1) this.report('name-like-frets', this.at(name), { name: text });
    const broken = this.tree.head.broken || this.tree.body.some((line) => line.broken);
    return {
      kind,
      name: text,
      span: this.at(name),
      whole: this.at({ start: this.tree.head.start, end }),
      lines,
      broken,
      ...(this.from && { from: { path: this.from.path, span: shifted(name, this.placed.start) } }),
    };
  }

  line(form: string): Line | undefined {
    return this.tree.body.find((line) => line.form === form && !line.broken);
  }

  lines(form: string): readonly Line[] {
    return this.tree.body.filter((line) => line.form === form);
  }
}

/** Names in scope, by kind; looking one up is also noted as a use. */
export class Scope {
  readonly uses: NameUse[] = [];
  private readonly definitions = new Map<string, Definition>();
  /** Names that files bring which nobody has fetched yet; `*` for all that a file has. Nothing is said of them meanwhile. */
  readonly awaited = new Set<string>();

  constructor(private readonly report: Report) {}

  /** A part whose first line cannot be read has its finding there; whoever calls for it need not hear that there is none. */
  awaitBroken({ head, text }: Statement): void {
    const name = head.broken ? /^\S+\s+(\p{L}[\p{L}\p{N}-]*)/u.exec(text.slice(head.start, head.end))?.[1] : undefined;
    if (name !== undefined) this.awaited.add(name);
  }

  add(definition: Definition): void {
    const mark = `${definition.kind} ${definition.name}`;
    const before = this.definitions.get(mark);
    if (!before) this.definitions.set(mark, definition);
    else this.report('doubled-name', definition.span, { kind: definition.kind, name: definition.name });
  }

  /** Built-in parts have a definition without a place; `quiet` for statements whose meaning comes later. */
  use(
    kind: PartKind,
    name: string,
    span: Span,
    quiet = false,
    builtIn: readonly string[] = [],
  ): Definition | undefined {
    const definition = this.definitions.get(`${kind} ${name}`);
    this.uses.push({ kind, name, span, definition });
    const known = definition || builtIn.includes(name) || this.awaited.has('*') || this.awaited.has(name);
    if (!known && !quiet)
      this.report('unknown-name', span, { kind, found: name, names: this.names(kind, builtIn).join(' ') });
    return definition;
  }

  /** What has that name, without a use of it being noted; undefined where nothing has. */
  find(kind: PartKind, name: string): Definition | undefined {
    return this.definitions.get(`${kind} ${name}`);
  }

  /** What another file brings. What the lesson itself has of that kind and name goes before it. */
  bring(definition: Definition): boolean {
    const mark = `${definition.kind} ${definition.name}`;
    if (this.definitions.has(mark)) return false;
    this.definitions.set(mark, definition);
    return true;
  }

  names(kind: PartKind, builtIn: readonly string[] = []): readonly string[] {
    const own = [...this.definitions.values()].filter((one) => one.kind === kind).map((one) => one.name);
    return [...own, ...builtIn];
  }
}
