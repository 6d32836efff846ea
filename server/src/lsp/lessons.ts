/** The lessons that are open: each with its session, and one analysis a version, made when it is first asked for. */
import { analyze, Session, type Analysis } from '../analyze.ts';
import type { Span } from '../util/span.ts';
import type { Position, Range } from 'vscode-languageserver';
import type { LineDocument } from './documents.ts';
import { columnFrom, columnTo, type Encoding } from './positions.ts';

/** One version of an open lesson. */
export class OpenLesson {
  private known: Analysis | undefined;

  constructor(
    readonly document: LineDocument,
    private readonly session: Session,
    private readonly encoding: Encoding,
  ) {}

  get analysis(): Analysis {
    return (this.known ??= analyze(this.document.text, this.session));
  }

  /** Whether an answer costs next to nothing. */
  get isAnalysed(): boolean {
    return this.known !== undefined;
  }

  /** The next version, which keeps what was found out so far. */
  next(document: LineDocument): OpenLesson {
    return new OpenLesson(document, this.session, this.encoding);
  }

  rangeOf({ start, end }: Span): Range {
    return { start: this.positionOf(start), end: this.positionOf(end) };
  }

  positionOf(offset: number): Position {
    const { line, character } = this.analysis.lines.positionAt(offset);
    if (this.encoding === 'utf-16') return { line, character };
    return { line, character: columnTo(this.document.lines[line] ?? '', character, this.encoding) };
  }

  offsetOf({ line, character }: Position): number {
    const { lines } = this.analysis;
    return lines.offsetAt({ line, character: columnFrom(lines.line(line), character, this.encoding) });
  }
}

/** By address. A lesson that is closed is forgotten with all that was kept for it. */
export class OpenLessons {
  private readonly lessons = new Map<string, OpenLesson>();

  constructor(private readonly encoding: () => Encoding) {}

  /** The first version of a lesson, or the next. */
  take(document: LineDocument): OpenLesson {
    const before = this.lessons.get(document.uri);
    const lesson = before ? before.next(document) : new OpenLesson(document, new Session(), this.encoding());
    this.lessons.set(document.uri, lesson);
    return lesson;
  }

  get(uri: string): OpenLesson | undefined {
    return this.lessons.get(uri);
  }

  close(uri: string): void {
    this.lessons.delete(uri);
  }
}
