/** What the product has to say about a text, and how it may be mended. Knows nothing of music or of any editor. */
import type { Span } from './span.ts';

export type Severity = 'error' | 'warning' | 'hint' | 'information';

/** One replacement of text; the edits of a fix never overlap. */
export interface Edit {
  readonly span: Span;
  readonly text: string;
}

export interface Fix {
  /** What the fix does, as an order: "Write `key D major`". */
  readonly title: string;
  readonly edits: readonly Edit[];
}

/** A second place that explains a finding: "the shape is defined here". */
export interface Related {
  readonly span: Span;
  readonly message: string;
}

export interface Finding {
  /** The rule's code, which is its file's name: `stretch-too-wide`. */
  readonly code: string;
  readonly severity: Severity;
  readonly message: string;
  readonly span: Span;
  readonly related: readonly Related[];
  readonly fixes: readonly Fix[];
}

/** Something the syntax or the building of the lesson could not read. A rule of the same name words it. */
export interface Problem {
  /** The code of the rule that words this problem. */
  readonly kind: string;
  readonly span: Span;
  /** What the wording needs: the word met, the words that would do. */
  readonly data: Readonly<Record<string, string>>;
}
