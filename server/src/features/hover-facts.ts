/** What a hover says of a fact in prose: what stands in its place for a reader. */
import type { Analysis } from '../analyze.ts';
import { factAt, isKnown } from '../truth/facts.ts';
import { covers } from '../util/span.ts';
import type { Hover } from './hover.ts';
import { line, strong } from './page.ts';

/** Undefined outside of braces. */
export function factHoverAt({ lesson, score }: Analysis, offset: number): Hover | undefined {
  for (const passage of lesson.passages) {
    if (passage.kind === 'show' || !covers(passage.span, offset)) continue;
    const use = passage.facts.find(({ span }) => covers(span, offset));
    if (!use) continue;
    const fact = factAt(use.path, lesson, score);
    if (!isKnown(fact)) return { span: use.span, page: [line(fact.unknown)] };
    const page = [line(strong(fact.value), `: ${fact.says}.`)];
    if (fact.untold) page.push(line('The music gives no answer here; the finding at its place says why.'));
    return { span: use.span, page };
  }
  return undefined;
}
