/** The entry of the core: a text in, everything that can be said of it out. Pure; what is dear is computed when it is asked for. */
import { buildLesson } from './lesson/build.ts';
import { ChordBook } from './lesson/chord-book.ts';
import type { Lesson } from './lesson/lesson.ts';
import { Neighbours, type DocumentCache, type Location } from './lesson/neighbours.ts';
import { RealiseCache, realiseSection } from './realise/realise.ts';
import type { Score } from './realise/score.ts';
import { movingWithKey, variantDocument } from './lesson/variant-document.ts';
import { MOST_VARIANTS, variantLesson, type VariantDefinition } from './lesson/variants.ts';
import { findingsOf, findingsOfVariant, findingsWithVariants } from './rules/findings.ts';
import type { Findable } from './rules/rule.ts';
import { editedDocument } from './syntax/edited.ts';
import { formatNoteName } from './theory/note.ts';
import { transposition, type Loss, type Transposition } from './transpose/transpose.ts';
import { readDocument, type StatementCache, type SyntaxDocument } from './syntax/document.ts';
import type { Finding, Related } from './util/finding.ts';
import { LineMap } from './util/line-map.ts';

/** What outlives one version of a lesson: an open editor or a batch of files holds one. Everything in it is bounded. */
export class Session {
  readonly statements: StatementCache = new Map();
  /** Of the other files that lessons speak of. */
  readonly documents: DocumentCache = new Map();
  readonly chords = new ChordBook();
  readonly realised = new RealiseCache();
  private readonly variants = new Map<string, RealiseCache>();

  /** A variant has a cache of its own, so that it does not drive out what the lesson needs again with the next keystroke. */
  realisedIn(variant: string): RealiseCache {
    const cache = this.variants.get(variant) ?? new RealiseCache();
    this.variants.delete(variant);
    this.variants.set(variant, cache);
    const [oldest] = this.variants.keys();
    if (this.variants.size > MOST_VARIANTS) this.variants.delete(oldest);
    return cache;
  }
}

export interface Analysis {
  readonly text: string;
  readonly lines: LineMap;
  readonly document: SyntaxDocument;
  readonly lesson: Lesson;
  readonly score: Score;
  /** What is found in the lesson itself: known before its variants are worked out. Sorted by place, without doubles, capped. */
  readonly ownFindings: readonly Finding[];
  /** The same with what is found in its variants beyond that. */
  readonly findings: readonly Finding[];
  /** In the order of the text; of two with one name the first. Each is worked out when it is asked for. */
  readonly variants: readonly VariantAnalysis[];
  /** The other files it speaks of, as paths from the root: all of them, and those that were not fetched yet. */
  readonly files: {
    /** The lesson's own; undefined where it stands alone. */
    readonly path?: string | undefined;
    readonly asked: ReadonlySet<string>;
    readonly wanted: ReadonlySet<string>;
    /** The text of one of them, by its path from the root; null where there is none, undefined where it was not fetched yet. */
    read(path: string): string | null | undefined;
  };
  /** Another text in the place of this one, among the same files and with all that is worked out already: what an edit would make. */
  rewritten(text: string): Analysis;
}

/**
 * A variant as if it were the lesson, on the same text: whatever shows or exports a lesson takes it too. Its findings are all that
 * is found in it, the lesson's own among them; it has no variants itself.
 */
export interface VariantAnalysis extends Analysis {
  readonly definition: VariantDefinition;
  /** What did not go along to the variant’s key. */
  readonly leftBehind: readonly Related[];
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
  const score = once(() => scoreOf(lesson(), session.realised));
  const variants = once((): readonly VariantAnalysis[] =>
    firstOfEachName(lesson().variants).map((one) => variantOf(one, analysis, session, neighbours)),
  );
  const findable = (): Findable => ({ text, lines, lesson: lesson(), score: score() });
  const ownFindings = once(() => findingsOf(findable()));
  const findings = once(() => findingsWithVariants(ownFindings(), findable(), variants()));
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
    get ownFindings() {
      return ownFindings();
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
    rewritten: (other) => analyze(other, session, location),
  };
  return analysis;
}

/** Undefined where no variant has that name. */
export const variantNamed = ({ variants }: Analysis, name: string): VariantAnalysis | undefined =>
  variants.find(({ definition }) => definition.name === name);

const scoreOf = ({ sections, settings }: Lesson, realised: RealiseCache): Score => ({
  sections: sections.map((section) => realiseSection(section.plan, settings, realised)),
});

function variantOf(
  definition: VariantDefinition,
  whole: Analysis,
  session: Session,
  neighbours: Neighbours,
): VariantAnalysis {
  const { text, lines } = whole;
  const moved = once(() => movedTo(definition, whole));
  const leftInFiles = new Map<string, readonly Loss[]>();
  const document = once(() => {
    const { edits } = moved();
    return variantDocument(editedDocument(whole.document, edits), definition);
  });
  const lesson = once(() => {
    const moving = moved() === UNMOVED ? neighbours : neighbours.moving(inKeyOf(definition, whole, leftInFiles));
    const built = buildLesson(document(), lines, session.chords, moving);
    return variantLesson(built, whole.lesson, definition);
  });
  const score = once(() => scoreOf(lesson(), session.realisedIn(definition.name)));
  const findings = once(() => findingsOfVariant({ text, lines, lesson: lesson(), score: score() }, definition));
  return {
    definition,
    get leftBehind() {
      // Building the lesson moves the files that it uses.
      lesson();
      return [...moved().losses.filter(({ kind }) => kind === 'neck'), ...usesLeftBehind(whole.lesson, leftInFiles)];
    },
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
    get ownFindings() {
      return findings();
    },
    get findings() {
      return findings();
    },
    variants: [],
    get files() {
      return whole.files;
    },
    rewritten: (other) => whole.rewritten(other),
  };
}

const UNMOVED: Transposition = { edits: [], losses: [] };

/** How the text is moved to the variant's key, where it names one with another tonic. */
function movedTo({ key }: VariantDefinition, { document, lesson }: Analysis): Transposition {
  const { key: from, instrument } = lesson.settings;
  const isSame = !key || formatNoteName(key.tonic) === formatNoteName(from.tonic);
  return isSame ? UNMOVED : transposition(movingWithKey(document), from, key, instrument);
}

/** Another file in the variant's key; what of it does not fit the neck there is noted by its path. */
function inKeyOf(
  { key }: VariantDefinition,
  { lesson }: Analysis,
  left: Map<string, readonly Loss[]>,
): (document: SyntaxDocument, path: string) => SyntaxDocument {
  const { key: from, instrument } = lesson.settings;
  return (document, path) => {
    const { edits, losses } = transposition(movingWithKey(document), from, key!, instrument);
    left.set(
      path,
      losses.filter(({ kind }) => kind === 'neck'),
    );
    return editedDocument(document, edits);
  };
}

/** What of the files that the lesson uses stays in the old key, at the words that bring it. */
const usesLeftBehind = ({ imports }: Lesson, left: ReadonlyMap<string, readonly Loss[]>): readonly Related[] =>
  imports.flatMap(({ to, span }) => (left.get(to ?? '') ?? []).map(({ message }) => ({ span, message })));

function firstOfEachName(variants: readonly VariantDefinition[]): readonly VariantDefinition[] {
  const names = new Set<string>();
  return variants.filter(({ name }) => !names.has(name) && names.add(name));
}

function once<T>(compute: () => T): () => T {
  let value: { readonly is: T } | undefined;
  return () => (value ??= { is: compute() }).is;
}
