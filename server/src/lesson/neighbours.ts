/** The other files that a lesson speaks of, as the outside has fetched them. Reads none itself. */
import { readDocument, type StatementCache, type SyntaxDocument } from '../syntax/document.ts';
import { pathFrom } from '../util/lesson-path.ts';

/** Texts by their paths from the root; null where there is no such file, undefined where nobody has looked yet. */
export interface Files {
  read(path: string): string | null | undefined;
}

/** Where a lesson stands among its neighbours. */
export interface Location {
  /** The lesson's own path from the root, with slashes: `week-1/monday.lesson`. */
  readonly path: string;
  readonly files: Files;
}

/** Texts read before, by path; belongs to a session. */
export type DocumentCache = Map<string, { readonly text: string; readonly document: SyntaxDocument }>;

/** More files than a year of lessons speaks of. */
const MOST_FILES = 800;

export class Neighbours {
  /** Every path that was asked for: when one of them changes, the lesson must be looked at again. */
  readonly asked = new Set<string>();
  /** Those of them that nobody has fetched yet. */
  readonly wanted = new Set<string>();

  constructor(
    private readonly location: Location | undefined,
    private readonly statements: StatementCache,
    private readonly documents: DocumentCache,
    /** What is made of another file before it is read: in a variant with a key of its own, the file in that key. */
    private readonly moved: (document: SyntaxDocument, path: string) => SyntaxDocument = (document) => document,
  ) {}

  /** The same files, each made into another before it is read. */
  moving(moved: (document: SyntaxDocument, path: string) => SyntaxDocument): Neighbours {
    return new Neighbours(this.location, this.statements, this.documents, moved);
  }

  /** The lesson's own path; undefined where it stands alone, as in a text without a file. */
  get path(): string | undefined {
    return this.location?.path;
  }

  /** Where a path written in this lesson leads; undefined where that is outside the root, or the lesson stands alone. */
  resolve(written: string, from = this.location?.path): string | undefined {
    return from === undefined ? undefined : pathFrom(from, written);
  }

  /** The text of a file; null where there is no such file, undefined where it is not known yet. */
  read(path: string): string | null | undefined {
    return this.location?.files.read(path);
  }

  /** Null where there is no such file, undefined where it is not known yet. */
  document(path: string): SyntaxDocument | null | undefined {
    if (!this.location || (this.asked.size >= MOST_FILES && !this.asked.has(path))) return undefined;
    this.asked.add(path);
    const text = this.location.files.read(path);
    if (text === undefined) this.wanted.add(path);
    if (typeof text !== 'string') return text;
    const known = this.documents.get(path);
    if (known?.text === text) return this.moved(known.document, path);
    const document = readDocument(text, this.statements);
    if (this.documents.size >= MOST_FILES) this.documents.clear();
    this.documents.set(path, { text, document });
    return this.moved(document, path);
  }
}
