/** The lessons that are open: each with its session, and one analysis a version, made when it is first asked for. */
import { analyze, Session, type Analysis } from '../analyze.ts';
import type { Finding } from '../util/finding.ts';
import { LineMap } from '../util/line-map.ts';
import type { Span } from '../util/span.ts';
import type { Location, Position, Range } from 'vscode-languageserver';
import { carriedOver } from './carried.ts';
import type { LineDocument } from './documents.ts';
import { encoded, known, type Placed } from './library-files.ts';
import { columnFrom, columnTo, type Encoding } from './positions.ts';

/** One version of an open lesson. */
export class OpenLesson {
  private known: Analysis | undefined;
  /** What is found in its variants and not in the lesson itself, once that is known. */
  private inVariants: readonly Finding[] | undefined;

  constructor(
    readonly document: LineDocument,
    private readonly session: Session,
    private readonly encoding: Encoding,
    private readonly locate: (uri: string) => Placed | undefined,
    /** What was found in the variants of the version before, at its places in this one. */
    private readonly inVariantsBefore: readonly Finding[] = [],
  ) {}

  get analysis(): Analysis {
    return (this.known ??= analyze(this.document.text, this.session, this.locate(this.document.uri)));
  }

  /** The address that the lesson's paths count from; undefined for one that stands alone. */
  get root(): string | undefined {
    return this.locate(this.document.uri)?.root;
  }

  get hasVariants(): boolean {
    return this.analysis.lesson.variants.length > 0;
  }

  get findings(): readonly Finding[] {
    const { findings, ownFindings } = this.analysis;
    if (!this.inVariants) {
      const own = new Set(ownFindings);
      this.inVariants = findings.filter((finding) => !own.has(finding));
    }
    return findings;
  }

  /** What can be said before the variants are worked out: of them, what was true of the version before. */
  get findingsAtOnce(): readonly Finding[] {
    if (this.inVariants || !this.hasVariants) return this.findings;
    return [...this.analysis.ownFindings, ...this.inVariantsBefore];
  }

  /** Whether an answer costs next to nothing. */
  get isAnalysed(): boolean {
    return this.known !== undefined;
  }

  /** The next version, or the same among other files, which keeps what was found out so far. */
  next(document: LineDocument): OpenLesson {
    const known = this.inVariants ?? this.inVariantsBefore;
    const carried = carriedOver(known, this.document.text, document.text);
    return new OpenLesson(document, this.session, this.encoding, this.locate, carried);
  }

  rangeOf({ start, end }: Span): Range {
    return { start: this.positionOf(start), end: this.positionOf(end) };
  }

  positionOf(offset: number): Position {
    const { line, character } = this.analysis.lines.positionAt(offset);
    if (this.encoding === 'utf-16') return { line, character };
    return { line, character: columnTo(this.document.lines[line] ?? '', character, this.encoding) };
  }

  /** A place in a file beside the lesson, by its path from the root; undefined where that file is not known. */
  placeIn(path: string, { start, end }: Span): Location | undefined {
    const placed = this.locate(this.document.uri);
    const text = placed?.files.read(path);
    if (!placed || typeof text !== 'string') return undefined;
    const lines = new LineMap(text);
    const positionOf = (offset: number): Position => {
      const { line, character } = lines.positionAt(offset);
      return { line, character: columnTo(lines.line(line), character, this.encoding) };
    };
    return { uri: encoded(`${placed.root}${path}`), range: { start: positionOf(start), end: positionOf(end) } };
  }

  offsetOf({ line, character }: Position): number {
    const { lines } = this.analysis;
    return lines.offsetAt({ line, character: columnFrom(lines.line(line), character, this.encoding) });
  }
}

/** By address. A lesson that is closed is forgotten with all that was kept for it. */
export class OpenLessons {
  private readonly lessons = new Map<string, OpenLesson>();
  private readonly listeners: (() => void)[] = [];

  constructor(
    private readonly encoding: () => Encoding,
    private readonly locate: (uri: string) => Placed | undefined,
  ) {}

  /** The first version of a lesson, or the next. */
  take(document: LineDocument): OpenLesson {
    const before = this.lessons.get(document.uri);
    const lesson = before
      ? before.next(document)
      : new OpenLesson(document, new Session(), this.encoding(), this.locate);
    this.lessons.set(document.uri, lesson);
    if (before?.document === document) for (const listener of this.listeners) listener();
    return lesson;
  }

  /** `listener` is called when a lesson may mean something else without having been written in: a file that it speaks of is another. */
  onLookedAtAgain(listener: () => void): void {
    this.listeners.push(listener);
  }

  get(uri: string): OpenLesson | undefined {
    return this.lessons.get(uri);
  }

  /** The same, however the address is spelt. */
  at(uri: string): OpenLesson | undefined {
    return (
      this.lessons.get(uri) ?? [...this.lessons.values()].find(({ document }) => known(document.uri) === known(uri))
    );
  }

  /** The addresses of all that are open. */
  get uris(): readonly string[] {
    return [...this.lessons.keys()];
  }

  close(uri: string): void {
    this.lessons.delete(uri);
  }
}
