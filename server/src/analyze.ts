/** The entry of the core: a text in, everything that can be said of it out. Pure; what is dear is computed when it is asked for. */
import { buildLesson } from './lesson/build.ts';
import { ChordBook } from './lesson/chord-book.ts';
import type { Lesson } from './lesson/lesson.ts';
import { Neighbours, type DocumentCache, type Location } from './lesson/neighbours.ts';
import { RealiseCache, realiseSection } from './realise/realise.ts';
import type { Score } from './realise/score.ts';
import { movingWithKey, variantDocument } from './lesson/variant-document.ts';
import { variantLesson, type VariantDefinition } from './lesson/variants.ts';
import { findingsOf, findingsOfVariant } from './rules/findings.ts';
import { editedDocument } from './syntax/edited.ts';
import { transposeEdits } from './transpose/transpose.ts';
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
  /** Sorted by place, without doubles, capped; with what is found in the variants beyond the lesson's own. */
  readonly findings: readonly Finding[];
  /** In the order of the text; of two with one name the first. Each is worked out when it is asked for. */
  readonly variants: readonly VariantAnalysis[];
  /** The other files it speaks of, as paths from the root: all of them, and those that were not fetched yet. */
  readonly files: { readonly asked: ReadonlySet<string>; readonly wanted: ReadonlySet<string> };
}

/**
 * A variant as if it were the lesson, on the same text: whatever shows or exports a lesson takes it too. Its findings are all that
 * is found in it, the lesson's own among them; it has no variants itself.
 */
export interface VariantAnalysis extends Analysis {
  readonly definition: VariantDefinition;
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
  const score = once(() => scoreOf(lesson(), session));
  const variants = once((): readonly VariantAnalysis[] =>
    firstOfEachName(lesson().variants).map((one) => variantOf(one, analysis, session, neighbours)),
  );
  const findings = once(() => findingsOf({ text, lines, lesson: lesson(), score: score() }, variants()));
  const analysis: Analysis = {
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
    get variants() {
      return variants();
    },
    get files() {
      // Building the lesson asks for them.
      lesson();
      return neighbours;
    },
  };
  return analysis;
}

/** Undefined where no variant has that name. */
export const variantNamed = ({ variants }: Analysis, name: string): VariantAnalysis | undefined =>
  variants.find(({ definition }) => definition.name === name);

const scoreOf = ({ sections, settings }: Lesson, { realised }: Session): Score => ({
  sections: sections.map((section) => realiseSection(section.plan, settings, realised)),
});

function variantOf(
  definition: VariantDefinition,
  whole: Analysis,
  session: Session,
  neighbours: Neighbours,
): VariantAnalysis {
  const { text, lines } = whole;
  const document = once(() => variantDocument(inKeyOf(definition, whole), definition));
  const lesson = once(() => {
    const built = buildLesson(document(), lines, session.chords, neighbours);
    return variantLesson(built, whole.lesson, definition);
  });
  const score = once(() => scoreOf(lesson(), session));
  const findings = once(() => findingsOfVariant({ text, lines, lesson: lesson(), score: score() }));
  return {
    definition,
    text,
    lines,
    get document() {
      return document();
    },
    get lesson() {
      return lesson();
    },
    get score() {
      return score();
    },
    get findings() {
      return findings();
    },
    variants: [],
    get files() {
      return whole.files;
    },
  };
}

/** The text's document as it would be in the variant's key. */
function inKeyOf({ key }: VariantDefinition, { document, lesson }: Analysis): SyntaxDocument {
  const { key: from, instrument } = lesson.settings;
  if (!key || (key.tonic.letter === from.tonic.letter && key.tonic.accidental === from.tonic.accidental))
    return document;
  return editedDocument(document, transposeEdits(movingWithKey(document), from, key, instrument));
}

function firstOfEachName(variants: readonly VariantDefinition[]): readonly VariantDefinition[] {
  const names = new Set<string>();
  return variants.filter(({ name }) => !names.has(name) && names.add(name));
}

function once<T>(compute: () => T): () => T {
  let value: { readonly is: T } | undefined;
  return () => (value ??= { is: compute() }).is;
}
