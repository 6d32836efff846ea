/** The entry of the core: a text in, everything that can be said of it out. Pure; what is dear is computed when it is asked for. */
import { buildLesson } from './lesson/build.ts';
import { ChordBook } from './lesson/chord-book.ts';
import type { Lesson } from './lesson/lesson.ts';
import { Neighbours, type DocumentCache, type Location } from './lesson/neighbours.ts';
import { RealiseCache, realiseSection } from './realise/realise.ts';
import type { Score } from './realise/score.ts';
import { findingsOf } from './rules/findings.ts';
import { readDocument, type StatementCache, type SyntaxDocument } from './syntax/document.ts';
import type { Finding } from './util/finding.ts';
import { LineMap } from './util/line-map.ts';

/** What outlives one version of a lesson: an open editor or a batch of files holds one. Everything in it is bounded. */
export class Session {
  readonly statements: StatementCache = new Map();
  /** Of the other files that lessons speak of. */
  readonly documents: DocumentCache = new Map();
  readonly chords = new ChordBook();
  readonly realised = new RealiseCache();
}

export interface Analysis {
  readonly text: string;
  readonly lines: LineMap;
  readonly document: SyntaxDocument;
  readonly lesson: Lesson;
  readonly score: Score;
  /** Sorted by place, without doubles, capped. */
  readonly findings: readonly Finding[];
  /** The other files it speaks of, as paths from the root: all of them, and those that were not fetched yet. */
  readonly files: { readonly asked: ReadonlySet<string>; readonly wanted: ReadonlySet<string> };
}

/**
 * Any text at all gives a result. The same text and neighbours give the same result, whatever the session has seen before.
 * Files that `location` has not fetched yet are named in `files.wanted`; once they are there, the text is analysed again.
 */
export function analyze(text: string, session: Session = new Session(), location?: Location): Analysis {
  const document = readDocument(text, session.statements);
  const lines = new LineMap(text);
  const neighbours = new Neighbours(location, session.statements, session.documents);
  const lesson = once(() => buildLesson(document, lines, session.chords, neighbours));
  const score = once((): Score => ({
    sections: lesson().sections.map((section) => realiseSection(section.plan, lesson().settings, session.realised)),
  }));
  const findings = once(() => findingsOf({ text, lines, lesson: lesson(), score: score() }));
  return {
    text,
    lines,
    document,
    get lesson() {
      return lesson();
    },
    get score() {
      return score();
    },
    get findings() {
      return findings();
    },
    get files() {
      // Building the lesson asks for them.
      lesson();
      return neighbours;
    },
  };
}

function once<T>(compute: () => T): () => T {
  let value: { readonly is: T } | undefined;
  return () => (value ??= { is: compute() }).is;
}
