/** The head of a lesson: its title, and what a student should know of it beforehand. */
import type { Span } from '../util/span.ts';
import type { SyntaxDocument } from '../syntax/document.ts';
import { leaf, leaves } from '../syntax/tree.ts';
import { Source } from './reader.ts';

const HIGHEST_LEVEL = 5;
const LONGEST_LESSON = 600;

export interface Head {
  readonly title?: string;
  readonly minutes?: number;
  readonly focus: readonly string[];
  /** 1–5. */
  readonly level?: number;
  /** Paths of `needs`, as written, with the places of the words between the quotes. */
  readonly needs: readonly { readonly path: string; readonly span: Span }[];
  /** Places of its lines by their form, and of the title. */
  readonly spans: Readonly<Record<string, Span>>;
}

/** `sources` are the `lesson` statements; a second one is a problem. */
export function readHead(sources: readonly Source[]): Head {
  const [source, ...doubles] = sources;
  for (const double of doubles)
    double.report('said-twice', double.at(double.tree.head.keyword), { word: 'lesson', statement: 'text' });
  if (!source) return { focus: [], needs: [], spans: {} };
  const title = leaf(source.tree.head, 'title');
  const spans: Record<string, Span> = {};
  for (const line of source.tree.body) spans[line.form] = source.at(line);
  if (title) spans.title = source.at(title);
  return {
    title: title?.text,
    minutes: source.number(leaf(source.line('minutes'), 'minutes'), 'the minutes', 1, LONGEST_LESSON),
    focus: leaves(source.line('focus'), 'focus').map((word) => word.text),
    level: source.number(leaf(source.line('level'), 'level'), 'the level', 1, HIGHEST_LEVEL),
    needs: leaves(source.line('needs'), 'path').map((word) => ({ path: word.text, span: source.at(word) })),
    spans,
  };
}

/** The head of another file, without a word on what is wrong in it: that is said where it stands. */
export function headOf(document: SyntaxDocument): Head | undefined {
  const sources = document.statements.flatMap((placed) =>
    placed.tree.keyword === 'lesson' ? [new Source(placed, () => {})] : [],
  );
  return sources.length === 0 ? undefined : readHead(sources.slice(0, 1));
}
