/** What a rule is: one kind of finding, with its reason, its examples, and the check or the wording that makes it. */
import type { Lesson } from '../lesson/lesson.ts';
import type { Location } from '../lesson/neighbours.ts';
import type { Score } from '../realise/score.ts';
import type { Fix, Related, Severity } from '../util/finding.ts';
import type { LineMap } from '../util/line-map.ts';
import type { Span } from '../util/span.ts';
import type { VariantDefinition } from '../lesson/variants.ts';
import type { PlacedChord } from './shared/chords.ts';

/** What the rules of a page of the reference have in common. */
export type Topic = 'words' | 'names' | 'files' | 'music' | 'shapes' | 'hands' | 'playing' | 'claims';

/** What findings are made from: an analysed text. */
export interface Findable {
  readonly text: string;
  readonly lines: LineMap;
  readonly lesson: Lesson;
  readonly score: Score;
}

/** A variant with the lesson that it makes, whose places are those of the text. */
export interface Variant {
  readonly definition: VariantDefinition;
  readonly lesson: Lesson;
  /** What did not go along to its key, and why. */
  readonly leftBehind: readonly Related[];
}

export interface Context extends Findable {
  /** The codes of all rules, for what speaks of codes. */
  readonly codes: readonly string[];
  /** Every chord of every section, as planned, as played and where it stands, in the order of the sections. */
  readonly chords: readonly PlacedChord[];
  /** The lesson's variants; none where the lesson looked at is itself one. */
  readonly variants: readonly Variant[];
}

export interface Found {
  readonly span: Span;
  readonly message: string;
  /** Where it is graver or lighter than the rule is as a rule. */
  readonly severity?: Severity;
  readonly related?: readonly Related[];
  readonly fixes?: readonly Fix[];
}

export type ProblemData = Readonly<Record<string, string>>;

/** How a problem that syntax or lesson met is put into words. */
export interface Wording {
  message(data: ProblemData): string;
  fixes?(data: ProblemData, span: Span, text: string): readonly Fix[];
}

interface RuleText {
  /** The name of the rule's file and its key in the registry. */
  readonly code: string;
  readonly severity: Severity;
  readonly topic: Topic;
  readonly title: string;
  /** Why a teacher would care, in a paragraph. */
  readonly why: string;
  /** A whole small lesson that gives exactly one finding, of this code; a function where it is long. */
  readonly bad: string | (() => string);
  /** The same, mended: it gives no finding at all. */
  readonly good: string | (() => string);
  /** The files beside both examples, by their paths from the root. */
  readonly beside?: Readonly<Record<string, string>>;
  /** Where both examples stand; `lesson.lesson` where it does not matter. */
  readonly path?: string;
  /** Whether the page carries the caution for the hands. */
  readonly care?: boolean;
  /**
   * `text`: the text as a whole, whatever its variants play. `variants`: what the variants are beside the lesson. `practice`: its
   * plan, by which a variant is judged only where it has one of its own. Else: the music.
   */
  readonly speaksOf?: 'text' | 'variants' | 'practice';
  /** Whether its only fix is what was surely meant: an editor may take it unasked, and with all such fixes at once. */
  readonly sure?: boolean;
  /** Whether an editor may draw the place faded, as something that is not needed. */
  readonly fades?: boolean;
}

/** Words problems of its code's kind. */
export interface ProblemRule extends RuleText {
  readonly problem: Wording;
}

/** Looks for its findings itself. */
export interface CheckRule extends RuleText {
  check(context: Context): Iterable<Found>;
}

export type Rule = ProblemRule | CheckRule;

/** The text of an example. */
export const exampleText = (example: string | (() => string)): string =>
  typeof example === 'string' ? example : example();

/** Where a rule's examples stand: among the files that it says, or alone. */
export function exampleLocation({ beside, path }: Rule): Location | undefined {
  if (!beside && path === undefined) return undefined;
  return { path: path ?? 'lesson.lesson', files: { read: (other) => beside?.[other] ?? null } };
}
